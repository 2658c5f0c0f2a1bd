#pragma once

#include <fmt/core.h>

#include <string>
#include <utility>
#include <vector>

#include "support/random_plan.h"

namespace drystage::support {

/// What the parts of a random plan must know of each other.
struct Draft {
  const Pick& pick;
  PlanText text{};
  bool drinking_can = false;
  bool utility_can = false;
  bool diesel = false;
  bool petrol = false;
  bool ice_box = false;
  bool freezes = false;
  std::vector<std::string> vehicles{};
  std::vector<std::string> banks{};
  std::vector<std::pair<std::string, std::string>> consumables{};  // with their units
  std::vector<std::vector<std::string>> supplies{};                // by place
  std::vector<std::vector<std::pair<std::string, std::string>>> consumables_at{};  // by place

  [[nodiscard]] bool one_in(int n) const { return pick(1, n) == 1; }
  [[nodiscard]] const std::string& any(const std::vector<std::string>& of) const {
    return of[static_cast<std::size_t>(pick(0, static_cast<int>(of.size()) - 1))];
  }
  [[nodiscard]] std::string in_vehicle(const char* key) const {
    return vehicles.empty() ? "" : fmt::format(", {}: {}", key, any(vehicles));
  }
};

/// What a random plan takes along, part by part, in the order in which they know of each other.
void add_vehicles(Draft& d);
void add_water(Draft& d);
void add_batteries(Draft& d);
void add_charging(Draft& d);
void add_loads(Draft& d);
void add_cold(Draft& d);
void add_food(Draft& d);
void add_consumables(Draft& d);

}  // namespace drystage::support
