#include "models/battery.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>

namespace drystage::models {

namespace {

struct ColdRow {
  double battery_c;
  double factor;
};

// IEEE 485 cell size correction factors, 25 °C and below (memory).
constexpr std::array lead_table{
    ColdRow{25.0, 1.00}, ColdRow{23.9, 1.011}, ColdRow{21.1, 1.04}, ColdRow{18.3, 1.08},
    ColdRow{15.6, 1.11}, ColdRow{12.8, 1.15},  ColdRow{10.0, 1.19}, ColdRow{7.2, 1.25},
    ColdRow{4.4, 1.30},  ColdRow{1.7, 1.35},   ColdRow{-1.1, 1.43}, ColdRow{-3.9, 1.52},
};

// Common practice.
constexpr std::array lfp_table{
    ColdRow{25.0, 1.00},  ColdRow{10.0, 1.05},  ColdRow{0.0, 1.12},
    ColdRow{-10.0, 1.25}, ColdRow{-20.0, 1.55},
};

template <std::size_t rows>
double factor_from(const std::array<ColdRow, rows>& table, double battery_c) {
  if (battery_c >= table[0].battery_c) {
    return 1.0;
  }
  std::size_t i = 1;
  while (i + 1 < rows && battery_c < table[i].battery_c) {
    ++i;
  }
  const ColdRow& warm = table[i - 1];
  const ColdRow& cold = table[i];
  return warm.factor + (cold.factor - warm.factor) * (warm.battery_c - battery_c) /
                           (warm.battery_c - cold.battery_c);
}

/// Offers the bank `offer_a` for `dt_h`.
void charge(const BatteryParams& params, double& charge_ah, double offer_a, double battery_c,
            double dt_h, BatteryFlows& flows) {
  const double full_ah = params.capacity_ah;
  double gained_ah = 0.0;
  if (charge_ah < full_ah && offer_a > 0.0 && !too_cold_to_charge(params.kind, battery_c)) {
    const double knee_a = params.knee_per_h * full_ah;
    const double current_a = std::min(offer_a, knee_a);
    const double stored_per_h = params.coulombic_efficiency * current_a;
    // The charge at which the bank begins to accept less than it is offered.
    const double taper_ah = full_ah * (1.0 - (1.0 - params.knee) * current_a / knee_a);
    const double room_ah = std::max(taper_ah - charge_ah, 0.0);
    if (stored_per_h * dt_h <= room_ah) {
      gained_ah = current_a * dt_h;
      charge_ah += stored_per_h * dt_h;
    } else {
      const double steady_h = room_ah / stored_per_h;
      const double start_ah = charge_ah + room_ah;
      const double per_h = params.coulombic_efficiency * params.knee_per_h / (1.0 - params.knee);
      const double tapered_ah = (full_ah - start_ah) * -std::expm1(-per_h * (dt_h - steady_h));
      const double stored_ah = room_ah + tapered_ah;
      gained_ah = stored_ah / params.coulombic_efficiency;
      charge_ah = std::min(charge_ah + stored_ah, full_ah);
    }
  }
  flows.gained_ah += gained_ah;
  flows.lost_ah += gained_ah * (1.0 - params.coulombic_efficiency);
  flows.spilled_ah += std::max(offer_a * dt_h - gained_ah, 0.0);
}

}  // namespace

BatteryParams usual_battery(BatteryKind kind, double capacity_ah, double rate_h, double voltage_v) {
  BatteryParams params;
  params.kind = kind;
  params.capacity_ah = capacity_ah;
  params.rate_h = rate_h;
  params.voltage_v = voltage_v;
  switch (kind) {
    case BatteryKind::flooded:
      params.peukert = 1.25;
      params.coulombic_efficiency = 0.85;
      params.knee_per_h = 0.2;
      break;
    case BatteryKind::agm:
      params.peukert = 1.10;
      params.coulombic_efficiency = 0.95;
      params.knee_per_h = 0.3;
      break;
    case BatteryKind::lfp:
      params.peukert = 1.02;
      params.coulombic_efficiency = 0.99;
      params.knee = 0.95;
      params.knee_per_h = 0.5;
      break;
  }
  return params;
}

double peukert_hours(double capacity_ah, double rate_h, double peukert, double current_a) {
  if (current_a <= 0.0) {
    return std::numeric_limits<double>::infinity();
  }
  return rate_h * std::pow(capacity_ah / (current_a * rate_h), peukert);
}

double peukert_factor(const BatteryParams& params, double current_a) {
  const double rated_currents = current_a * params.rate_h / params.capacity_ah;
  if (!(rated_currents > 1.0) || params.peukert <= 1.0) {
    return 1.0;
  }
  return std::pow(rated_currents, params.peukert - 1.0);
}

double cold_factor(BatteryKind kind, double battery_c) {
  return kind == BatteryKind::lfp ? factor_from(lfp_table, battery_c)
                                  : factor_from(lead_table, battery_c);
}

double cold_floor_ah(const BatteryParams& params, double floor_ah, double battery_c) {
  return params.capacity_ah - (params.capacity_ah - floor_ah) / cold_factor(params.kind, battery_c);
}

bool too_cold_to_charge(BatteryKind kind, double battery_c) {
  return kind == BatteryKind::lfp && battery_c < 0.0;
}

double accepted_a(const BatteryParams& params, double charge_ah, double battery_c) {
  if (too_cold_to_charge(params.kind, battery_c)) {
    return 0.0;
  }
  const double empty_share = std::clamp(1.0 - charge_ah / params.capacity_ah, 0.0, 1.0);
  return params.knee_per_h * params.capacity_ah * std::min(1.0, empty_share / (1.0 - params.knee));
}

BatteryFlows step_battery(const BatteryParams& params, double& charge_ah, double load_a,
                          double source_a, double battery_c, double dt_h, double floor_ah) {
  BatteryFlows flows;
  flows.lowest_ah = charge_ah;
  if (dt_h <= 0.0) {
    return flows;
  }
  const double load = std::max(load_a, 0.0);
  const double source = std::max(source_a, 0.0);
  const double deficit = load - source;
  if (deficit <= 0.0) {
    flows.direct_ah = load * dt_h;
    charge(params, charge_ah, -deficit, battery_c, dt_h, flows);
    return flows;
  }
  const double drain = deficit * peukert_factor(params, deficit);
  const double above_floor_ah = std::max(charge_ah - floor_ah, 0.0);
  const double wanted_ah = drain * dt_h;
  const bool cut = wanted_ah > above_floor_ah;
  const double drawn_ah = cut ? above_floor_ah : wanted_ah;
  const double served_h = cut ? above_floor_ah / drain : dt_h;
  flows.served = cut ? served_h / dt_h : 1.0;
  flows.used_ah = deficit * served_h;
  flows.lost_ah = drawn_ah - flows.used_ah;
  flows.direct_ah = source * served_h;
  charge_ah = cut && above_floor_ah > 0.0 ? floor_ah : charge_ah - drawn_ah;
  flows.lowest_ah = charge_ah;
  if (cut) {
    charge(params, charge_ah, source, battery_c, dt_h - served_h, flows);
  }
  return flows;
}

}  // namespace drystage::models
