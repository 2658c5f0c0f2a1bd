#include "plan/commodity.h"

#include "units/index.h"

namespace drystage::plan {

std::string words(const Plan& plan, Commodity commodity) {
  switch (commodity.kind) {
    case Commodity::drinking_water:
      return "drinking water";
    case Commodity::utility_water:
      return "utility water";
    case Commodity::diesel:
      return "diesel";
    case Commodity::petrol:
      return "petrol";
    case Commodity::food:
      return "food";
    case Commodity::ice:
      return "ice";
    case Commodity::mains:
      return "mains";
    case Commodity::tyres:
      return "tyres";
    case Commodity::consumable:
      break;
  }
  const Consumable& of = plan.consumables[at(commodity.of)];
  return of.fills ? "emptying of " + of.name : of.name;
}

bool is_emptied(const Plan& plan, Commodity commodity) {
  return commodity.kind == Commodity::consumable && plan.consumables[at(commodity.of)].fills;
}

Measure measure_of(const Plan& plan, Commodity commodity) {
  const auto of = [](units::Kind kind) {
    return Measure{.kind = kind, .unit = std::string(units::canonical_unit(kind))};
  };
  switch (commodity.kind) {
    case Commodity::food:
      return of(units::Kind::meals);
    case Commodity::ice:
      return of(units::Kind::mass);
    case Commodity::mains:
    case Commodity::tyres:
      return {};
    case Commodity::consumable: {
      const Consumable& consumable = plan.consumables[at(commodity.of)];
      return {.kind = consumable.kind, .unit = consumable.unit};
    }
    default:
      return of(units::Kind::volume);
  }
}

}  // namespace drystage::plan
