#pragma once

#include <string_view>

#include "plan/vehicle.h"
#include "plan/water.h"

namespace drystage::plan {

/// Whether a name says that this is a can that somebody lifts: one of its words is "can" or
/// "jerry", alone or with a number or a plural after it.
bool is_called_can(std::string_view name);

/// Whether a tank is a can, which is taken along or left: called so, or with a mass of its own. Any
/// other is fitted to the vehicle.
bool is_can(const Tank& tank);

/// The same of a water container: called so, or one that a person lifts.
bool is_can(const Container& container);

}  // namespace drystage::plan
