#pragma once

#include <vector>

#include "plan/fields.h"
#include "plan/item.h"
#include "plan/plan.h"

namespace drystage::plan {

/// Reads what was found at one reading: all its keys but those of when and where. `items` are those
/// of the plan, by which its containers and tanks are called. Unless the plan is `sound`, which it
/// is without errors so far, nobody knows what there is room for, and that is not judged.
void read_found(Fields& fields, const std::vector<Item>& items, const Plan& plan, bool sound,
                Reading& made);

}  // namespace drystage::plan
