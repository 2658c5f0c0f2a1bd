#pragma once

namespace drystage::models {

enum class BatteryKind { flooded, agm, lfp };

/// A battery bank. Amounts in Ah count what the bank gives at its rated current and 25 °C.
struct BatteryParams {
  BatteryKind kind = BatteryKind::agm;
  double capacity_ah = 100.0;  ///< Above 0, as rated over `rate_h`.
  double rate_h = 20.0;        ///< Above 0.
  double voltage_v = 12.0;
  double peukert = 1.10;               ///< Exponent, 1 or more.
  double coulombic_efficiency = 0.95;  ///< Ah stored per Ah put in, above 0 and up to 1.
  double knee = 0.8;        ///< State of charge where acceptance starts to fall, under 1.
  double knee_per_h = 0.3;  ///< Current accepted up to the knee, in capacities per hour.
};

/// A bank with the usual constants of its kind, all common practice:
///   flooded  Peukert 1.25, efficiency 0.85, 0.2 C up to 80 %
///   AGM      Peukert 1.10, efficiency 0.95, 0.3 C up to 80 %
///   LFP      Peukert 1.02, efficiency 0.99, 0.5 C up to 95 %
[[nodiscard]] BatteryParams usual_battery(BatteryKind kind, double capacity_ah,
                                          double rate_h = 20.0, double voltage_v = 12.0);

/// Hours a steady `current_a` empties a full bank of `capacity_ah` rated over `rate_h`, by
/// Peukert's law H (C / (I H))^k; infinite for no current. Unbounded below the rated current.
[[nodiscard]] double peukert_hours(double capacity_ah, double rate_h, double peukert,
                                   double current_a);

/// Ah drawn from the store per Ah delivered, for a steady `current_a`: (I H / C)^(k - 1), but never
/// under 1, since nothing is gained by drawing slower than the rate. (Peukert's law.)
[[nodiscard]] double peukert_factor(const BatteryParams& params, double current_a);

/// How many times larger a bank must be to give the same in the cold; 1 at 25 °C and above.
/// Lead-acid: the cell size correction factors of IEEE 485 (memory), straight lines between them,
/// going on as the last one does below -3.9 °C. LFP: 1.05 at 10, 1.12 at 0, 1.25 at -10,
/// 1.55 at -20 °C (common practice).
[[nodiscard]] double cold_factor(BatteryKind kind, double battery_c);

/// The charge at which a bank at `battery_c` has given all that it would give at 25 °C down to
/// `floor_ah`. The cold does not destroy charge, it puts the lower part of it out of reach: of a
/// capacity C only C over the cold factor can be drawn, and as much less above any floor.
[[nodiscard]] double cold_floor_ah(const BatteryParams& params, double floor_ah, double battery_c);

/// Greatest current in A the bank accepts at `charge_ah` and `battery_c`: `knee_per_h` capacities
/// up to the knee, from there falling in a straight line to 0 at full, which makes the charge
/// approach full exponentially with time constant (1 - knee) / (efficiency knee_per_h) hours.
/// LFP accepts nothing below 0 °C (common practice).
[[nodiscard]] double accepted_a(const BatteryParams& params, double charge_ah, double battery_c);

/// Whether a bank takes no charge for the cold: LFP below 0 °C (common practice).
[[nodiscard]] bool too_cold_to_charge(BatteryKind kind, double battery_c);

/// What passed during a step, in Ah. With the charge before and after:
///   before + gained - used - lost = after
///   source_a dt = direct + gained + spilled
struct BatteryFlows {
  double gained_ah = 0.0;   ///< Put in at the terminals, beyond what went straight to the loads.
  double used_ah = 0.0;     ///< Delivered from the bank to the loads.
  double lost_ah = 0.0;     ///< Coulombic and Peukert losses.
  double direct_ah = 0.0;   ///< From the sources straight to the loads.
  double spilled_ah = 0.0;  ///< Offered by the sources and not taken.
  double lowest_ah = 0.0;   ///< Least charge during the step.
  double served = 1.0;      ///< Share of the step for which the loads were served.
};

/// Moves `charge_ah` on by `dt_h` hours (0 or less: nothing happens) with steady load and source
/// currents (0 or more; less counts as 0). `battery_c` decides what charge is accepted; what the
/// cold puts out of reach is the caller's to say by the floor (`cold_floor_ah`).
///
/// Sources serve the loads first. A surplus charges the bank as far as it accepts; a deficit
/// discharges it with the Peukert factor. When the charge comes down to `floor_ah` the
/// loads are cut off for the rest of the step (`served` says when), and the sources charge the bank
/// in that time. A charge at or below the floor serves no deficit at all. Loads that the sources
/// cover alone are served whatever the charge.
/// Method: closed form, so the result does not depend on how the time is cut into steps, unless the
/// bank is cut off: the next step connects the loads again.
BatteryFlows step_battery(const BatteryParams& params, double& charge_ah, double load_a,
                          double source_a, double battery_c, double dt_h, double floor_ah);

}  // namespace drystage::models
