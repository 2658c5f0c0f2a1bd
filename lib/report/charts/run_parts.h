#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "answers/base/levels.h"
#include "answers/base/plan_run.h"
#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/charts/day_axis.h"
#include "report/charts/trip_line.h"
#include "units/format.h"

namespace drystage::report {

/// Which reserve is nearest to its margin, day by day: a row for each reserve, a box for each day,
/// the darker the less room there is. "!" is beyond the margin, "!!" runs out, and the
/// box of the reserve that decides has a thick frame. The days stand where those of the time chart
/// do.
std::vector<drawing::Block> decides_chart(const drawing::Typesetter& typesetter,
                                          const answers::PlanRun& planned, const TripLine& line);

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

/// What is taken on at one stop.
struct SupplyStop {
  double hour = 0;    ///< since the trip's first midnight
  std::string words;  ///< "diesel 40 L, drinking water 55 L (not confirmed)", "food: shut"
};

/// Every reserve over one time line: a key, the trip as a band, and below it a strip for each
/// reserve, those that life depends on first and taller. A long trip is cut into pieces.
std::vector<drawing::Block> time_chart(const drawing::Typesetter& typesetter,
                                       const answers::PlanRun& planned, const TripLine& line,
                                       const answers::Levels& levels, units::System system);

/// Every stop of a run at which something was taken, or a supply was shut, in time order.
std::vector<SupplyStop> supply_stops(const answers::PlanRun& planned, units::System system);

/// Drinking water and each vehicle's fuel over the way driven: places stand above as upright lines,
/// and what is used while nobody drives falls straight down. Nothing where nobody ever drives.
std::vector<drawing::Block> distance_chart(const drawing::Typesetter& typesetter,
                                           const answers::PlanRun& planned, const TripLine& line,
                                           const answers::Levels& levels, units::System system);

}  // namespace drystage::report
