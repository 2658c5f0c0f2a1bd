#include "answers/base/reading_errors.h"

#include <algorithm>
#include <vector>

#include "engine/dipstick.h"
#include "models/dip_curve.h"
#include "models/reading_error.h"
#include "models/tank_shape.h"
#include "plan/own.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Family;

// Of what a vessel holds, so near is counted as full.
constexpr double counted_as_full = 1e-6;

/// Of fuel in one vehicle.
double fuel_error_l(const plan::Plan& plan, const plan::Reading& reading, int vehicle) {
  const plan::Vehicle& of = plan.vehicles[at(vehicle)];
  if (std::ranges::find(reading.fuel, vehicle, &plan::FuelFound::vehicle) != reading.fuel.end()) {
    double largest_l = 0;
    for (const plan::Tank& tank : of.tanks) largest_l = std::max(largest_l, tank.holds_l);
    return models::gauge_error_share * largest_l;
  }
  std::vector<double> errors;
  for (const plan::TankFound& one : reading.tanks) {
    if (one.tank.vehicle != vehicle) continue;
    const plan::Tank& tank = of.tanks[at(one.tank.tank)];
    errors.push_back(vessel_error_l(one.found, tank.gauge, tank.holds_l));
  }
  return models::error_of_sum(errors);
}

double water_error_l(const plan::Plan& plan, const plan::Reading& reading, plan::WaterUse use,
                     int owner) {
  const bool as_one =
      owner < 0 && (use == plan::WaterUse::drinking ? reading.drinking_l.has_value()
                                                    : reading.utility_l.has_value());
  const auto is_its = [&](const plan::Container& can) {
    return can.use == use && plan::owner_of(plan, can.vehicle, plan::Stock::water) == owner;
  };
  if (as_one) {
    double largest_l = 0;
    for (const plan::Container& can : plan.water.containers) {
      if (is_its(can)) largest_l = std::max(largest_l, can.holds_l);
    }
    return models::cans_error_l(largest_l);
  }
  std::vector<double> errors;
  for (const plan::ContainerFound& one : reading.containers) {
    const plan::Container& can = plan.water.containers[at(one.container)];
    if (is_its(can)) errors.push_back(vessel_error_l(one.found, can.gauge, can.holds_l));
  }
  return models::error_of_sum(errors);
}

}  // namespace

double vessel_error_l(const plan::Found& found, const plan::Gauge& gauge, double holds_l) {
  const bool is_counted = found.amount <= 0 || found.amount >= holds_l * (1 - counted_as_full);
  if (!found.depth_m) return is_counted ? 0 : models::cans_error_l(holds_l);
  if (!engine::has_shape(gauge)) {
    return models::dip_error_l(models::DipCurve(gauge.marks), *found.depth_m);
  }
  return models::dip_error_l(engine::walls_of(gauge.shape), holds_l, plan::height_m(gauge.shape),
                             *found.depth_m);
}

double reading_error(const plan::Plan& plan, const plan::Reading& reading,
                     engine::ReserveId reserve) {
  if (reserve.family == Family::food) return models::meal_count_error;
  if (reserve.family == Family::fuel) return fuel_error_l(plan, reading, reserve.of);
  return water_error_l(
      plan, reading,
      reserve.family == Family::drinking_water ? plan::WaterUse::drinking : plan::WaterUse::utility,
      reserve.of);
}

}  // namespace drystage::answers
