#pragma once

#include <vector>

#include "plan/mishaps.h"

namespace drystage::engine {

/// What has broken since the plan was made.
struct Damage {
  std::vector<int> containers{};             ///< lost with what is in them: indices in the plan
  std::vector<plan::TankReference> tanks{};  ///< the same of vehicles' tanks and cans
  std::vector<plan::ConsumableStoreReference> stores{};  ///< and of consumables' stores

  void add(const Damage& more) {
    containers.insert(containers.end(), more.containers.begin(), more.containers.end());
    tanks.insert(tanks.end(), more.tanks.begin(), more.tanks.end());
    stores.insert(stores.end(), more.stores.begin(), more.stores.end());
  }
};

}  // namespace drystage::engine
