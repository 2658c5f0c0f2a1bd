#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "plan/vehicle.h"

namespace drystage::plan {

/// What a vehicle was found to use on one surface.
struct FoundUse {
  std::string vehicle;  ///< its name
  Surface surface = Surface::sealed;
  double uses_l_km = 0;  ///< mean of the trip
  double factor = 1;     ///< over what the plan says
};

/// Writes them as `observed` of the vehicles in the text of a plan or a kit, to three digits. A
/// figure that stands for that surface is at its own speed and mass: it is changed by the factor.
/// Where there is none, the mean of the trip comes behind the others. All else stays as it
/// stands. Throws std::invalid_argument, which says why, where the text has not all of these
/// vehicles, or is not one that can be read.
std::string with_observed(std::string_view text, const std::vector<FoundUse>& uses);

}  // namespace drystage::plan
