#pragma once

namespace drystage::models {

/// A maker's figure for a cabinet's appetite: its mean electrical draw, thermostat cycling, with
/// the surroundings at `ambient_c` and the inside at `inside_c`.
struct RatedDraw {
  double mean_w = 0.0;
  double ambient_c = 0.0;
  double inside_c = 0.0;
};

/// Share of the Carnot coefficient that a small direct-current compressor reaches. Common practice.
inline constexpr double usual_carnot_fraction = 0.35;
/// Share of the time a compressor runs at its rated point. Common practice.
inline constexpr double usual_rated_duty = 0.25;
/// Evaporator below the inside, condenser above the surroundings, K. Common practice.
inline constexpr double evaporator_below_k = 10.0;
inline constexpr double condenser_above_k = 15.0;
/// The least temperature lift reckoned with, K: keeps the coefficient finite in a cabinet warmer
/// than its surroundings, where it does not matter. Common practice.
inline constexpr double least_lift_k = 10.0;

/// What the cabinet model needs to know of a compressor. A `running_w` of 0 is no compressor.
struct Compressor {
  double carnot_fraction = usual_carnot_fraction;
  double running_w = 0.0;  ///< Electrical power while it runs.
};

/// Heat moved per unit of electrical work: the fraction of Carnot between an evaporator 10 K below
/// `inside_c` and a condenser 15 K above `ambient_c`. Temperatures above -250 °C.
[[nodiscard]] double cooling_cop(double carnot_fraction, double ambient_c, double inside_c);

/// The wall conductance in W/K that makes the cabinet draw what it is rated for:
/// rated W x COP / (ambient - inside). 0 if the rating has no temperature difference.
[[nodiscard]] double rated_leak_w_per_k(const RatedDraw& rated,
                                        double carnot_fraction = usual_carnot_fraction);

/// The compressor of a rated cabinet: running power as given, or, when `running_w` is 0 or less,
/// the rated mean over a duty of one quarter (common practice).
[[nodiscard]] Compressor rated_compressor(const RatedDraw& rated, double running_w = 0.0,
                                          double carnot_fraction = usual_carnot_fraction);

/// Most heat in W the compressor takes out of an inside at `inside_c` in surroundings at
/// `ambient_c`, running without a pause.
[[nodiscard]] double cooling_capacity_w(const Compressor& compressor, double ambient_c,
                                        double inside_c);

/// A thermostat's long-run behaviour.
struct SteadyDuty {
  double duty = 0.0;    ///< Share of the time the compressor runs, 0 to 1.
  double mean_w = 0.0;  ///< Mean electrical power.
  bool holds = true;    ///< False if even running without a pause it cannot carry the load.
};

/// Duty and mean power to carry a steady `load_w` (negative counts as 0) out of `inside_c` into
/// `ambient_c`.
[[nodiscard]] SteadyDuty steady_duty(const Compressor& compressor, double load_w, double ambient_c,
                                     double inside_c);

}  // namespace drystage::models
