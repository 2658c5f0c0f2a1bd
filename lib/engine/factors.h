#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "plan/vehicle.h"

namespace drystage::engine {

/// What differs in one trip from what its course was made of: how many times as much. Each is
/// finite and not below 0; 1 is as planned, to the last digit. A run is begun with it, and nothing
/// is laid out or compiled anew. What a course has worked out beforehand stays: stops that take
/// what is needed take what the plan needs. Margins that count in days or km go by what is used
/// here.
struct Factors {
  double drinking = 1;       ///< what all people drink
  double utility_water = 1;  ///< all other uses of water
  double meals = 1;          ///< what is eaten, with what consumables are used by the meal
  double consumables = 1;    ///< all uses of consumables, beside what is eaten; doses stay
  double loads = 1;  ///< what electrical loads draw; cabinets draw what the heat asks of them ...
  double cabinets = 1;  ///< ... times this, for as much cold
  double lids = 1;      ///< what lids let in
  double panels = 1;    ///< what solar panels yield
  double spoilage = 1;  ///< how fast food spoils. (The clock of food that is warm goes on.)
  /// By plan::Surface: what driving on it takes, of every vehicle, climbs included. (Generators
  /// burn what they do.)
  using BySurface = std::array<double, plan::surface_count>;
  BySurface fuel = as_planned();
  /// The same of each vehicle by itself, in the plan's order, instead; empty: `fuel` for all.
  std::vector<BySurface> fuel_of{};
  /// By Calendar::legs: what a leg takes, on top of its ground; empty: as planned.
  std::vector<double> fuel_of_leg{};

  bool operator==(const Factors&) const = default;

  [[nodiscard]] double fuel_on(plan::Surface surface, int vehicle) const {
    return fuel_of_one(vehicle)[static_cast<std::size_t>(surface)];
  }
  [[nodiscard]] double fuel_on_leg(int leg) const {
    const auto index = static_cast<std::size_t>(leg);
    return index < fuel_of_leg.size() ? fuel_of_leg[index] : 1;
  }
  /// Whether no surface takes more or less than planned.
  [[nodiscard]] bool fuel_is_as_planned(int vehicle) const {
    return fuel_of_one(vehicle) == as_planned();
  }

 private:
  [[nodiscard]] const BySurface& fuel_of_one(int vehicle) const {
    const auto index = static_cast<std::size_t>(vehicle);
    return index < fuel_of.size() ? fuel_of[index] : fuel;
  }
  static constexpr BySurface as_planned() {
    BySurface out{};
    out.fill(1);
    return out;
  }
};

}  // namespace drystage::engine
