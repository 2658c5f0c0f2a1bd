#pragma once

#include <vector>

#include "engine/schedule.h"
#include "plan/diagnostic.h"
#include "plan/plan.h"

namespace drystage::engine {

/// How the trip has gone until its last reading, so that the party is on the calendar where each
/// reading found it: who is late has waited where it was found, who is early has left nights out
/// (the last ones first) and then driven for longer than the plan has it.
struct WayTaken {
  WayGone gone;
  /// Readings at which nobody can have been there, and those after the trip has ended.
  std::vector<plan::Diagnostic> problems;
};

/// Follows a plan's readings. The plan must be valid. Nothing where no reading says where it was.
WayTaken way_taken(const plan::Plan& plan, Almanac* almanac);

}  // namespace drystage::engine
