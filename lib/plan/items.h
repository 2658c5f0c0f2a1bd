#pragma once

#include <string>
#include <vector>

#include "plan/item.h"
#include "plan/plan.h"

namespace drystage::plan {

/// Every water container, fuel tank, battery, solar panel, cabinet, item of food and store of a
/// consumable of a plan, sort by sort in this order, each in the order of the file. Of two of one
/// sort that share a name, which is an error told elsewhere, only the first.
std::vector<Item> items_of(const Plan& plan);

/// Those among some that a name stands for, short or full: none, one, or several that share it.
std::vector<Item> items_called(const std::vector<Item>& items, const std::string& name);

/// How each may be called at its shortest: by its name where no other has it, else by its full one.
std::vector<std::string> shortest_names(const std::vector<Item>& items);

}  // namespace drystage::plan
