#include <fmt/format.h>

#include "plan/sections.h"
#include "units/format.h"

namespace drystage::plan {
namespace {

// For a first look only; the engine weighs with its own figures.
constexpr double diesel_kg_l = 0.84;  // EN 590: 0.820 to 0.845 (memory)
constexpr double petrol_kg_l = 0.75;  // EN 228: 0.720 to 0.775 (memory)

double loaded_kg(const Plan& plan, std::size_t index) {
  const Vehicle& vehicle = plan.vehicles[index];
  const auto here = [index](int other) { return static_cast<std::size_t>(other) == index; };
  double sum_kg = vehicle.empty_kg + vehicle.gear_kg;
  const double fuel_kg_l = vehicle.fuel == FuelKind::diesel ? diesel_kg_l : petrol_kg_l;
  for (const Tank& tank : vehicle.tanks) sum_kg += tank.empty_kg + tank.filled_l * fuel_kg_l;
  for (const Container& container : plan.water.containers) {
    if (here(container.vehicle)) sum_kg += container.empty_kg + container.filled_l;
  }
  for (const Person& person : plan.people) {
    if (here(person.vehicle)) sum_kg += person.mass_kg;
  }
  for (const FoodItem& food : plan.food) {
    if (here(food.vehicle)) sum_kg += food.mass_kg;
  }
  for (const Cabinet& cabinet : plan.cold) {
    if (here(cabinet.vehicle)) sum_kg += cabinet.ice_kg;
  }
  for (const Bank& bank : plan.power.banks) {
    if (here(bank.vehicle)) sum_kg += bank.mass_kg;
  }
  return sum_kg;
}

void review_vehicle(Log& log, const Plan& plan, std::size_t index) {
  const Vehicle& vehicle = plan.vehicles[index];
  if (!vehicle.limit_kg) return;
  const double loaded = loaded_kg(plan, index);
  if (loaded <= *vehicle.limit_kg) return;
  log.warning(
      {vehicle.mark, {}},
      fmt::format("vehicle {} starts with about {:.0f} kg, {:.0f} kg over its limit",
                  units::in_quotes(vehicle.name), loaded, loaded - *vehicle.limit_kg),
      fmt::format("at most {:.0f} kg with people, water, fuel and food", *vehicle.limit_kg));
}

void review_cabinet(Log& log, const Plan& plan, std::size_t index) {
  constexpr double most_kg_l = 0.8;  // common practice: food never fills the corners
  const Cabinet& cabinet = plan.cold[index];
  double packed_kg = cabinet.ice_kg;
  for (const FoodItem& food : plan.food) {
    if (food.cabinet == static_cast<int>(index)) packed_kg += food.mass_kg;
  }
  if (packed_kg <= most_kg_l * cabinet.volume_l) return;
  log.warning({cabinet.mark, {}},
              fmt::format("cabinet {} of {} has {} to hold", units::in_quotes(cabinet.name),
                          units::format(cabinet.volume_l, units::Kind::volume),
                          units::format(packed_kg, units::Kind::mass)),
              fmt::format("at most about {}",
                          units::format(most_kg_l * cabinet.volume_l, units::Kind::mass)),
              "will it all fit, with air between?");
}

/// What life hangs on should have something to spare.
void review_margins(Log& log, const Plan& plan) {
  const auto has = [&](const std::string& name) { return plan.margins.contains(name); };
  std::string without;
  if (!has("drinking_water")) without = "drinking_water";
  for (const Vehicle& vehicle : plan.vehicles) {
    if (has("fuel") || has("fuel:" + vehicle.name)) continue;
    without += without.empty() ? "fuel" : " and fuel";
    break;
  }
  if (without.empty()) return;
  log.warning({plan.trip.mark, {}},
              fmt::format("no margin for {}: the plan may use it to the last drop", without),
              "something to spare of whatever life hangs on",
              "margins: {drinking_water: 3 days, fuel: 150 km}");
}

}  // namespace

void review(Log& log, const Plan& plan) {
  for (std::size_t i = 0; i < plan.vehicles.size(); ++i) review_vehicle(log, plan, i);
  for (std::size_t i = 0; i < plan.cold.size(); ++i) review_cabinet(log, plan, i);
  review_margins(log, plan);
}

}  // namespace drystage::plan
