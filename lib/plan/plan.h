#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "plan/changes.h"
#include "plan/cold.h"
#include "plan/consumables.h"
#include "plan/food.h"
#include "plan/itinerary.h"
#include "plan/margin.h"
#include "plan/mishaps.h"
#include "plan/people.h"
#include "plan/power.h"
#include "plan/readings.h"
#include "plan/size.h"
#include "plan/uncertainty.h"
#include "plan/vehicle.h"
#include "plan/water.h"
#include "plan/weather.h"

namespace drystage::plan {

/// What the user wrote, in the project's units, with references resolved to indices and defaults
/// filled in. A Plan that `read` returns without errors is consistent: every index is in range, no
/// store holds more than it can, surfaces sum to their leg.
struct Plan {
  Trip trip;
  Margins margins;
  std::vector<Person> people;
  std::vector<Activity> activities;  ///< `on_the_road` and `camp` always exist
  int road_activity = 0;
  int camp_activity = 0;
  Water water;
  std::vector<Vehicle> vehicles;
  std::vector<Cabinet> cold;
  std::vector<FoodItem> food;
  Power power;
  std::vector<Consumable> consumables;
  std::vector<Climate> climates;
  std::vector<NamedDays> weather;
  std::vector<Place> places;
  std::vector<ItineraryItem> itinerary;
  std::vector<Road> roads;        ///< as written
  std::vector<Reading> readings;  ///< in time order
  std::vector<Change> changes;    ///< as they stand
  /// What it was before its changes, without readings; null where there are none.
  std::shared_ptr<const Plan> as_planned{};
  Mishaps mishaps;
  Uncertainty uncertainty;
  Size size;
  bool plans_food = true;  ///< it speaks of food; else meals are not judged
};

}  // namespace drystage::plan
