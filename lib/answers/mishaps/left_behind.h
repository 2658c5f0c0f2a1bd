#pragma once

#include "plan/plan.h"

namespace drystage::answers {

/// Leaves a vehicle behind: its people, containers and boxes go with another one, and whatever runs
/// on its banks runs on another vehicle's, or no more.
void leave_behind(plan::Plan& plan, int vehicle);

}  // namespace drystage::answers
