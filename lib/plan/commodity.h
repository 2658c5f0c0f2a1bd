#pragma once

#include <string_view>

#include "plan/itinerary.h"

namespace drystage::plan {

/// A commodity in a sentence: "drinking water", "diesel".
std::string_view words(Commodity commodity);

}  // namespace drystage::plan
