#pragma once

#include <vector>

#include "answers/base/plan_run.h"
#include "answers/onward/stretches.h"

namespace drystage::answers {

struct TurnBack {
  std::vector<SupplyStretch> stretches;  ///< by reserve, then in time order
  std::vector<Window> windows;  ///< in time order; empty: there never is a way back for all
  std::vector<Window> vital;    ///< the same for what life depends on alone
};

/// The last places to turn back, for each reserve that places supply. From any moment the way back
/// is the way that was come (or the one given as `back:` of a leg driven whole), or a shorter one
/// over the plan's roads (see retreat.h), in the same driving hours; each is run by the engine,
/// with the loads and levels of that moment and the weather of those days, and found to the minute.
/// Nothing is taken from a supply that nobody has confirmed, on the way out neither. A reserve that
/// no place behind supplies with certainty has no stretch.
TurnBack turn_back_points(const PlanRun& planned);

}  // namespace drystage::answers
