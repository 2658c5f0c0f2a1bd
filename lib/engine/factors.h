#pragma once

#include <array>
#include <cstddef>

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
  double loads = 1;   ///< what electrical loads draw; cabinets draw what the heat asks of them
  double panels = 1;  ///< what solar panels yield
  /// By plan::Surface: what driving on it takes, of every vehicle, climbs included. (Generators
  /// burn what they do.)
  std::array<double, plan::surface_count> fuel = as_planned();

  [[nodiscard]] double fuel_on(plan::Surface surface) const {
    return fuel[static_cast<std::size_t>(surface)];
  }

 private:
  static constexpr std::array<double, plan::surface_count> as_planned() {
    std::array<double, plan::surface_count> out{};
    out.fill(1);
    return out;
  }
};

}  // namespace drystage::engine
