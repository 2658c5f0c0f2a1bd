#pragma once

#include <vector>

#include "plan/mark.h"
#include "plan/mishaps.h"

namespace drystage::plan {

/// What has become otherwise than planned, on the way. Other stays, shut roads and missing supplies
/// are in the plan's itinerary and places already, as its reader puts them there; these are not.
struct Change {
  int day = 0;                         ///< of the trip, from 0
  int stay = -1;                       ///< the stay of the itinerary that is another; -1: none
  int nights = 0;                      ///< that it has now
  int wait_days = 0;                   ///< from that evening on, where the party is then
  std::vector<int> containers{};       ///< lost, with what was in them
  std::vector<TankReference> tanks{};  ///< the same
  std::vector<ConsumableStoreReference> stores{};  ///< the same
  Mark mark{};
};

}  // namespace drystage::plan
