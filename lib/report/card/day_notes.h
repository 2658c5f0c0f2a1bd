#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "report/text/event_list.h"
#include "units/format.h"

namespace drystage::report {

/// Something that happens on a day, by the plan, and that those who are there must know.
struct DayNote {
  std::string words;   ///< "Day 12, 23:00: RUNS OUT: drinking water."
  double hour = 0;     ///< clock hour; 0 of weather
  bool grave = false;  ///< somebody may go without
};

/// Of a day (from 0), in time order, of what is told of the trip (`told_events`): frost, and heat
/// beyond what is proven or a body is used to; water that must not be drunk, and utility water that
/// is; what runs dry; batteries that take no charge. What goes on for days is told on the first,
/// and what comes together as one. Switches, camps and stops are left to other lines.
std::vector<DayNote> day_notes(const answers::PlanRun& planned, const std::vector<ToldEvent>& all,
                               std::size_t day, units::System system);

}  // namespace drystage::report
