#pragma once

#include <string>
#include <vector>

#include "plan/plan.h"
#include "support/random_plan.h"

namespace drystage::support {

/// Readings that this plan can have, in the order of time, of any make: in the evening or at an
/// hour, with a place or without, water and fuel as a whole or vessel by vessel, by amount or by
/// dipstick. On days that the trip surely has. May be none.
std::vector<plan::Reading> random_readings(const Pick& pick, const plan::Plan& plan);

/// A plan's text with such readings in it, and with changes: waits, other nights, supplies that are
/// shut, vessels that are lost.
std::string with_random_readings(const Pick& pick, const std::string& text);

}  // namespace drystage::support
