#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "plan/mark.h"

namespace drystage::plan {

enum class Sex { female, male };

/// One person. Figures of their own (`observed:`) win over every model.
struct Person {
  std::string name;
  double mass_kg = 75;
  double height_m = 1.75;
  double age_years = 35;
  Sex sex = Sex::male;
  bool acclimatised = true;
  int vehicle = 0;                       ///< index into Plan::vehicles: where they ride
  std::optional<double> drinking_l_day;  ///< observed drinking, replaces sweat and base
  std::optional<double> meals_day;       ///< stated meals, replaces the energy model
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
