#pragma once

#include <vector>

#include "plan/mark.h"
#include "plan/mishaps.h"

namespace drystage::plan {

/// What has become otherwise than planned, on the way. Other stays and shut supplies are in the
/// plan's itinerary and places already, as its reader puts them there; these are not.
struct Change {
  int day = 0;                         ///< of the trip, from 0
  int wait_days = 0;                   ///< from that evening on, where the party is then
  std::vector<int> containers{};       ///< lost, with what was in them
  std::vector<TankReference> tanks{};  ///< the same
  std::vector<ConsumableStoreReference> stores{};  ///< the same
  Mark mark{};
};

}  // namespace drystage::plan
