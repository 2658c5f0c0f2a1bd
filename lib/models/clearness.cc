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

}  // namespace

double clear_days_clearness(double mean) {
  const double within = held(mean);
  return 0.6313 + 0.267 * within - 11.9 * std::pow(within - 0.75, 8);
}

double clearness_variation(double mean) {
  const double within = held(mean);
  const double clearest = clear_days_clearness(within);
  const double range = clearest - dullest;
  // How far a mean day is from the clearest, as a share of the range. Below a half, the more so the
  // steeper the fall-off.
  const double wanted = (clearest - within) / range;
  constexpr double even = 0.5;
  constexpr double nearly_even = 1e-3;
  if (std::abs(wanted - even) < nearly_even) return range / std::sqrt(12.0) / within;
  double less = wanted < even ? 1e-6 : -60;
  double more = wanted < even ? 60 : -1e-6;
  constexpr int halvings = 50;
  for (int i = 0; i < halvings; ++i) {
    const double middle = (less + more) / 2;
    (mean_of(middle) > wanted ? less : more) = middle;
  }
  return range * std::sqrt(variance_of((less + more) / 2)) / within;
}

}  // namespace drystage::models
