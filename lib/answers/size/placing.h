#pragma once

#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "plan/plan.h"

namespace drystage::answers {

/// Puts what a sized plan has and the plan before had not (cans, containers, stores) into other
/// bays, where a limit of an axle, wheel, roof or bay is passed and that keeps it. Answers whether
/// anything was put elsewhere: then the sized plan has been run again. Other things stay.
bool place_added(const plan::Plan& before, PlanRun& sized);

/// Whether a limit of a part of a vehicle (index into the course's scales) is passed when setting
/// out, wherever all went that is decided or could be lifted: with as much load and more it is so
/// too, for nothing that is decided takes load off it.
bool is_over_wherever_put(const PlanRun& sized, std::size_t scale);

/// Where something that a sized plan adds lies.
struct Placed {
  std::string name;
  int vehicle = 0;
  int bay = 0;
};

/// All that was added and lies in a bay, in the order of the course.
std::vector<Placed> placed(const plan::Plan& before, const PlanRun& sized);

/// Gives a bay to what was added and has none, in vehicles that have bays: the one with the most
/// room. Runs the plan again if it does.
void give_bays(const plan::Plan& before, PlanRun& sized);

}  // namespace drystage::answers
