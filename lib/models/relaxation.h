#pragma once

#include <algorithm>
#include <array>
#include <limits>

namespace drystage::models {

/// No such time.
inline constexpr double never = std::numeric_limits<double>::infinity();

/// (1 - exp(-k t)) / k, and t where k is 0: what an exponential approach of rate k (per hour, 0 or
/// more) has covered after t hours, per unit of its starting speed.
[[nodiscard]] double approach(double k, double t);

/// The integral of approach(k, .) from 0 to t, accurate for small k t too. `covered` is
/// approach(k, t), which the caller has at hand.
[[nodiscard]] double approach_integral(double k, double t, double covered);

/// What exponential approaches have covered after the same hours t (0 or more), and the integrals
/// of that. The latest two rates are remembered: quantities that move together mostly share them.
class Approaches {
 public:
  explicit Approaches(double t) : t_(t) {}

  struct Gone {
    double covered = 0.0;
    double integral = 0.0;
  };
  [[nodiscard]] const Gone& of(double k);
  [[nodiscard]] double hours() const { return t_; }

 private:
  double t_;
  std::array<double, 2> k_{-1.0, -1.0};
  std::array<Gone, 2> gone_{};
  std::size_t older_ = 0;
};

/// A quantity that follows a piecewise-linear system inside one of its pieces:
///   q(t) = start + slope t + speed1 approach(k1, t) + speed2 approach(k2, t)
///          + bend approach_integral(k1, t)
/// with k1, k2 of 0 or more per hour. Either `slope` and `bend` are both 0 (a temperature) or the
/// two speeds are (a heat content). In both cases q turns round at most once, so a crossing can be
/// found without missing any.
struct Relaxation {
  double start = 0.0;
  double slope = 0.0;
  double speed1 = 0.0;
  double k1 = 0.0;
  double speed2 = 0.0;
  double k2 = 0.0;
  double bend = 0.0;

  /// How far q has moved from `start` after some hours, and the integral of that over them.
  struct Moved {
    double by = 0.0;
    double swept = 0.0;
  };

  /// Where a temperature (see above) has got to after some hours.
  [[nodiscard]] Moved moved(Approaches& after) const;
  /// q after some hours.
  [[nodiscard]] double at(Approaches& after) const;
  /// q after t hours (0 or more).
  [[nodiscard]] double at(double t) const;
  /// Its rate of change per hour after t hours.
  [[nodiscard]] double rate(double t) const;
  /// The one time after 0 at which it turns round; `never` if it does not.
  [[nodiscard]] double turn() const;
};

/// The first time in [0, end] at which a rising q reaches `target`, having been below it (or
/// leaves it, having started on or above it); `never` if it does not. `end` finite.
[[nodiscard]] double first_at_or_above(const Relaxation& q, double target, double end);

/// The same for a falling q.
[[nodiscard]] double first_at_or_below(const Relaxation& q, double target, double end);

/// Hours of [0, end] that q spends above `target`.
[[nodiscard]] double time_above(const Relaxation& q, double target, double end);

/// The lowest and the highest value q takes in [0, end].
struct Reach {
  double low = 0.0;
  double high = 0.0;
};
[[nodiscard]] Reach reach(const Relaxation& q, Approaches& end);

/// Bounds that q keeps within in [0, end], found without an exponential: as far as it would get if
/// nothing slowed it. Never tighter than reach().
[[nodiscard]] inline Reach outer_reach(const Relaxation& q, double end) {
  const double a = q.slope * end;
  const double b = q.speed1 * end;
  const double c = q.speed2 * end;
  const double d = 0.5 * q.bend * end * end;
  const double up = std::max(a, 0.0) + std::max(b, 0.0) + std::max(c, 0.0) + std::max(d, 0.0);
  return {.low = q.start + (a + b + c + d - up), .high = q.start + up};
}

}  // namespace drystage::models
