#pragma once

#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "units/format.h"

namespace drystage::report {

/// What is taken on at one stop.
struct SupplyStop {
  double hour = 0;    ///< since the trip's first midnight
  std::string words;  ///< "diesel 40 L, drinking water 55 L (not confirmed)", "food: shut"
};

/// Every stop of a run at which something was taken, or a supply was shut, in time order.
std::vector<SupplyStop> supply_stops(const answers::PlanRun& planned, units::System system);

}  // namespace drystage::report
