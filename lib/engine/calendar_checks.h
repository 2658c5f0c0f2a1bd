#pragma once

#include <vector>

#include "engine/calendar.h"
#include "engine/schedule.h"
#include "plan/diagnostic.h"
#include "plan/plan.h"

namespace drystage::engine {

/// What stands in the way of laying weather and needs on a schedule, from a day (0-based) on: a
/// trip longer than `most_days`, else every month that a climate lacks while the party is in it.
std::vector<plan::Diagnostic> calendar_problems(const plan::Plan& plan, const Schedule& schedule,
                                                int from_day);

/// Warnings: weather of named days that the trip never meets; dates of supplies that are in no year
/// of the trip; stops on days on which what they are to take is shut.
std::vector<plan::Diagnostic> calendar_remarks(const plan::Plan& plan, const Calendar& calendar);

}  // namespace drystage::engine
