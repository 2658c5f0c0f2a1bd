#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "answers/base/watch.h"
#include "answers/odds/trial.h"
#include "answers/onward/leaving.h"
#include "answers/onward/needs.h"

namespace drystage::answers {

/// What it took to say what must be there on so many trips.
struct NeedsOnTrips {
  Confidence asked;
  std::uint64_t on_time = 0;  ///< of the trips, those not held up before the last moment asked for
  /// The first day of whose needs too few trips can tell anything, since most have been held up
  /// before: from then on they are the plan's alone. -1: none.
  int unknown_from_day = -1;
};

/// Raises what must be there to what is enough on so many drawn trips as well: for each moment and
/// reserve the least level with which the rest of the trip, as it is drawn, keeps its margin up to
/// the next supply that can be counted on, there being enough of all others. It is found as in
/// `morning_needs`, by running the engine from that moment. Trips that have been held up before a
/// moment do not count for it, for then the party is elsewhere. What may hold a trip up later does;
/// so does a supply that is not there. What may break or be lost does not: that is what mishaps are
/// for.
///
/// The level is one that is enough on so many of the trips that count that the lower end of the
/// interval of its chance (models::Chance) reaches the confidence asked for. None is made less than
/// it was.
NeedsOnTrips raise_to_confidence(Needs& needs, std::vector<Leaving>& leavings,
                                 const PlanRun& planned, const Confidence& asked,
                                 const Watch& watch);

}  // namespace drystage::answers
