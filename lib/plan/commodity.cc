#include "plan/commodity.h"

namespace drystage::plan {

std::string_view words(Commodity commodity) {
  switch (commodity) {
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
      break;
  }
  return "mains";
}

}  // namespace drystage::plan
