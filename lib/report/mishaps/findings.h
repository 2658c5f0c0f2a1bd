#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "report/mishaps/report.h"
#include "units/format.h"

namespace drystage::report {

/// How many failures come to what, each by the worst that it does. One that was not tried at any
/// moment counts nowhere.
struct Tally {
  std::size_t tried = 0;
  std::size_t vital = 0;   ///< run drinking water or fuel dry
  std::size_t dry = 0;     ///< run something else dry
  std::size_t margin = 0;  ///< eat into a margin
};
Tally tally(const answers::Sweep& sweep);

/// The worst moment of every failure that does any harm, the worst of all first: by outcome, and
/// then by what is lacking for the reserve's size. On a tie in the order of the sweep.
std::vector<const answers::Finding*> worst_moments(const MishapsAnswer& answer);

/// "day 5, Fri 05 Mar, 06:00", to the earlier minute.
std::string strike_words(const answers::PlanRun& planned, int day, double hour);

/// What comes of a finding that is not `holds`, a sentence or two: which reserve, when and where,
/// how much is lacking and for how long, and whether turning back would mend it. What is lacking
/// is rounded up.
std::string finding_words(const answers::PlanRun& planned, const answers::Finding& finding,
                          units::System system);

/// "drinking water runs out on day 7": of a finding that does.
std::string short_words(const answers::PlanRun& planned, const answers::Finding& finding);

/// "supply", "heat_wave": as in the plan file and on the command line.
std::string_view kind_name(plan::MishapKind kind);

/// "holds", "eats_margin", "runs_out", "runs_out_vital".
std::string_view outcome_name(answers::Outcome outcome);

}  // namespace drystage::report
