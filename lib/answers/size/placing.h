#pragma once

#include "answers/base/plan_run.h"
#include "plan/plan.h"

namespace drystage::answers {

/// Puts what a sized plan has and the plan before had not (cans, containers, stores) into other
/// bays, where a limit of an axle, wheel, roof or bay is passed and that keeps it. Answers whether
/// anything was put elsewhere: then the sized plan has been run again. Other things stay.
bool place_added(const plan::Plan& before, PlanRun& sized);

/// Gives a bay to what was added and has none, in vehicles that have bays: the one with the most
/// room. Runs the plan again if it does.
void give_bays(const plan::Plan& before, PlanRun& sized);

}  // namespace drystage::answers
