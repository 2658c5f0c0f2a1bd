#pragma once

#include <string>

#include "answers/base/plan_run.h"
#include "report/text/data.h"
#include "units/format.h"

namespace drystage::report {

// What fails, in words. The run gives names and dates: any of the same plan. What is short or
// over is rounded up.

/// One sentence or two, without the last full stop: "fuel of truck runs out on day 10, Wed 17 Mar
/// 2027, at 14:05, short by 12 L. Below its margin from day 8".
std::string breach_words(const answers::PlanRun& planned, const answers::Verdict& verdict,
                         const answers::Breach& breach, units::System system);

/// The same in short: "drinking water falls below its margin on day 11, Thu 18 Mar, by 3 L".
std::string breach_note(const answers::PlanRun& planned, const answers::Breach& breach,
                        units::System system);

/// What fails besides the worst: "Besides: food runs out (day 12), no charge for radio (from day
/// 5)." Nothing where that is all.
std::string others_words(const answers::PlanRun& planned, units::System system);

/// As in JSON: its kind ("runs_out", "utility_drunk", "below_margin", "overload", "load_off"), its
/// moment, what fails and by how much. Null for none.
Json json_breach(const answers::PlanRun& planned, const answers::Breach* breach);

/// Whether a verdict holds, its worst and its first breach.
Json json_verdict(const answers::PlanRun& planned, const answers::Verdict& verdict);

}  // namespace drystage::report
