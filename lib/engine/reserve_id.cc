#include "engine/reserve_id.h"

namespace drystage::engine {

std::string_view family_name(Family family) {
  switch (family) {
    case Family::drinking_water:
      return "drinking_water";
    case Family::utility_water:
      return "utility_water";
    case Family::fuel:
      return "fuel";
    case Family::food:
      return "food";
    case Family::cold:
      return "cold";
    case Family::battery:
      return "battery";
    case Family::consumable:
      return "consumable";
    case Family::tyres:
      return "tyres";
    case Family::other:
      break;
  }
  return {};
}

}  // namespace drystage::engine
