#include "engine/spots.h"

#include <algorithm>

namespace drystage::engine {

plan::Spot spot_of_bought(const plan::Plan& plan, int vehicle) {
  const auto dry = std::ranges::find_if(plan.food, [vehicle](const plan::FoodItem& item) {
    return item.cabinet < 0 && item.vehicle == vehicle;
  });
  return dry == plan.food.end() ? plan::Spot{} : dry->spot;
}

}  // namespace drystage::engine
