#pragma once

#include <vector>

#include "plan/consumables.h"
#include "plan/vehicle.h"

namespace drystage::plan {

/// Things that are left where they stand, to be picked up later.
struct Things {
  std::vector<int> vehicles{};                     ///< with all that is in them
  std::vector<int> trailers{};                     ///< by the vehicle that tows it
  std::vector<int> containers{};                   ///< indices into Water::containers
  std::vector<TankReference> tanks{};              ///< cans of fuel
  std::vector<ConsumableStoreReference> stores{};  ///< of consumables

  [[nodiscard]] bool empty() const { return *this == Things{}; }
  bool operator==(const Things&) const = default;
};

}  // namespace drystage::plan
