#pragma once

#include <functional>

#include "support/by_hand.h"
#include "support/plan_text.h"

// The trips that are worked out by hand: drawn at random, and written for the program to read.

namespace drystage::support::by_hand {

/// The same plan for the program to read. Vehicles are called a, b and so on.
PlanText text_of(const Plan& plan);

/// A plan of two vehicles that meet supplies of every sort.
Plan random_plan(const std::function<int(int low, int high)>& pick);

}  // namespace drystage::support::by_hand
