#include "models/compressor.h"

#include <algorithm>

namespace drystage::models {

namespace {

constexpr double kelvin_at_0c = 273.15;

}  // namespace

double cooling_cop(double carnot_fraction, double ambient_c, double inside_c) {
  const double evaporator_c = inside_c - evaporator_below_k;
  const double condenser_c = ambient_c + condenser_above_k;
  const double lift_k = std::max(condenser_c - evaporator_c, least_lift_k);
  return carnot_fraction * (evaporator_c + kelvin_at_0c) / lift_k;
}

double rated_leak_w_per_k(const RatedDraw& rated, double carnot_fraction) {
  const double difference_k = rated.ambient_c - rated.inside_c;
  if (difference_k <= 0.0) {
    return 0.0;
  }
  return rated.mean_w * cooling_cop(carnot_fraction, rated.ambient_c, rated.inside_c) /
         difference_k;
}

Compressor rated_compressor(const RatedDraw& rated, double running_w, double carnot_fraction) {
  return {.carnot_fraction = carnot_fraction,
          .running_w = running_w > 0.0 ? running_w : rated.mean_w / usual_rated_duty};
}

double cooling_capacity_w(const Compressor& compressor, double ambient_c, double inside_c) {
  return compressor.running_w * cooling_cop(compressor.carnot_fraction, ambient_c, inside_c);
}

SteadyDuty steady_duty(const Compressor& compressor, double load_w, double ambient_c,
                       double inside_c) {
  if (load_w <= 0.0) {
    return {};
  }
  const double capacity_w = cooling_capacity_w(compressor, ambient_c, inside_c);
  if (load_w > capacity_w) {
    return {.duty = 1.0, .mean_w = compressor.running_w, .holds = false};
  }
  const double duty = load_w / capacity_w;
  return {.duty = duty, .mean_w = duty * compressor.running_w, .holds = true};
}

}  // namespace drystage::models
