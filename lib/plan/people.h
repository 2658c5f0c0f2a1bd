#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "plan/along.h"
#include "plan/mark.h"

namespace drystage::plan {

enum class Sex { female, male };

/// The weather and the activity in which a person's drinking was observed.
struct ObservedIn {
  double max_c = 0;
  double min_c = 0;
  std::optional<double> elevation_m;  ///< nothing: that of the place where the trip begins
  std::optional<int> activity;        ///< index into Plan::activities; nothing: camp
};

/// One person. Figures of their own (`observed:`) win over or scale the model.
struct Person {
  std::string name;
  double mass_kg = 75;
  double height_m = 1.75;
  double age_years = 35;
  Sex sex = Sex::male;
  bool acclimatised = true;
  int vehicle = 0;                        ///< index into Plan::vehicles: where they ride
  std::optional<int> seat{};              ///< index into its bays
  std::optional<double> drinking_l_day;   ///< observed; scales the model
  std::optional<ObservedIn> drinking_at;  ///< nothing: as on the first day of the trip
  std::optional<double> meals_day;        ///< stated meals, replaces the energy model
  Along along{};                          ///< where nothing is said, that of their vehicle
  Mark mark{};
};

/// A day's pattern: hours in each ISO 8996 class (resting, low, moderate, high, very high). What is
/// left of the 24 h is rest. `in_sun` is the share of those hours spent in full sun.
struct Activity {
  std::string name;
  std::array<double, 5> hours{};
  double in_sun = 0;
  Mark mark{};
};

}  // namespace drystage::plan
