#include "plan/size.h"

#include <cstddef>

namespace drystage::plan {
namespace {

struct Count {
  std::size_t offers = 0;
  std::size_t with_cost = 0;
};

Count count(const Size& size) {
  Count out;
  const auto add = [&out](const auto& offers) {
    for (const auto& offer : offers) {
      ++out.offers;
      if (offer.cost) ++out.with_cost;
    }
  };
  add(size.drinking);
  add(size.utility);
  add(size.food);
  for (const FuelCanOffers& each : size.fuel_cans) add(each.cans);
  for (const ConsumableOffers& each : size.consumables) add(each.stores);
  for (const TankOffers& each : size.tanks) add(each.sizes);
  for (const BatteryOffers& each : size.batteries) add(each.sizes);
  for (const PanelOffers& each : size.panels) add(each.sizes);
  for (const CabinetOffers& each : size.cabinets) add(each.sizes);
  return out;
}

}  // namespace

bool has_costs(const Size& size) { return count(size).with_cost > 0; }

bool all_have_costs(const Size& size) {
  const Count all = count(size);
  return all.with_cost == all.offers;
}

}  // namespace drystage::plan
