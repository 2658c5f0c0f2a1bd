#pragma once

#include "plan/plan.h"

namespace drystage::plan {

/// What a litre of a cabinet holds at the most, air between included (common practice: food never
/// fills the corners).
inline constexpr double most_packed_kg_l = 0.8;

/// What a cabinet has to hold when setting out, its food and its ice, in kg. `cabinet` is an index
/// into Plan::cold.
double packed_kg(const Plan& plan, int cabinet);

}  // namespace drystage::plan
