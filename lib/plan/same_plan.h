#pragma once

#include <string>

#include "plan/plan.h"
#include "plan/tree.h"

namespace drystage::plan {

/// The first difference between two plans in what `rewrite` may change (the lists of key_values.h),
/// in words: names, order and every number, to a relative 1e-12. Empty if there is none.
std::string difference(const Plan& a, const Plan& b);

/// Whether two values are written the same, wherever they stand.
bool same_node(const Node& a, const Node& b);

/// Whether two plan files say the same in everything but the lists that `difference` compares.
bool same_besides(const Node& a, const Node& b);

}  // namespace drystage::plan
