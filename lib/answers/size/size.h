#pragma once

#include <vector>

#include "answers/base/plan_run.h"
#include "answers/base/watch.h"
#include "answers/size/sizing.h"

namespace drystage::answers {

/// Finds the set on offer (Plan::size) that has the least mass, or cost, of all with which every
/// margin is kept on every day and no limit is passed: each is judged by running the engine. Ties
/// go to the lesser cost (or mass), then to the smaller pieces. How the search is cut short, and
/// why that is right, is said in size/search.h. The run must be the plan's own, laid out on its
/// timeline; what is chosen changes no timeline.
Sizing size_plan(const PlanRun& planned, const SizeOptions& options, const Watch& watch = {});

/// The same search with margins of some days less and more: what another day of safety costs.
/// `own` is the answer for the plan's own margins and stands among the rows. Of mishaps that a set
/// with one fewer does not survive the first that is found will do.
std::vector<TradeOff> trade_off(const PlanRun& planned, const SizeOptions& options,
                                const Sizing& own, const Watch& watch = {});

}  // namespace drystage::answers
