#pragma once

#include "answers/base/plan_run.h"
#include "answers/base/watch.h"
#include "answers/mishaps/sweep.h"

namespace drystage::answers {

/// Tries every single failure that the plan can suffer, at every day at which it can strike, each a
/// run of the engine from the moment before. At stops people take what the plan says, and more
/// where that brings them to what they would have had there without the mishap; so too where a
/// confirmed supply is passed of which the plan takes nothing. In parallel; the answer does not
/// depend on the number of threads.
Sweep sweep_mishaps(const PlanRun& planned, const SweepOptions& options, const Watch& watch = {});

/// Tries every two failures of a single sweep, neither of which alone runs dry what life depends
/// on.
PairSweep sweep_pairs(const PlanRun& planned, const SweepOptions& options, const Sweep& single,
                      const Watch& watch = {});

}  // namespace drystage::answers
