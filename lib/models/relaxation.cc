#include "models/relaxation.h"

#include <algorithm>
#include <cmath>

namespace drystage::models {

namespace {

constexpr int most_iterations = 100;

/// The time in [from, to] at which q, which only rises or only falls there and passes `target`,
/// does so. Newton's method kept inside a shrinking bracket.
double crossing(const Relaxation& q, double target, double from, double to) {
  if (q.slope == 0.0 && q.bend == 0.0 && q.speed2 == 0.0) {
    const double covered = (target - q.start) / q.speed1;
    const double t = q.k1 > 0.0 ? -std::log1p(-q.k1 * covered) / q.k1 : covered;
    return std::isfinite(t) ? std::clamp(t, from, to) : to;
  }
  const bool rises = q.at(to) > q.at(from);
  double low = from;
  double high = to;
  double t = 0.5 * (low + high);
  for (int i = 0; i < most_iterations; ++i) {
    const double miss = q.at(t) - target;
    if (miss == 0.0) {
      return t;
    }
    if ((miss < 0.0) == rises) {
      low = t;
    } else {
      high = t;
    }
    double next = t - miss / q.rate(t);
    if (!(next > low && next < high)) {
      next = 0.5 * (low + high);
    }
    if (next == t || next <= low || next >= high) {
      return next;
    }
    t = next;
  }
  return t;
}

Relaxation upside_down(const Relaxation& q) {
  Relaxation flipped = q;
  flipped.start = -q.start;
  flipped.slope = -q.slope;
  flipped.speed1 = -q.speed1;
  flipped.speed2 = -q.speed2;
  flipped.bend = -q.bend;
  return flipped;
}

/// Hours of [from, to], where q only rises or only falls, spent above `target`.
double time_above_in(const Relaxation& q, double target, double from, double to) {
  const bool above_first = q.at(from) > target;
  const bool above_last = q.at(to) > target;
  if (above_first == above_last) {
    return above_first ? to - from : 0.0;
  }
  const double t = crossing(q, target, from, to);
  return above_first ? t - from : to - t;
}

/// Whether q turns round within some hours: it turns once at the most, so that it then goes the
/// other way at their end.
bool turns_within(const Relaxation& q, Approaches& end) {
  if (q.bend != 0.0) {
    return q.slope * (q.slope + q.bend * end.of(q.k1).covered) < 0.0;
  }
  if (q.speed1 * q.speed2 >= 0.0) {
    return false;
  }
  const double last = q.speed1 * (1.0 - q.k1 * end.of(q.k1).covered) +
                      q.speed2 * (1.0 - q.k2 * end.of(q.k2).covered);
  return (q.speed1 + q.speed2) * last < 0.0;
}

}  // namespace

double approach(double k, double t) { return k > 0.0 ? -std::expm1(-k * t) / k : t; }

double approach_integral(double k, double t, double covered) {
  const double z = k * t;
  if (z < 0.02) {
    return t * t * (1.0 / 2 - z * (1.0 / 6 - z * (1.0 / 24 - z * (1.0 / 120 - z / 720))));
  }
  return (t - covered) / k;
}

const Approaches::Gone& Approaches::of(double k) {
  for (std::size_t i = 0; i < k_.size(); ++i) {
    if (k_.at(i) == k) {
      return gone_.at(i);
    }
  }
  const std::size_t i = older_;
  older_ = 1 - older_;
  const double covered = approach(k, t_);
  k_.at(i) = k;
  gone_.at(i) = {.covered = covered, .integral = approach_integral(k, t_, covered)};
  return gone_.at(i);
}

Relaxation::Moved Relaxation::moved(Approaches& after) const {
  Moved sum;
  if (speed1 != 0.0) {
    const Approaches::Gone& gone = after.of(k1);
    sum.by = speed1 * gone.covered;
    sum.swept = speed1 * gone.integral;
  }
  if (speed2 != 0.0) {
    const Approaches::Gone& gone = after.of(k2);
    sum.by += speed2 * gone.covered;
    sum.swept += speed2 * gone.integral;
  }
  return sum;
}

double Relaxation::at(Approaches& after) const {
  double q = start + slope * after.hours();
  if (speed1 != 0.0 || bend != 0.0) {
    const Approaches::Gone& gone = after.of(k1);
    q += speed1 * gone.covered + bend * gone.integral;
  }
  if (speed2 != 0.0) {
    q += speed2 * after.of(k2).covered;
  }
  return q;
}

double Relaxation::at(double t) const {
  double q = start + slope * t;
  if (speed1 != 0.0 || bend != 0.0) {
    const double covered = approach(k1, t);
    q += speed1 * covered;
    if (bend != 0.0) {
      q += bend * approach_integral(k1, t, covered);
    }
  }
  if (speed2 != 0.0) {
    q += speed2 * approach(k2, t);
  }
  return q;
}

double Relaxation::rate(double t) const {
  double sum = slope;
  if (speed1 != 0.0) {
    sum += speed1 * std::exp(-k1 * t);
  }
  if (speed2 != 0.0) {
    sum += speed2 * std::exp(-k2 * t);
  }
  if (bend != 0.0) {
    sum += bend * approach(k1, t);
  }
  return sum;
}

double Relaxation::turn() const {
  double t = never;
  if (bend != 0.0) {
    const double covered = -slope / bend;
    if (covered > 0.0 && k1 * covered < 1.0) {
      t = k1 > 0.0 ? -std::log1p(-k1 * covered) / k1 : covered;
    }
  } else if (k1 != k2 && speed1 * speed2 < 0.0) {
    t = std::log(-speed2 / speed1) / (k2 - k1);
  }
  return t > 0.0 ? t : never;
}

double first_at_or_above(const Relaxation& q, double target, double end) {
  const double turn = q.turn();
  double from = 0.0;
  if (turn < end) {
    if (q.at(turn) >= target && q.at(turn) > q.start) {
      return q.start >= target ? 0.0 : crossing(q, target, 0.0, turn);
    }
    from = turn;
  }
  const double first = from > 0.0 ? q.at(from) : q.start;
  const double last = q.at(end);
  if (last < target || last <= first) {
    return never;
  }
  return first >= target ? from : crossing(q, target, from, end);
}

double first_at_or_below(const Relaxation& q, double target, double end) {
  return first_at_or_above(upside_down(q), -target, end);
}

double time_above(const Relaxation& q, double target, double end) {
  const double turn = q.turn();
  if (turn < end) {
    return time_above_in(q, target, 0.0, turn) + time_above_in(q, target, turn, end);
  }
  return time_above_in(q, target, 0.0, end);
}

Reach reach(const Relaxation& q, Approaches& end) {
  const double last = q.at(end);
  Reach span{.low = std::min(q.start, last), .high = std::max(q.start, last)};
  if (turns_within(q, end)) {
    const double extreme = q.at(std::min(q.turn(), end.hours()));
    span.low = std::min(span.low, extreme);
    span.high = std::max(span.high, extreme);
  }
  return span;
}

}  // namespace drystage::models
