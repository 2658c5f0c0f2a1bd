#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "answers/odds/trip_draw.h"
#include "engine/remedy.h"
#include "models/chance.h"
#include "plan/uncertainty.h"

namespace drystage::answers {

/// The lowest level of a reserve on a day (of cold, the highest): what so many in 100 trips lie
/// below. Not a number on a day on which it is not judged.
struct LevelBand {
  double p5 = std::numeric_limits<double>::quiet_NaN();
  double p50 = std::numeric_limits<double>::quiet_NaN();
  double p95 = std::numeric_limits<double>::quiet_NaN();
};

/// How likely trouble with one reserve is.
struct ReserveOdds {
  models::Chance breach{};                         ///< it falls below its margin, or runs out
  models::Chance dry{};                            ///< it runs out: some is wanted and not there
  std::vector<std::uint64_t> first_breach_days{};  ///< trips by day; more days than the plan has
  std::vector<std::uint64_t> first_dry_days{};     ///< where trips take longer
  std::vector<LevelBand> bands{};                  ///< by day of the plan
};

/// How much of the spread of a reserve is due to one source.
struct Driver {
  plan::Source source{};
  int reserve = 0;
  /// Of the variance of what is to spare at the tightest moment: by how much less it is where that
  /// source is as it usually is, with the interval that has the true share in it 95 times in 100.
  double share = 0;
  double low = 0;
  double high = 0;
};

/// A change to the plan, and how likely trouble would be with it, of the same trips as without it.
struct OddsHelp {
  engine::ChangeName name;
  int reserve = 0;                 ///< for which it is offered
  models::Chance breach_before{};  ///< of that reserve
  models::Chance breach{};
  bool overloads = false;  ///< a vehicle is then heavier than it may be, though not as planned
  models::Chance life_breach{};
  models::Chance life_dry{};
};

/// Something that happened on a trip.
struct Happened {
  TripEvent event;
  int day = 0;        ///< 0-based
  double halt_h = 0;  ///< for which it holds the trip up
};

/// One of the worst trips.
struct WorstTrip {
  std::uint64_t trip = 0;
  int reserve = 0;      ///< that fares worst
  int breach_day = -1;  ///< of that reserve, as is the rest
  int dry_day = -1;     ///< -1: it does not run out
  double short_of = 0;
  double slack = 0;
  TripDraw draw;
  std::vector<Happened> happened{};
};

/// How likely trouble is on a plan's trip.
struct Odds {
  std::uint64_t trips = 0;  ///< that were run
  std::uint64_t seed = 0;
  bool partial = false;                 ///< it was stopped
  models::Chance breach{};              ///< any reserve breaks its margin
  models::Chance life_breach{};         ///< one that life depends on does
  models::Chance life_dry{};            ///< one of them runs out, or a load that is never shed
  std::vector<ReserveOdds> reserves{};  ///< by reserve of the course
  int most_days = 0;                    ///< of the longest trip
  // What makes trips differ, and what would help, is asked of the first so many trips:
  std::uint64_t compared = 0;
  models::Chance life_breach_of_compared{};
  models::Chance life_dry_of_compared{};
  std::vector<Driver> drivers{};  ///< by reserve, the largest share first
  std::vector<OddsHelp> helps{};  ///< the most helpful first
  std::vector<WorstTrip> worst{};
};

}  // namespace drystage::answers
