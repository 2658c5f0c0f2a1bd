#include "plan/size.h"

#include <algorithm>

namespace drystage::plan {

bool has_costs(const Size& size) {
  const auto has = [](const auto& offers) {
    return std::ranges::any_of(offers, [](const auto& offer) { return offer.cost.has_value(); });
  };
  const auto any_has = [&has](const auto& lists, auto offers) {
    return std::ranges::any_of(lists, [&](const auto& list) { return has(list.*offers); });
  };
  return has(size.drinking) || has(size.utility) || has(size.food) ||
         any_has(size.fuel_cans, &FuelCanOffers::cans) || any_has(size.tanks, &TankOffers::sizes) ||
         any_has(size.batteries, &BatteryOffers::sizes) ||
         any_has(size.panels, &PanelOffers::sizes) || any_has(size.cabinets, &CabinetOffers::sizes);
}

}  // namespace drystage::plan
