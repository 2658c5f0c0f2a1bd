#pragma once

#include <functional>

#include "support/plan_text.h"

namespace drystage::support {

/// Answers a whole number from `low` to `high`, both possible: where all chance comes from.
using Pick = std::function<int(int low, int high)>;

/// A Pick for use inside a RapidCheck property.
Pick rapidcheck_pick();

/// A valid plan of any make: 1 to 5 people, drinking and utility containers (potable, brackish,
/// opened last), vehicles of both fuels, cabinets of every kind, food of every kind, banks of three
/// chemistries, consumables of every kind, all chargers and loads, weather from -20 to 48 °C, legs
/// long enough to be split, resupply in every form, shut days and named days. About 1 to 25 days
/// long.
PlanText random_plan(const Pick& pick);

/// One to three roads between places of a random plan, in either direction.
std::vector<std::string> random_roads(const Pick& pick);

}  // namespace drystage::support
