// What helps when food runs low: more days of dry stores.

#include <fmt/core.h>

#include <algorithm>
#include <string>

#include "engine/reserves/food.h"
#include "plan/own.h"
#include "units/index.h"

namespace drystage::engine::reserves {

std::vector<Remedy> Food::remedies(const Compiled& compiled, const plan::Plan& plan, int reserve,
                                   double lacking) {
  std::vector<Remedy> out;
  const auto pool = std::ranges::find(compiled.pools, reserve, &Pool::reserve);
  if (pool == compiled.pools.end()) return out;
  const int vehicle = pool->owner < 0 ? plan::common_vehicle(plan, plan::Stock::food) : pool->owner;
  const auto people = std::ranges::count_if(plan.people, [&](const plan::Person& person) {
    return plan::owner_of(plan, person.vehicle, plan::Stock::food) == pool->owner;
  });
  const double a_day = 3.0 * static_cast<double>(std::max<std::ptrdiff_t>(people, 1));
  const std::string whose = pool->owner < 0 ? "" : " for " + plan.vehicles[at(pool->owner)].name;
  const auto days = [a_day, vehicle, whose](int n) {
    const double meals = n * a_day;
    const double kg = meals * bought_kg_per_meal;
    const std::string meals_a_day =
        fmt::format(" of dry food{} ({:.0f} meals a day)", whose, a_day);
    return Remedy{.name = {"more day" + meals_a_day, "more days" + meals_a_day, n},
                  .size = kg,
                  .adds = meals,
                  .apply = [=](plan::Plan& changed) {
                    changed.food.push_back({.name = "added dry food",
                                            .kept = plan::Kept::dry,
                                            .mass_kg = kg,
                                            .meals = meals,
                                            .water_fraction = 0.1,
                                            .potentially_hazardous = false,
                                            .vehicle = vehicle});
                  }};
  };
  for (int n = 1; n <= pieces_for(lacking, a_day); ++n) out.push_back(in_steps("food", days, n));
  return out;
}

}  // namespace drystage::engine::reserves
