#pragma once

#include <nlohmann/json.hpp>

#include "answers/base/plan_run.h"

namespace drystage::report {

/// Keys stay in the order in which they are given.
using Json = nlohmann::ordered_json;

/// By how many blanks a level is set in.
inline constexpr int json_indent = 2;

/// A number, or null where there is none to give (an endurance without end).
Json json_number(double value);

/// A place's name; null for none (an index below 0).
Json json_place(const plan::Plan& plan, int place);

/// A moment of the trip: day counted from 1, date, clock hour. `day` is 0-based.
Json json_moment(const answers::PlanRun& planned, int day, double hour);

/// What every answer says of its trip: title, start, days.
Json json_trip(const answers::PlanRun& planned);

}  // namespace drystage::report
