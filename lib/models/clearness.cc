#include "models/clearness.h"

#include <algorithm>
#include <cmath>

namespace drystage::models {
namespace {

constexpr double dullest = 0.05;
constexpr double least_mean = 0.3;
constexpr double most_mean = 0.75;

double held(double mean) { return std::clamp(mean, least_mean, most_mean); }

// Of an exponential distribution over 0..1 that falls off as exp(-rate x): its mean and variance.
double mean_of(double rate) { return 1 / rate - 1 / std::expm1(rate); }

double variance_of(double rate) {
  const double half = std::sinh(rate / 2);
  return 1 / (rate * rate) - 1 / (4 * half * half);
}

// At which the mean is `wanted`, a share of the range. Below a half, the more so the steeper the
// fall-off; 0 where it is a half.
double rate_of(double wanted) {
  constexpr double even = 0.5;
  constexpr double nearly_even = 1e-3;
  if (std::abs(wanted - even) < nearly_even) return 0;
  double less = wanted < even ? 1e-6 : -60;
  double more = wanted < even ? 60 : -1e-6;
  // Newton's method kept inside a shrinking bracket: the mean falls as the rate rises, as fast as
  // the variance is great.
  double rate = std::clamp(12 * (even - wanted), less, more);
  constexpr int most_steps = 60;
  for (int i = 0; i < most_steps; ++i) {
    const double excess = mean_of(rate) - wanted;
    (excess > 0 ? less : more) = rate;
    double next = rate + excess / variance_of(rate);
    if (!(next > less && next < more)) next = (less + more) / 2;
    if (std::abs(next - rate) <= 1e-14 * std::abs(rate)) return next;
    rate = next;
  }
  return rate;
}

}  // namespace

double clear_days_clearness(double mean) {
  const double within = held(mean);
  return 0.6313 + 0.267 * within - 11.9 * std::pow(within - 0.75, 8);
}

double clearness_variation(double mean) {
  const double within = held(mean);
  const double clearest = clear_days_clearness(within);
  const double range = clearest - dullest;
  // How far a mean day is from the clearest, as a share of the range.
  const double rate = rate_of((clearest - within) / range);
  const double variance = rate == 0 ? 1 / 12.0 : variance_of(rate);
  return range * std::sqrt(variance) / within;
}

ClearnessOfDays::ClearnessOfDays(double mean)
    : mean_(held(mean)),
      range_(clear_days_clearness(mean_) - dullest),
      rate_(rate_of((clear_days_clearness(mean_) - mean_) / range_)),
      all_(-std::expm1(-rate_)) {}

double ClearnessOfDays::over_mean(double share_of_days) const {
  // The share of days that is clearer than this one.
  const double clearer = 1 - share_of_days;
  const double below = rate_ == 0 ? clearer : -std::log1p(-clearer * all_) / rate_;
  return (dullest + range_ * (1 - below)) / mean_;
}

}  // namespace drystage::models
