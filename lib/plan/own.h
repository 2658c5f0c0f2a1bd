#pragma once

#include <vector>

#include "plan/plan.h"

namespace drystage::plan {

/// Whose a stock is that a vehicle carries: its own, or -1, common to all that keep none.
int owner_of(const Plan& plan, int vehicle, Stock stock);

/// Who has a stock to themselves: -1, all who share the common one, then each vehicle that keeps
/// its own.
std::vector<int> owners(const Plan& plan, Stock stock);

/// A vehicle whose people use the common stock, where added things go: the first.
int common_vehicle(const Plan& plan, Stock stock);

}  // namespace drystage::plan
