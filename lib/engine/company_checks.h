#pragma once

#include <vector>

#include "engine/calendar.h"
#include "plan/diagnostic.h"
#include "plan/plan.h"

namespace drystage::engine {

/// What cannot be of who comes along on a calendar: a day that the trip does not have, a place that
/// they never go home from, a drive that no vehicle makes, a reading of what is not there. Of a
/// plan with changes, which may have become shorter, the readings alone are looked at.
std::vector<plan::Diagnostic> company_problems(const plan::Plan& plan, const Calendar& calendar);

}  // namespace drystage::engine
