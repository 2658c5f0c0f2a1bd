#pragma once

#include <vector>

#include "answers/base/plan_run.h"

namespace drystage::answers {

/// How a reserve stands at one moment of the trip.
struct Level {
  double hour = 0;   ///< since the midnight with which the trip begins
  double level = 0;  ///< in the reserve's own unit
  double margin =
      0;        ///< what its margin comes to then; of what is kept cold, the warmest it may be
  int day = 0;  ///< in whose ledger it stands: of a midnight, the day before it or after it
};

/// Of each reserve, in time order: as the trip begins, at the end of every step, and, where a stop
/// changes it, once more at the same hour, after it. Before the trip's first step no rate is known,
/// and the margin is that of its end.
struct Levels {
  std::vector<std::vector<Level>> reserves;  ///< by index into the course's
};

/// The levels that a plan's own run goes through. Takes about as long as a run.
Levels levels(const PlanRun& planned);

}  // namespace drystage::answers
