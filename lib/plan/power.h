#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/cold.h"
#include "plan/mark.h"
#include "plan/vehicle.h"

namespace drystage::plan {

enum class BatteryKind { flooded, agm, lfp };

/// Usual floor and cut-off by kind.
struct UsualLevels {
  double floor;
  double cut_off;
};
UsualLevels usual_levels(BatteryKind kind);

struct Bank {
  std::string name;
  BatteryKind kind = BatteryKind::agm;
  double capacity_ah = 0;
  double rate_h = 0;
  double voltage_v = 0;
  double filled = 0;   ///< share of capacity at the start
  double floor = 0;    ///< below it, loads that have a shed order go, one after another
  double cut_off = 0;  ///< below it, everything goes that may be shed
  std::optional<double> peukert;
  std::optional<double> efficiency;
  double mass_kg = 0;
  int vehicle = 0;
  Spot spot{};
  Mark mark{};
  bool operator==(const Bank&) const = default;
};

enum class ChargerKind { dc_dc, solar, mains, generator };

/// From one clock hour to another, past midnight where the second is not later.
struct ClockSpan {
  double from_h = 0;
  double to_h = 0;
  bool operator==(const ClockSpan&) const = default;
};

struct Charger {
  std::string name;
  ChargerKind kind = ChargerKind::dc_dc;
  int bank = 0;
  While when = While::always;
  double current_a = 0;              ///< dc_dc, and mains when given as a current
  double power_w = 0;                ///< solar: panel rating; mains, generator: output
  double tilt_deg = 0;               ///< solar
  double facing_deg = 0;             ///< solar: degrees from north, eastward
  std::optional<double> noct_c{};    ///< solar; none: by how it is mounted
  double loss = 0;                   ///< solar: all system losses together
  double mass_kg = 0;                ///< solar: carried where its bank is
  Spot spot{};                       ///< solar
  double hours_day = 0;              ///< generator: how long it runs each day at camp
  double starts_h = 0;               ///< generator: local clock hour it is started
  double uses_l_h = 0;               ///< generator
  std::optional<ClockSpan> quiet{};  ///< generator: when it does not run
  int burns = -1;  ///< generator: the consumable that feeds it; -1: a vehicle's tanks
  FuelKind fuel = FuelKind::petrol;  ///< generator
  int vehicle = 0;                   ///< generator: whose tanks feed it; dc_dc: whose engine
  Mark mark{};
  bool operator==(const Charger&) const = default;
};

/// A panel that lies flat, with the usual losses.
Charger solar_panel(std::string name, int bank, double power_w);

/// An electrical load. Either a draw for some hours or an energy per day.
struct Load {
  std::string name;
  double draw_w = 0;
  std::optional<double> hours_day;     ///< spread over the day; none: the whole time
  std::optional<double> after_dark_h;  ///< from sunset
  double energy_wh_day = 0;
  While when = While::always;
  bool never_shed = false;
  int shed_order = 0;  ///< 1 is shed first; 0: only at cut-off
  int bank = 0;
  Mark mark{};
  bool operator==(const Load&) const = default;
};

struct Power {
  std::vector<Bank> banks;
  std::vector<Charger> chargers;
  std::vector<Load> loads;
  bool operator==(const Power&) const = default;
};

}  // namespace drystage::plan
