#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "answers/base/plan_run.h"

namespace drystage::report {

/// How much room a reserve has on a day, at the day's tightest moment.
struct Room {
  /// Of an amount: what is left above the margin, as a share of what can be held above it. Of a
  /// cabinet: how far it is below the warmest it may be, as a share of the way from there down to
  /// its set point, or to 0 °C with ice. At most 1; below 0 beyond the margin.
  double share = 1;
  bool beyond = false;    ///< its margin is broken, or it runs out or is replaced, that day
  bool runs_out = false;  ///< it is wanted that day and not there
};

Room room_of(const answers::PlanRun& planned, std::size_t reserve, std::size_t day);

/// The reserve that decides on a day, an index into the course's: the one with the least room.
/// First comes one that runs out, then one beyond its margin, and of those first what life depends
/// on.
std::size_t decides_on(const answers::PlanRun& planned, std::size_t day);

/// Which reserve decides on which days: "drinking water on days 3 to 14; fuel of truck on day 1."
std::string decides_words(const answers::PlanRun& planned);

}  // namespace drystage::report
