#pragma once

#include <optional>

#include "answers/base/plan_run.h"
#include "answers/onward/turn_back.h"

namespace drystage::answers {

/// The way back from a moment: where it leads and how far it is.
struct ReturnWay {
  int place = 0;           ///< the sure supply that is reached first
  double distance_km = 0;  ///< by the way that the engine reckons with (see retreat.h)
  bool as_it_came = true;  ///< neither a `back:` of a leg nor one of the plan's roads lies on it
  bool by_road = false;    ///< one of the plan's roads lies on it
};

/// The way back to the sure supply behind of a stretch, or to a nearer one that only a road leads
/// to, from a moment within it; nothing where none leads there.
std::optional<ReturnWay> return_way(const PlanRun& planned, const SupplyStretch& stretch,
                                    const Moment& from);

/// Whether turning back within a window is only to go on: it lies on one leg, and for every reserve
/// that is counted (those that life depends on, or all) the way back from its beginning leads to
/// where that leg does.
bool leads_on(const PlanRun& planned, const TurnBack& turn_back, const Window& window, bool vital);

}  // namespace drystage::answers
