#pragma once

#include <string_view>

#include "units/result.h"

namespace drystage::units {

/// Latitude or longitude: what it is called, and the letters of its two directions.
struct Axis {
  std::string_view name;
  char positive;
  char negative;
};
inline constexpr Axis latitude{"latitude", 'N', 'S'};
inline constexpr Axis longitude{"longitude", 'E', 'W'};

/// Reads a coordinate in degrees, positive north and east: "-30.2°", "30.2 S", "S 30.2°",
/// "30°12' S", "30° 12' 36\" S". A number must have a letter or a degree sign, for without both it
/// is not said what it is. How far from zero it is, is not judged.
Result<double> parse_coordinate(std::string_view text, const Axis& axis);

}  // namespace drystage::units
