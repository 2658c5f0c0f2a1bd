#pragma once

#include <vector>

#include "engine/schedule.h"
#include "plan/diagnostic.h"
#include "plan/plan.h"

namespace drystage::engine {

/// What stands in the way of laying weather and needs on a schedule, from a day (0-based) on: a
/// trip longer than `most_days`, else every month that a climate lacks while the party is in it.
std::vector<plan::Diagnostic> calendar_problems(const plan::Plan& plan, const Schedule& schedule,
                                                int from_day);

}  // namespace drystage::engine
