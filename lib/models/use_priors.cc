#include "models/use_priors.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "models/reading_error.h"
#include "plan/vehicle.h"

namespace drystage::models {

namespace {

/// In the order of plan::Surface, from sealed to soft sand.
constexpr std::array<double, plan::surface_count> surface_sd{0.03, 0.05, 0.08, 0.08, 0.12,
                                                             0.12, 0.15, 0.20, 0.25};

}  // namespace

UsualUse usual_drinking(bool observed) { return {{observed ? 0.10 : 0.25, {}}, 0.15}; }

UsualUse usual_utility() { return {{0.20, {}}, 0.30}; }

UsualUse usual_meals() { return {{0.10, {}}, 0.15}; }

UsualUse usual_fuel(bool own_consumption) {
  return {{own_consumption ? 0.06 : 0.20, {surface_sd.begin(), surface_sd.end()}}, 0.06};
}

UsualUse usual_consumable() { return {{0.25, {}}, 0.30}; }

double most_usual_use(const UsualUse& usual, const UseInterval& interval, double deviations) {
  const UsePrior& prior = usual.prior;
  double most = 0;
  for (std::size_t p = 0; p < interval.expected.size(); ++p) {
    const double part_sd = p < prior.part_sd.size() ? prior.part_sd[p] : 0;
    most += interval.expected[p] * std::exp(deviations * std::hypot(prior.common_sd, part_sd));
  }
  const std::array errors{interval.begin_error, interval.end_error, interval.scatter};
  return most + deviations * error_of_sum(errors);
}

double scatter_of_days(const UsualUse& usual, std::span<const double> days) {
  return usual.day_scatter * error_of_sum(days);
}

}  // namespace drystage::models
