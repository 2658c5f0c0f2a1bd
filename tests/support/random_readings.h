#pragma once

#include <vector>

#include "plan/plan.h"
#include "support/random_plan.h"

namespace drystage::support {

/// Readings that this plan can have, in the order of time, of any make: in the evening or at an
/// hour, with a place or without, water and fuel as a whole or vessel by vessel, by amount or by
/// dipstick. On days that the trip surely has. May be none.
std::vector<plan::Reading> random_readings(const Pick& pick, const plan::Plan& plan);

}  // namespace drystage::support
