#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "units/format.h"

namespace drystage::report {

/// What is to be taken on at one stop, in a line.
struct SupplyLine {
  std::string words;
  bool unsure = false;  ///< something is not confirmed, or shut that day
  bool shut = false;    ///< all of it
  double hour = 0;      ///< clock hour of the stop
};

/// Every stop of a day (from 0): at what time, whether on arrival or before leaving, and where; of
/// each order what and how much to take, that nobody has confirmed it, or that it is shut that day.
/// How much is what the plan expects, rounded up. A stop at the outset, before the trip's first
/// hour, is told apart from the others of the first day.
std::vector<SupplyLine> supply_lines(const answers::PlanRun& planned, std::size_t day,
                                     bool at_outset, units::System system);

/// When a supply is open, of what matters from one day to another: "open Mon to Fri, shut Mon 10
/// May", "open every day".
std::string opening_words(const plan::Supply& supply, plan::Date first, plan::Date last);

}  // namespace drystage::report
