#pragma once

#include <cstddef>

#include "plan/log.h"
#include "plan/plan.h"

namespace drystage::plan {

// What a plan may hold at the most, beside its size (tree.h) and its days (engine/schedule.h). More
// would take more memory and time to answer than a small machine has.

/// Items of one list, and keys of one map.
inline constexpr std::size_t most_in_one = 1000;

/// Containers, tanks, batteries, chargers, cabinets, items of food, stores and pieces of gear, of
/// all vehicles together.
inline constexpr std::size_t most_to_carry = 300;

/// How many a plan has.
std::size_t things_to_carry(const Plan& plan);

/// Logs an error where there are more things to carry.
void refuse_too_many(Log& log, const Plan& plan);

}  // namespace drystage::plan
