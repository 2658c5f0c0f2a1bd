#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "answers/base/levels.h"
#include "answers/base/plan_run.h"
#include "report/charts/trip_line.h"
#include "units/format.h"

namespace drystage::report {

/// A moment from which a reserve is beyond its margin, or is not there.
struct BreachMoment {
  enum class Kind { beyond_margin, utility_drunk, runs_out };
  Kind kind = Kind::beyond_margin;
  double hour = 0;   ///< since the trip's first midnight
  int day = 0;       ///< 0-based
  int last_day = 0;  ///< on which it is still so, day after day
  double level = 0;  ///< of the reserve then, in its own unit
};

/// Those of a reserve with these levels, in time order, by the days of the record. What lasts for
/// days on end is one, and so is what has run out until something is taken on. Where it runs out,
/// or is replaced, as soon as its margin is broken, only that is told.
std::vector<BreachMoment> breach_moments(const answers::PlanRun& planned,
                                         const std::vector<answers::Level>& levels,
                                         std::size_t reserve);

/// "below margin from day 9", "below margin days 9 to 11", "runs out day 12, 21:15".
std::string moment_by_day(const answers::PlanRun& planned, std::size_t reserve,
                          const BreachMoment& moment);

/// The same by the way driven, cut to whole km or miles: "runs out after 803 km".
std::string moment_by_way(const answers::PlanRun& planned, std::size_t reserve,
                          const BreachMoment& moment, const TripLine& line, units::System system);

}  // namespace drystage::report
