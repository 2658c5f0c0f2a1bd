#pragma once

#include <array>

#include "plan/power.h"

namespace drystage::engine {

/// Sizes in which things are usually had, and what they weigh and take up where a plan does not
/// say: common practice throughout, for a first reckoning. What somebody has weighed is better.

inline constexpr double usual_fuel_can_l = 20;
inline constexpr std::array<double, 2> usual_water_containers_l{10, 20};

/// A steel can for fuel: 4 kg at 20 L, 2.4 kg at 10 L.
constexpr double usual_fuel_can_kg(double holds_l) { return 0.8 + 0.16 * holds_l; }

/// A polyethylene container for water that one person lifts: 1.2 kg at 20 L, 0.7 kg at 10 L.
constexpr double usual_container_kg(double holds_l) { return 0.2 + 0.05 * holds_l; }

/// A fitted tank: of polyethylene for water, of steel for fuel.
constexpr double usual_water_tank_kg(double holds_l) { return 0.07 * holds_l; }
constexpr double usual_fuel_tank_kg(double holds_l) { return 0.2 * holds_l; }

constexpr double usual_bank_kg(plan::BatteryKind kind, double capacity_ah, double voltage_v) {
  const double kg_ah_12v = kind == plan::BatteryKind::lfp ? 0.13 : 0.3;
  return kg_ah_12v * capacity_ah * voltage_v / 12;
}

/// A framed panel with its feet: 11 kg at 160 W.
constexpr double usual_panel_kg(double power_w) { return 0.07 * power_w; }

/// A compressor cabinet: 18 kg at 45 L.
constexpr double usual_cabinet_kg(double volume_l) { return 9 + 0.2 * volume_l; }

// Outside measures: what a thing takes up for each litre, Ah or meal of it.
inline constexpr double usual_can_space = 1.4;         ///< a 20 L can of 47 by 35 by 17 cm: 28 L
inline constexpr double usual_bank_space_l_ah = 0.13;  ///< of 12 V
inline constexpr double usual_cabinet_space = 2.7;     ///< a 45 L chest of 72 by 40 by 43 cm
inline constexpr double usual_meal_space_l = 1;

}  // namespace drystage::engine
