#pragma once

#include <optional>

namespace drystage::models {

/// Body posture, which sets the share of the skin that exchanges radiation (ISO 7933).
enum class Posture { sitting, standing, crouching };

/// A person and the surroundings they stay in, unchanged for `duration_min`.
/// The defaults are the standard person of ISO 7933:2004, annex E.
struct HeatStrainInputs {
  double air_c = 25.0;                ///< air temperature, °C
  double radiant_c = 25.0;            ///< mean radiant temperature, °C
  double vapour_pressure_kpa = 1.0;   ///< partial pressure of water vapour, kPa
  double air_speed_m_s = 0.3;         ///< air speed, m/s
  double metabolic_w_m2 = 100.0;      ///< metabolic rate, W per m² of body surface
  double work_w_m2 = 0.0;             ///< effective mechanical power, W/m² (0 for nearly all work)
  double clothing_clo = 0.5;          ///< basic clothing insulation, clo
  double vapour_permeability = 0.38;  ///< static moisture permeability index of the clothing
  Posture posture = Posture::standing;
  bool acclimatised = true;  ///< used to heat: sweats sooner and more
  double mass_kg = 75.0;
  double height_m = 1.80;
  /// Walking speed, m/s, above 0. Nothing: not known, taken from the metabolic rate.
  std::optional<double> walking_m_s;
  /// Angle between the way walked and the wind, degrees. Nothing: every way alike.
  std::optional<double> wind_angle_deg;
  int duration_min = 480;  ///< length of the exposure, whole minutes
};

/// What the exposure does to the person. Times are minutes; a limit not reached gives the duration.
struct HeatStrainResult {
  double water_loss_g = 0.0;     ///< sweat and breath together, over the whole exposure
  double sweat_w_m2 = 0.0;       ///< sweat rate in the last minute, as heat of vaporisation
  double mean_sweat_w_m2 = 0.0;  ///< the same, mean over the exposure
  double breath_w_m2 = 0.0;      ///< evaporation in breathing
  double rectal_c = 0.0;         ///< rectal temperature at the end
  double core_c = 0.0;           ///< core temperature at the end
  double skin_c = 0.0;           ///< mean skin temperature at the end
  double required_w_m2 = 0.0;    ///< evaporation that would hold the balance, last minute, signed
  double possible_w_m2 = 0.0;    ///< the most that can evaporate from the skin, last minute, signed
  double limit_rectal_min = 0.0;     ///< when rectal temperature reaches 38 °C
  double limit_loss_mean_min = 0.0;  ///< when the loss reaches 7.5 % of body mass (mean worker)
  double limit_loss_safe_min = 0.0;  ///< when the loss reaches 5 % of body mass (95 % of workers)
  /// True when an input lies outside the range over which the standard was validated
  /// (ISO 7933:2004, table A.1): the figures are then what the equations give, and no more.
  bool outside_validity = false;
};

/// Body surface, m², from mass in kg and height in m, both positive.
/// Source: DuBois and DuBois (1916), in the form printed in ISO 7933 and ISO 8996.
[[nodiscard]] double body_surface_m2(double mass_kg, double height_m);

/// Most sweat the body can give, W/m², for a metabolic rate in W/m² and a body surface in m².
/// Source: ISO 7933:2004, annex E: (M - 32)·A between 250 and 400, a quarter more if acclimatised.
[[nodiscard]] double sweat_ceiling_w_m2(double metabolic_w_m2, double surface_m2,
                                        bool acclimatised);

/// Sweat the body answers with, W/m², once it has had time to: from the evaporation that would
/// balance its heat (`required_w_m2`), the most that can evaporate (`possible_w_m2`), both signed,
/// and the ceiling. Dripping sweat is wasted, so the answer exceeds the requirement.
/// Source: ISO 7933:2004, required sweat rate and evaporative efficiency.
[[nodiscard]] double answering_sweat_w_m2(double required_w_m2, double possible_w_m2,
                                          double ceiling_w_m2);

/// Evaporation in breathing, W/m², for a metabolic rate in W/m², air in °C, vapour in kPa.
/// Source: ISO 7933:2004, respiratory evaporation.
[[nodiscard]] double breath_evaporation_w_m2(double metabolic_w_m2, double air_c,
                                             double vapour_pressure_kpa);

/// Mass flow for a heat of vaporisation: grams per hour and m² for one W/m² (ISO 7933: the latent
/// heat is 0.674 W·h/g, written there as 2.67/1.8).
inline constexpr double grams_per_watt_hour = 2.67 / 1.8;

/// Predicted heat strain, minute by minute, for a constant exposure.
///
/// In: see `HeatStrainInputs`. Validated range: air 15 to 50 °C; vapour 0 to 4.5 kPa; radiant
/// minus air 0 to 60 K; air speed 0 to 3 m/s; metabolic rate 56 to 250 W/m² (100 to 450 W);
/// clothing 0.1 to 1.0 clo. Outside it the equations are followed and `outside_validity` is set,
/// but for wind: the skin temperature keeps that of 3 m/s and the air layer on bare skin that of 5
/// m/s (ours). Followed further, the one falls with a wind that heats it, and the other grows
/// thicker; at 10 m/s and more they ask for all the sweat that a body has.
/// Mass, height and duration must be positive (duration 0 gives zeros).
/// Source: ISO 7933:2004, Analytical determination and interpretation of heat stress using
/// calculation of the predicted heat strain.
[[nodiscard]] HeatStrainResult predicted_heat_strain(const HeatStrainInputs& inputs);

}  // namespace drystage::models
