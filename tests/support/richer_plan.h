#pragma once

#include "support/random_plan.h"

namespace drystage::support {

/// A random plan with more in it: optional keys that its things lack, from the table of all keys,
/// each of its kind and usual. So a new key is tried without anybody thinking of it. What the
/// reader refuses together with the rest is not added. Names, places and the way stay.
PlanText richer_plan(const Pick& pick);

}  // namespace drystage::support
