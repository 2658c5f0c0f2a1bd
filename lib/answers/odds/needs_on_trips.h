#pragma once

#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <vector>

#include "answers/base/watch.h"
#include "answers/odds/trial.h"
#include "answers/onward/leaving.h"
#include "answers/onward/needs.h"
#include "answers/onward/way_out.h"

namespace drystage::answers {

/// What it took to say what must be there on so many trips.
struct NeedsOnTrips {
  Confidence asked;
  std::uint64_t on_time = 0;  ///< of the trips, those not held up before the last moment asked for
};

/// Too few of the trips are on time to the end to show the confidence asked for.
class TooFewOnTime : public std::runtime_error {
 public:
  TooFewOnTime(std::uint64_t trips, std::uint64_t on_time_then)
      : std::runtime_error("too few trips are on time"), of(trips), on_time(on_time_then) {}

  std::uint64_t of;
  std::uint64_t on_time;
};

/// Raises what must be there to what is enough on so many drawn trips as well: for each moment and
/// reserve the least level with which the rest of the trip, as it is drawn, keeps its margin up to
/// the next supply that can be counted on, there being enough of all others. It is found as in
/// `morning_needs`, by running the engine from that moment. Trips that have been held up before a
/// moment do not count for it, for then the party is elsewhere. What may hold a trip up later does.
/// What may break or be lost does not: that is what mishaps are for. Supplies are as in
/// `morning_needs`: those that are confirmed are there, and no others.
///
/// The level is one that is enough on so many of the trips that count that the lower end of the
/// interval of its chance (models::Chance) reaches the confidence asked for. None is made less than
/// it was. Throws TooFewOnTime.
NeedsOnTrips raise_to_confidence(Needs& needs, std::vector<Leaving>& leavings,
                                 const PlanRun& planned, const Confidence& asked,
                                 const Watch& watch);

/// Raises the ways out of a plan, worked out with its own needs, in the proportion in which its
/// needs have been raised since.
void raise_in_proportion(WaysOutTable& ways, const engine::CourseBase& course, const Needs& before,
                         const Needs& needs);

}  // namespace drystage::answers
