#include "models/altitude.h"

#include <algorithm>

namespace drystage::models {

double breathing_factor(double elevation_m) {
  constexpr double sea_level_mmhg = 40.0;
  constexpr double fall_mmhg_per_m = 0.0045;
  constexpr double highest_m = 6500.0;
  const double above_m = std::clamp(elevation_m, lowest_altitude_m, highest_m) - lowest_altitude_m;
  return sea_level_mmhg / (sea_level_mmhg - fall_mmhg_per_m * above_m);
}

double altitude_base_share(double elevation_m) {
  constexpr double most = 0.5;
  constexpr double full_m = 4000.0;
  const double part =
      std::clamp((elevation_m - lowest_altitude_m) / (full_m - lowest_altitude_m), 0.0, 1.0);
  return most * part * part * (3.0 - 2.0 * part);
}

}  // namespace drystage::models
