#include "models/use_factors.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <utility>

namespace drystage::models {

namespace {

using Vector = std::vector<double>;

constexpr double not_better_than = 1e-5;  // of the largest amount
constexpr double normal_95 = 1.959963984540054;

double known(double value) { return std::isfinite(value) ? std::max(value, 0.0) : 0.0; }

bool all_finite(const UseInterval& interval) {
  return std::ranges::all_of(interval.expected, [](double x) { return std::isfinite(x); }) &&
         std::isfinite(interval.used) && std::isfinite(interval.begin_error) &&
         std::isfinite(interval.end_error) && std::isfinite(interval.scatter);
}

/// Something that is not known exactly: a reading, or the use of one interval.
struct Error {
  double sd = 0.0;
  double found = 0.0;  // what it seems to have been
  double times = 1.0;  // its variance, for being odd
  [[nodiscard]] double variance() const { return sd * sd * times; }
  [[nodiscard]] double off() const { return sd > 0.0 ? found / sd : 0.0; }
};

/// An interval, with the places of its errors. Used = factors x expected + begin - end + use.
struct Stretch {
  Vector expected;
  double used = 0.0;
  std::size_t begin = 0;
  std::size_t end = 0;
  std::size_t use = 0;
  std::size_t interval = 0;
};

/// All that is weighed, in shares of the largest amount. The unknowns are the logarithms of the
/// factors in standard deviations of the prior, so that the prior is the unit normal distribution,
/// and a factor that there is not has no effect.
class Weighing {
 public:
  Weighing(const UsePrior& prior, std::span<const UseInterval> intervals);
  void find_most_probable();
  [[nodiscard]] UseFactors factors(std::size_t intervals) const;

 private:
  [[nodiscard]] double logarithm(std::size_t unknown, const Vector& at) const {
    return sd_[unknown] * at[unknown];
  }
  /// What each part of a stretch comes to.
  [[nodiscard]] Vector parts_used(const Stretch& stretch, const Vector& at) const;
  [[nodiscard]] Vector too_much_used(const Vector& at) const;
  [[nodiscard]] Cholesky errors_together() const;
  [[nodiscard]] static double improbability(const Cholesky& errors, const Vector& too_much,
                                            const Vector& at);
  /// Of what is used, by how much each unknown changes it: a column for each, with the errors
  /// made independent and of size 1.
  [[nodiscard]] std::vector<Vector> slopes(const Cholesky& errors) const;
  /// Of the improbability, in the unknowns: as if use went with them in straight lines.
  [[nodiscard]] static SquareMatrix curvature(const std::vector<Vector>& slopes);
  /// What is to be taken from that, since it does not.
  [[nodiscard]] SquareMatrix bend(const Cholesky& errors) const;
  /// Finds anew what each error seems to have been. Says by how much their weights change.
  double weigh_errors(const Cholesky& errors);
  /// Says how far it was, in logarithms.
  double step(const Cholesky& errors);

  Vector sd_;  // the common one, then the parts'
  std::vector<Error> errors_;
  std::vector<Stretch> stretches_;
  Vector at_;
};

Weighing::Weighing(const UsePrior& prior, std::span<const UseInterval> intervals) {
  std::size_t parts = prior.part_sd.size();
  double largest = 0.0;
  for (const UseInterval& interval : intervals) {
    parts = std::max(parts, interval.expected.size());
    if (all_finite(interval)) {
      for (const double amount : interval.expected) {
        largest = std::max(largest, amount);
      }
      largest = std::max({largest, std::abs(interval.used), interval.begin_error,
                          interval.end_error, interval.scatter});
    }
  }
  sd_.assign(parts + 1, 0.0);
  sd_.front() = known(prior.common_sd);
  std::ranges::transform(prior.part_sd, sd_.begin() + 1, known);
  at_.assign(sd_.size(), 0.0);

  const auto error = [&](double sd) {
    errors_.push_back({known(sd) / largest});
    return errors_.size() - 1;
  };
  bool follows = false;
  for (std::size_t i = 0; i < intervals.size(); ++i) {
    const UseInterval& interval = intervals[i];
    if (!all_finite(interval) || largest <= 0.0) {
      follows = false;
      continue;
    }
    Stretch stretch;
    stretch.interval = i;
    stretch.expected.assign(parts, 0.0);
    std::ranges::transform(interval.expected, stretch.expected.begin(),
                           [&](double amount) { return known(amount) / largest; });
    stretch.used = interval.used / largest;
    stretch.begin =
        follows && interval.shares_begin ? stretches_.back().end : error(interval.begin_error);
    stretch.end = error(interval.end_error);
    stretch.use = error(interval.scatter);
    stretches_.push_back(std::move(stretch));
    follows = true;
  }
}

Vector Weighing::parts_used(const Stretch& stretch, const Vector& at) const {
  Vector used = stretch.expected;
  for (std::size_t part = 0; part < used.size(); ++part) {
    used[part] *= std::exp(logarithm(0, at) + logarithm(part + 1, at));
  }
  return used;
}

Vector Weighing::too_much_used(const Vector& at) const {
  Vector too_much;
  for (const Stretch& stretch : stretches_) {
    // Part by part, so that nothing is left where every part is as calculated.
    const Vector parts = parts_used(stretch, at);
    double calculated = 0.0;
    double more = 0.0;
    for (std::size_t part = 0; part < parts.size(); ++part) {
      calculated += stretch.expected[part];
      more += parts[part] - stretch.expected[part];
    }
    too_much.push_back(stretch.used - calculated - more);
  }
  return too_much;
}

Cholesky Weighing::errors_together() const {
  SquareMatrix variance(stretches_.size());
  for (std::size_t i = 0; i < stretches_.size(); ++i) {
    const Stretch& stretch = stretches_[i];
    variance.at(i, i) = errors_[stretch.begin].variance() + errors_[stretch.end].variance() +
                        errors_[stretch.use].variance() + not_better_than * not_better_than;
    if (i > 0 && stretches_[i - 1].end == stretch.begin) {
      variance.at(i, i - 1) = -errors_[stretch.begin].variance();
    }
  }
  return Cholesky(std::move(variance));
}

double Weighing::improbability(const Cholesky& errors, const Vector& too_much, const Vector& at) {
  const Vector independent = errors.half_solve(too_much);
  return std::inner_product(independent.begin(), independent.end(), independent.begin(), 0.0) +
         std::inner_product(at.begin(), at.end(), at.begin(), 0.0);
}

std::vector<Vector> Weighing::slopes(const Cholesky& errors) const {
  std::vector<Vector> columns(at_.size(), Vector(stretches_.size(), 0.0));
  for (std::size_t i = 0; i < stretches_.size(); ++i) {
    const Vector parts = parts_used(stretches_[i], at_);
    for (std::size_t part = 0; part < parts.size(); ++part) {
      columns[0][i] += sd_[0] * parts[part];
      columns[part + 1][i] = sd_[part + 1] * parts[part];
    }
  }
  for (Vector& column : columns) {
    column = errors.half_solve(std::move(column));
  }
  return columns;
}

SquareMatrix Weighing::curvature(const std::vector<Vector>& slopes) {
  SquareMatrix sum(slopes.size());
  for (std::size_t a = 0; a < slopes.size(); ++a) {
    for (std::size_t b = 0; b <= a; ++b) {
      sum.at(a, b) = std::inner_product(slopes[a].begin(), slopes[a].end(), slopes[b].begin(),
                                        a == b ? 1.0 : 0.0);
    }
  }
  return sum;
}

SquareMatrix Weighing::bend(const Cholesky& errors) const {
  const Vector pull = errors.solve(too_much_used(at_));
  SquareMatrix sum(at_.size());
  for (std::size_t i = 0; i < stretches_.size(); ++i) {
    const Vector parts = parts_used(stretches_[i], at_);
    for (std::size_t part = 0; part < parts.size(); ++part) {
      const double pulled = pull[i] * parts[part];
      sum.at(0, 0) += pulled * sd_[0] * sd_[0];
      sum.at(part + 1, 0) += pulled * sd_[0] * sd_[part + 1];
      sum.at(part + 1, part + 1) += pulled * sd_[part + 1] * sd_[part + 1];
    }
  }
  return sum;
}

double Weighing::weigh_errors(const Cholesky& errors) {
  const Vector pull = errors.solve(too_much_used(at_));
  for (Error& error : errors_) {
    error.found = 0.0;
  }
  for (std::size_t i = 0; i < stretches_.size(); ++i) {
    const Stretch& stretch = stretches_[i];
    errors_[stretch.begin].found += errors_[stretch.begin].variance() * pull[i];
    errors_[stretch.end].found -= errors_[stretch.end].variance() * pull[i];
    errors_[stretch.use].found += errors_[stretch.use].variance() * pull[i];
  }
  double changed = 0.0;
  for (Error& error : errors_) {
    const double times = std::max(1.0, std::abs(error.off()) / odd_from);
    changed = std::max(changed, std::abs(times - error.times) / error.times);
    error.times = times;
  }
  return changed;
}

double Weighing::step(const Cholesky& errors) {
  constexpr double furthest = 1.0;  // in logarithms: what is far off is approached by and by
  constexpr double tiny = 1e-5;     // too short to see by rounded sums whether it leads down
  constexpr int most_halvings = 40;
  const Vector too_much = too_much_used(at_);
  const Vector independent = errors.half_solve(too_much);
  const std::vector<Vector> columns = slopes(errors);
  Vector downhill;
  for (std::size_t a = 0; a < at_.size(); ++a) {
    downhill.push_back(
        std::inner_product(columns[a].begin(), columns[a].end(), independent.begin(), -at_[a]));
  }
  const Vector way = Cholesky(curvature(columns)).solve(std::move(downhill));
  double length = 0.0;
  for (std::size_t a = 0; a < way.size(); ++a) {
    length = std::max(length, std::abs(logarithm(a, way)));
  }
  const double before = improbability(errors, too_much, at_);
  double share = length > furthest ? furthest / length : 1.0;
  for (int halving = 0; halving < most_halvings; ++halving, share /= 2.0) {
    Vector next = at_;
    for (std::size_t a = 0; a < next.size(); ++a) {
      next[a] += share * way[a];
    }
    if (length < tiny || improbability(errors, too_much_used(next), next) < before) {
      at_ = std::move(next);
      return share * length;
    }
  }
  return 0.0;
}

void Weighing::find_most_probable() {
  constexpr int most_steps = 200;
  constexpr double near_enough = 1e-12;
  for (int steps = 0; steps < most_steps; ++steps) {
    const Cholesky errors = errors_together();
    const double moved = step(errors);
    if (weigh_errors(errors) < near_enough && moved < near_enough) {
      return;
    }
  }
}

UseFactors Weighing::factors(std::size_t intervals) const {
  UseFactors found;
  const Cholesky errors = errors_together();
  const SquareMatrix straight = curvature(slopes(errors));
  SquareMatrix bent = bend(errors);
  for (std::size_t a = 0; a < at_.size(); ++a) {
    for (std::size_t b = 0; b <= a; ++b) {
      bent.at(a, b) = straight.at(a, b) - bent.at(a, b);
    }
  }
  // Readings that fit no factors may leave no peak where the steps ended.
  Cholesky curved(std::move(bent));
  if (!curved.definite()) {
    curved = Cholesky(straight);
  }
  found.covariance = SquareMatrix(at_.size());
  for (std::size_t a = 0; a < at_.size(); ++a) {
    found.logs.push_back(logarithm(a, at_));
    Vector one(at_.size(), 0.0);
    one[a] = 1.0;
    const Vector column = curved.solve(std::move(one));
    for (std::size_t b = 0; b < at_.size(); ++b) {
      found.covariance.at(a, b) = sd_[a] * sd_[b] * column[b];
    }
  }
  found.common = found.of({});
  for (std::size_t part = 0; part + 1 < at_.size(); ++part) {
    Vector alone(at_.size() - 1, 0.0);
    alone[part] = 1.0;
    found.parts.push_back(found.of(alone));
  }
  found.misfits.resize(intervals);
  for (const Stretch& stretch : stretches_) {
    found.misfits[stretch.interval] = {errors_[stretch.begin].off(), errors_[stretch.end].off(),
                                       errors_[stretch.use].off()};
  }
  return found;
}

}  // namespace

UseFactor UseFactors::of(std::span<const double> mix) const {
  const double common_log = logs.empty() ? 0.0 : logs.front();
  // How the logarithm of the whole goes with each logarithm: a part's by its share of what is used.
  Vector weights(logs.size(), 0.0);
  double calculated = 0.0;
  double used = 0.0;
  for (std::size_t part = 0; part < mix.size(); ++part) {
    const double amount = known(mix[part]);
    const bool has_own = part + 1 < logs.size();
    const double part_used = amount * (has_own ? std::exp(logs[part + 1]) : 1.0);
    calculated += amount;
    used += part_used;
    if (has_own) {
      weights[part + 1] = part_used;
    }
  }
  double log = common_log;
  if (calculated > 0.0) {
    for (double& weight : weights) {
      weight /= used;
    }
    log += std::log(used / calculated);
  }
  double variance = 0.0;
  if (!weights.empty()) {
    weights.front() = 1.0;
    for (std::size_t a = 0; a < weights.size(); ++a) {
      for (std::size_t b = 0; b < weights.size(); ++b) {
        variance += weights[a] * weights[b] * covariance.at(a, b);
      }
    }
  }
  const double half = normal_95 * std::sqrt(std::max(variance, 0.0));
  const auto within = [](double x) {
    return std::clamp(std::exp(x), least_use_factor, most_use_factor);
  };
  return {within(log), within(log - half), within(log + half)};
}

UseFactors learn(const UsePrior& prior, std::span<const UseInterval> intervals) {
  Weighing weighing(prior, intervals);
  weighing.find_most_probable();
  return weighing.factors(intervals.size());
}

}  // namespace drystage::models
