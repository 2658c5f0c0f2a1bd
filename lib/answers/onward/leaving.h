#pragma once

#include <vector>

#include "answers/base/laid_trip.h"
#include "answers/base/plan_run.h"

namespace drystage::answers {

/// What must be on board of a reserve that life depends on as a place that supplies it is left.
struct Leaving {
  int reserve = 0;       ///< index into the course's
  int place = 0;         ///< the place that is left
  Moment leaves;         ///< when
  std::size_t step = 0;  ///< the same as a step of the laid trip: the one that drives away
  int arrives_day = 0;   ///< the day on which it was reached; 0 where the trip begins there
  double must_have = 0;  ///< in the reserve's unit; infinite where no amount is enough
  double has = 0;        ///< what the plan expects then
  bool fits = true;      ///< what must be on board is no more than the reserve can hold
  int until_place = -1;  ///< where it must last to; -1: the end of the trip
};

/// For each place with a confirmed supply of such a reserve, and each time that it is left: the
/// least level with which the next confirmed supply is reached with the margin whole, everything
/// else being as the plan expects. Found by running the engine from that moment, in the manner of
/// `morning_needs`. By reserve, then in time order. A place counts that is open while the party is
/// there and gives without limit; one that gives at most so much counts where the plan takes some.
std::vector<Leaving> leavings(const PlanRun& planned);

}  // namespace drystage::answers
