#include "models/heat_strain.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drystage::models {
namespace {

constexpr double core_start_c = 36.8;
constexpr double skin_start_c = 34.1;
constexpr double skin_share_start = 0.3;
constexpr double rectal_limit_c = 38.0;
constexpr double loss_limit_mean = 0.075;
constexpr double loss_limit_safe = 0.05;
constexpr double converged_k = 0.001;
constexpr int most_rounds = 100;
constexpr double body_emissivity = 0.97;  // skin and ordinary clothing alike
constexpr double stefan_boltzmann = 5.67e-8;
constexpr double kelvin = 273.0;  // the standard rounds 273.15

// Where two regressions of the standard are held, because beyond they turn against physics: that
// of skin temperature at the end of its range of wind, and that of the air layer on bare skin at
// its lowest, after which more wind would thicken the layer again.
constexpr double most_skin_wind_m_s = 3.0;
constexpr double thinnest_layer_m_s = 5.0;

// Share of a first-order lag covered in one minute.
double lag_share(double time_constant_min) { return 1.0 - std::exp(-1.0 / time_constant_min); }

double radiating_share(Posture posture) {
  switch (posture) {
    case Posture::sitting:
      return 0.70;
    case Posture::crouching:
      return 0.67;
    case Posture::standing:
      break;
  }
  return 0.77;
}

// Speed of the air past the body. One who stands, or walks at a speed not known, gets the wind.
double relative_air_m_s(const HeatStrainInputs& in) {
  if (!in.walking_m_s.has_value()) {
    return in.air_speed_m_s;
  }
  if (in.wind_angle_deg.has_value()) {
    const double along = std::cos(*in.wind_angle_deg * std::numbers::pi / 180.0);
    return std::abs(in.air_speed_m_s - *in.walking_m_s * along);
  }
  return std::max(in.air_speed_m_s, *in.walking_m_s);
}

// Heat and vapour resistance of clothing and the air around it, with wind and movement.
struct Covering {
  double area_factor = 1.0;
  double insulation_m2k_w = 0.0;  // skin to clothing surface
  double vapour_resistance_m2kpa_w = 0.0;
};

Covering covering(double clo, double permeability, double air_m_s, double walking_m_s) {
  constexpr double still_air_m2k_w = 0.111;
  const double wind = std::min(air_m_s, 3.0);
  const double walk = std::min(walking_m_s, 1.5);
  const double bare_wind = std::min(air_m_s, thinnest_layer_m_s);
  // Reductions of the still values: for the clothed, and for the air layer on bare skin.
  const double clothed = std::min(
      1.0, 1.044 * std::exp((0.066 * wind - 0.398) * wind + (0.094 * walk - 0.378) * walk));
  const double bare = std::min(
      1.0, std::exp((0.047 * bare_wind - 0.472) * bare_wind + (0.117 * walk - 0.342) * walk));
  const double whole = clo <= 0.6 ? ((0.6 - clo) * bare + clo * clothed) / 0.6 : clothed;

  Covering result;
  result.area_factor = 1.0 + 0.3 * clo;
  const double still_total = 0.155 * clo + still_air_m2k_w / result.area_factor;
  const double total = still_total * whole;
  result.insulation_m2k_w = total - bare * still_air_m2k_w / result.area_factor;
  const double moving_permeability =
      std::min(0.9, permeability * ((2.6 * whole - 6.5) * whole + 4.9));
  result.vapour_resistance_m2kpa_w = total / (16.7 * moving_permeability);
  return result;
}

// Steady skin temperature as a linear regression on the surroundings and the rectal temperature.
double steady_skin_c(const HeatStrainInputs& in, double rectal_c) {
  const double wind_m_s = std::min(in.air_speed_m_s, most_skin_wind_m_s);
  const double clothed = 12.165 + 0.02017 * in.air_c + 0.04361 * in.radiant_c +
                         0.19354 * in.vapour_pressure_kpa - 0.25315 * wind_m_s +
                         0.005346 * in.metabolic_w_m2 + 0.51274 * rectal_c;
  const double bare = 7.191 + 0.064 * in.air_c + 0.061 * in.radiant_c +
                      0.198 * in.vapour_pressure_kpa - 0.348 * wind_m_s + 0.616 * rectal_c;
  const double weight = std::clamp(2.5 * (in.clothing_clo - 0.2), 0.0, 1.0);
  return bare + weight * (clothed - bare);
}

// Heat lost by convection and radiation together, W/m², with the skin at `skin_c`.
double dry_loss_w_m2(const HeatStrainInputs& in, const Covering& cover, double air_m_s,
                     double skin_c) {
  const double forced = air_m_s > 1.0 ? 8.7 * std::pow(air_m_s, 0.6) : 3.5 + 5.2 * air_m_s;
  const double natural = 2.38 * std::sqrt(std::sqrt(std::abs(skin_c - in.air_c)));
  const double convection = std::max(forced, natural);
  const double emission = body_emissivity * stefan_boltzmann * radiating_share(in.posture);
  const double radiant_k = in.radiant_c + kelvin;

  // The clothing surface balances what reaches it through the clothing against what leaves it.
  // (a⁴ - b⁴)/(a - b) is written out, so equal temperatures do no harm.
  double surface_c = in.radiant_c + 0.1;
  double radiation = 0.0;
  for (int round = 0; round < most_rounds; ++round) {
    const double surface_k = surface_c + kelvin;
    radiation =
        emission * (surface_k * surface_k + radiant_k * radiant_k) * (surface_k + radiant_k);
    const double outward = cover.area_factor * (convection + radiation);
    const double inward = 1.0 / cover.insulation_m2k_w;
    const double balanced_c =
        (cover.area_factor * (convection * in.air_c + radiation * in.radiant_c) + skin_c * inward) /
        (outward + inward);
    if (std::abs(surface_c - balanced_c) <= converged_k) {
      break;
    }
    surface_c = (surface_c + balanced_c) / 2.0;
  }
  return cover.area_factor *
         (convection * (surface_c - in.air_c) + radiation * (surface_c - in.radiant_c));
}

// Evaporation the body achieves with `sweat_w_m2` on the skin.
double achieved_evaporation_w_m2(double sweat_w_m2, double possible_w_m2, double most_wet) {
  if (sweat_w_m2 <= 0.0) {
    return 0.0;
  }
  const double ratio = possible_w_m2 / sweat_w_m2;
  const double wet = ratio >= 0.5 ? -ratio + std::sqrt(ratio * ratio + 2.0) : 1.0;
  return std::min(wet, most_wet) * possible_w_m2;
}

// Share of the body mass at skin temperature: less as the core warms.
double skin_share_at(double core_c) {
  return std::clamp(skin_share_start - 0.09 * (core_c - core_start_c), 0.1, skin_share_start);
}

struct Body {
  double core_c = core_start_c;
  double core_target_c = core_start_c;
  double rectal_c = core_start_c;
  double skin_c = skin_start_c;
  double skin_share = skin_share_start;
  double sweat_w_m2 = 0.0;
};

// Core temperature after storing `stored_w_m2` for a minute, with the skin share that goes with it.
void store_heat(Body& body, double skin_before_c, double stored_w_m2, double capacity) {
  const double core_before_c = body.core_c;
  const double share_before = body.skin_share;
  double guess_c = core_before_c;
  for (int round = 0; round < most_rounds; ++round) {
    body.skin_share = skin_share_at(guess_c);
    const double mean_before =
        skin_before_c * share_before / 2.0 + core_before_c * (1.0 - share_before / 2.0);
    body.core_c = (stored_w_m2 / capacity + mean_before - body.skin_c * body.skin_share / 2.0) /
                  (1.0 - body.skin_share / 2.0);
    if (std::abs(body.core_c - guess_c) <= converged_k) {
      break;
    }
    guess_c = (guess_c + body.core_c) / 2.0;
  }
}

bool validated(const HeatStrainInputs& in, double surface_m2) {
  const double excess_k = in.radiant_c - in.air_c;
  const double metabolic_w = in.metabolic_w_m2 * surface_m2;
  return in.air_c >= 15.0 && in.air_c <= 50.0 && in.vapour_pressure_kpa >= 0.0 &&
         in.vapour_pressure_kpa <= 4.5 && excess_k >= 0.0 && excess_k <= 60.0 &&
         in.air_speed_m_s >= 0.0 && in.air_speed_m_s <= 3.0 && metabolic_w >= 100.0 &&
         metabolic_w <= 450.0 && in.clothing_clo >= 0.1 && in.clothing_clo <= 1.0;
}

}  // namespace

double body_surface_m2(double mass_kg, double height_m) {
  return 0.202 * std::pow(mass_kg, 0.425) * std::pow(height_m, 0.725);
}

double sweat_ceiling_w_m2(double metabolic_w_m2, double surface_m2, bool acclimatised) {
  const double ceiling = std::clamp((metabolic_w_m2 - 32.0) * surface_m2, 250.0, 400.0);
  return acclimatised ? 1.25 * ceiling : ceiling;
}

double answering_sweat_w_m2(double required_w_m2, double possible_w_m2, double ceiling_w_m2) {
  if (required_w_m2 <= 0.0) {
    return 0.0;
  }
  if (possible_w_m2 <= 0.0 || required_w_m2 >= 1.7 * possible_w_m2) {
    return ceiling_w_m2;
  }
  const double wet = required_w_m2 / possible_w_m2;
  const double efficiency = wet > 1.0 ? (2.0 - wet) * (2.0 - wet) / 2.0 : 1.0 - wet * wet / 2.0;
  return std::min(required_w_m2 / efficiency, ceiling_w_m2);
}

double breath_evaporation_w_m2(double metabolic_w_m2, double air_c, double vapour_pressure_kpa) {
  return 0.00127 * metabolic_w_m2 * (59.34 + 0.53 * air_c - 11.63 * vapour_pressure_kpa);
}

HeatStrainResult predicted_heat_strain(const HeatStrainInputs& in) {
  const double surface_m2 = body_surface_m2(in.mass_kg, in.height_m);
  const double capacity = 57.83 * in.mass_kg / surface_m2;  // W·min/(m²·K)
  const double ceiling = sweat_ceiling_w_m2(in.metabolic_w_m2, surface_m2, in.acclimatised);
  const double most_wet = in.acclimatised ? 1.0 : 0.85;
  const double walking_m_s =
      in.walking_m_s.value_or(std::clamp(0.0052 * (in.metabolic_w_m2 - 58.0), 0.0, 0.7));
  const double air_m_s = relative_air_m_s(in);
  const Covering cover = covering(in.clothing_clo, in.vapour_permeability, air_m_s, walking_m_s);

  const double breath_w_m2 =
      breath_evaporation_w_m2(in.metabolic_w_m2, in.air_c, in.vapour_pressure_kpa);
  const double exhaled_c = 28.56 + 0.115 * in.air_c + 0.641 * in.vapour_pressure_kpa;
  const double breath_dry_w_m2 = 0.001516 * in.metabolic_w_m2 * (exhaled_c - in.air_c);
  const double core_target_end_c = 0.0036 * in.metabolic_w_m2 + 36.6;
  const double core_lag = lag_share(10.0);
  const double skin_lag = lag_share(3.0);
  const double sweat_lag = lag_share(10.0);

  HeatStrainResult result;
  result.breath_w_m2 = breath_w_m2;
  result.outside_validity = !validated(in, surface_m2);
  result.limit_rectal_min = in.duration_min;
  result.limit_loss_mean_min = in.duration_min;
  result.limit_loss_safe_min = in.duration_min;
  bool rectal_reached = false;
  bool mean_reached = false;
  bool safe_reached = false;
  double sweat_sum = 0.0;
  Body body;

  for (int minute = 1; minute <= in.duration_min; ++minute) {
    // Heat the working body stores by itself as its core moves to the level of the work.
    const double target_rise_k = (core_target_end_c - body.core_target_c) * core_lag;
    body.core_target_c += target_rise_k;
    const double planned_storage = capacity * target_rise_k * (1.0 - body.skin_share);

    const double skin_before_c = body.skin_c;
    body.skin_c += (steady_skin_c(in, body.rectal_c) - body.skin_c) * skin_lag;

    const double skin_vapour_kpa = 0.6105 * std::exp(17.27 * body.skin_c / (body.skin_c + 237.3));
    result.possible_w_m2 =
        (skin_vapour_kpa - in.vapour_pressure_kpa) / cover.vapour_resistance_m2kpa_w;
    result.required_w_m2 = in.metabolic_w_m2 - in.work_w_m2 - planned_storage - breath_dry_w_m2 -
                           breath_w_m2 - dry_loss_w_m2(in, cover, air_m_s, body.skin_c);

    const double wanted = answering_sweat_w_m2(result.required_w_m2, result.possible_w_m2, ceiling);
    body.sweat_w_m2 += (wanted - body.sweat_w_m2) * sweat_lag;

    const double required = std::max(result.required_w_m2, 0.0);
    // With evaporation needed but impossible none happens; condensation is not counted.
    const double possible =
        required > 0.0 ? std::max(result.possible_w_m2, 0.0) : result.possible_w_m2;
    const double achieved = achieved_evaporation_w_m2(body.sweat_w_m2, possible, most_wet);
    store_heat(body, skin_before_c, required - achieved + planned_storage, capacity);
    body.rectal_c += (2.0 * body.core_c - 1.962 * body.rectal_c - 1.31) / 9.0;

    sweat_sum += body.sweat_w_m2;
    result.water_loss_g +=
        (body.sweat_w_m2 + breath_w_m2) * grams_per_watt_hour * surface_m2 / 60.0;
    if (!rectal_reached && body.rectal_c >= rectal_limit_c) {
      rectal_reached = true;
      result.limit_rectal_min = minute;
    }
    if (!mean_reached && result.water_loss_g >= loss_limit_mean * in.mass_kg * 1000.0) {
      mean_reached = true;
      result.limit_loss_mean_min = minute;
    }
    if (!safe_reached && result.water_loss_g >= loss_limit_safe * in.mass_kg * 1000.0) {
      safe_reached = true;
      result.limit_loss_safe_min = minute;
    }
  }

  result.sweat_w_m2 = body.sweat_w_m2;
  result.mean_sweat_w_m2 = in.duration_min > 0 ? sweat_sum / in.duration_min : 0.0;
  result.rectal_c = body.rectal_c;
  result.core_c = body.core_c;
  result.skin_c = body.skin_c;
  return result;
}

}  // namespace drystage::models
