#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "report/card/answer.h"
#include "report/text/events.h"
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

/// Something that is met on a day, and stands above its evening.
struct DayLine {
  enum class Kind { supply, leave, turn_back, note };
  Kind kind{};
  double hour = 0;
  std::string words{};
  std::string more{};  ///< of turning back: what the page says besides
  bool grave = false;  ///< not sure, or somebody may go without
  bool shut = false;   ///< of a supply: nothing can be had
  bool opens = false;  ///< of turning back: it is possible from here on
};

/// What stands above every evening, 0 the one before setting out, in the order of time: what is
/// taken on, with how much a place must be left, where the way back ends or opens, and what happens
/// by the plan. What is taken on comes before the rules of the same moment.
std::vector<std::vector<DayLine>> day_lines(const CardAnswer& answer, units::System system);

}  // namespace drystage::report
