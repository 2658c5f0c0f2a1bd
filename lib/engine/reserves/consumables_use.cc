// How much of a consumable is used, and how fast.

#include <algorithm>

#include "engine/reserves/consumables.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::engine::reserves {

double per_km(const plan::ConsumableUse& use, const RoadPiece& part) {
  return use.per_km[static_cast<std::size_t>(part.surface)] + use.per_engine_h / part.speed_km_h;
}

double per_day(const Consumables::Stock& stock, const PlaceDay& here, const PlaceConditions& air,
               const Factors& factors) {
  const plan::ConsumableUse& use = stock.use;
  double sum =
      use.per_day + use.per_person_day * here.people + use.per_meal * (here.meals * factors.meals);
  if (use.in_cold.per_degree_day > 0 || use.in_heat.per_degree_day > 0) {
    for (const double air_c : air.air_c) {
      sum += (use.in_cold.per_degree_day * std::max(0.0, use.in_cold.base_c - air_c) +
              use.in_heat.per_degree_day * std::max(0.0, air_c - use.in_heat.base_c)) /
             day_h;
    }
  }
  sum = sum * factors.consumables + use.doses.per_day();
  for (const Generator& generator : stock.generators) sum += generator.uses_l_day();
  return sum;
}

double evenly_used(const plan::ConsumableUse& use, const Calendar& calendar, const TimeStep& step,
                   double air_c, const Factors& factors) {
  const PlaceDay& here = calendar.place_days[at(step.place_day)];
  const double days = step.dt_h / day_h;
  double sum = days * (use.per_day + use.per_person_day * here.people) +
               use.per_meal * (step.meals * factors.meals);
  sum += days * use.in_cold.per_degree_day * std::max(0.0, use.in_cold.base_c - air_c);
  sum += days * use.in_heat.per_degree_day * std::max(0.0, air_c - use.in_heat.base_c);
  if (step.drive >= 0) {
    const plan::Surface surface = calendar.pieces[at(step.drive)].surface;
    sum += use.per_km[static_cast<std::size_t>(surface)] * step.distance_km +
           use.per_engine_h * step.dt_h;
  }
  return sum * factors.consumables;
}

bool takes_dose(const plan::Doses& doses, double at_h, const TimeStep& step) {
  if (step.day % doses.every_days != 0) return false;
  // Steps meet but for rounding: each takes what is at its beginning, and not what is at its end.
  return at_h >= step.from_h - tiny_h && at_h < step.from_h + step.dt_h - tiny_h;
}

}  // namespace drystage::engine::reserves
