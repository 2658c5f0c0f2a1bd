#pragma once

#include <string>

namespace drystage::plan {

/// A thing in the plan that has a name and can be pointed at by it.
struct Item {
  enum class Sort { container, tank, battery, panel, cabinet, food, store, vehicle, trailer };
  Sort sort = Sort::container;
  int index = 0;  ///< into the plan's list of that sort; a panel's into Power::chargers
  int of = -1;    ///< whose: of a tank the vehicle, of a store the consumable; `index` is into
                  ///< its tanks or stores
  std::string name;
  /// Says which of two with one name: behind "water", the vehicle's name, "batteries", "charging",
  /// "cold" or "food", or the consumable's name, as in "water/can 1", "truck/jerry 1".
  std::string full_name;

  bool operator==(const Item& other) const = default;
};

}  // namespace drystage::plan
