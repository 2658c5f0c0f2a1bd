#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "answers/base/levels.h"
#include "answers/base/plan_run.h"
#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/charts/charted_reserve.h"
#include "report/charts/day_axis.h"
#include "report/charts/flags.h"
#include "report/charts/trip_line.h"
#include "units/format.h"

namespace drystage::report {

/// How a reserve stands somewhere across, in the units to show.
struct StripPoint {
  double x = 0;
  double level = 0;
  double margin = 0;
};

/// A small chart of one reserve, to stand below others.
struct LevelStrip {
  std::string title;
  bool above = true;  ///< more is better of it
  bool has_margin = true;
  std::pair<double, double> range{};  ///< numbers at foot and top
  double height_pt = 84;              ///< of the frame
  std::vector<StripPoint> points{};   ///< from left to right

  /// Words over a place across, with a pole down to a level.
  struct Flag {
    double x = 0;
    double level = 0;
    std::string words;
    drawing::Font font = body_font;
  };
  std::vector<Flag> flags{};
  std::vector<std::string> notes{};  ///< what cannot be seen in it
};

/// The strip as a block as wide as the picture. What lies beyond the margin is hatched: below it,
/// or above it where less is better.
drawing::Block level_strip(const drawing::Typesetter& typesetter, const LevelStrip& strip,
                           const Across& across);

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

/// The strip of a reserve over hours, or over what they come to (`across`), with a flag for each
/// of its moments.
LevelStrip strip_of(const answers::PlanRun& planned, const ChartedReserve& charted,
                    std::size_t reserve, const DayPiece& piece,
                    const std::function<double(double hour)>& across,
                    const std::function<std::string(const BreachMoment&)>& words);

}  // namespace drystage::report
