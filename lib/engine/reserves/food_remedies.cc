// What helps when food runs low: more days of dry stores.

#include <fmt/core.h>

#include "engine/reserves/food.h"

namespace drystage::engine::reserves {

std::vector<Remedy> Food::remedies(const Compiled& compiled, const plan::Plan& plan, int reserve,
                                   double lacking) {
  std::vector<Remedy> out;
  if (reserve < 0 || reserve != compiled.reserve) return out;
  const double a_day = 3.0 * static_cast<double>(plan.people.size());
  const auto days = [a_day](int n) {
    const double meals = n * a_day;
    const double kg = meals * bought_kg_per_meal;
    const std::string meals_a_day = fmt::format(" of dry food ({:.0f} meals a day)", a_day);
    return Remedy{.name = {"more day" + meals_a_day, "more days" + meals_a_day, n},
                  .size = kg,
                  .adds = meals,
                  .apply = [=](plan::Plan& changed) {
                    changed.food.push_back({.name = "added dry food",
                                            .kept = plan::Kept::dry,
                                            .mass_kg = kg,
                                            .meals = meals,
                                            .water_fraction = 0.1,
                                            .potentially_hazardous = false});
                  }};
  };
  for (int n = 1; n <= pieces_for(lacking, a_day); ++n) out.push_back(in_steps("food", days, n));
  return out;
}

}  // namespace drystage::engine::reserves
