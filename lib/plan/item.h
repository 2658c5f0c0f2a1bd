#pragma once

#include <string>

namespace drystage::plan {

/// A thing in the plan that has a name and can be pointed at by it.
struct Item {
  enum class Sort { container, tank, battery, panel, cabinet, food };
  Sort sort = Sort::container;
  int index = 0;     ///< into the plan's list of that sort; a panel's into Power::chargers
  int vehicle = -1;  ///< of a tank: whose; `index` is into its tanks
  std::string name;
  /// Says which of two with one name: behind "water", the vehicle's name, "batteries", "charging",
  /// "cold" or "food", as in "water/can 1", "truck/jerry 1".
  std::string full_name;

  bool operator==(const Item& other) const = default;
};

}  // namespace drystage::plan
