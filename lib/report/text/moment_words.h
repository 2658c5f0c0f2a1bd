#pragma once

#include <string>

#include "answers/base/moment.h"
#include "answers/base/plan_run.h"
#include "report/text/rounding.h"
#include "units/format.h"

namespace drystage::report {

/// When a moment is: "day 9, Tue 16 Mar, 13:05". Minutes are rounded `down` to an earlier or `up`
/// to a later time: towards the safe side of a time that must not be passed, or be waited for.
std::string when_words(const answers::PlanRun& planned, const answers::Moment& moment,
                       Toward toward);

/// Where it is: "at Red Tables", or "85 km after Red Tables, 30 km before Hollow Arch", rounded
/// back or on along the way as the time is.
std::string where_words(const answers::PlanRun& planned, const answers::Moment& moment,
                        Toward toward, units::System system);

/// Both.
std::string moment_words(const answers::PlanRun& planned, const answers::Moment& moment,
                         Toward toward, units::System system);

}  // namespace drystage::report
