#include "models/lid.h"

#include <algorithm>

#include "models/atmosphere.h"

namespace drystage::models {

namespace {

constexpr double pressure_kpa = 101.325;
constexpr double dry_air_kj_kg_k = 1.006;
constexpr double water_kj_l_k = 4.19;
constexpr double s_per_h = 3600.0;
constexpr double w_per_kw = 1000.0;
// Below this difference vapour is left out, lest little heat be divided by next to nothing.
constexpr double least_warmer_k = 1.0;

/// Kilograms of vapour for each kilogram of dry air. `most_kpa`: where the air is saturated.
double humidity_ratio(double vapour_kpa, double most_kpa) {
  const double held_kpa = std::clamp(vapour_kpa, 0.0, std::min(most_kpa, pressure_kpa / 2.0));
  return 0.622 * held_kpa / (pressure_kpa - held_kpa);
}

double moist_air_kj_kg(double air_c, double vapour_kpa, double most_kpa) {
  constexpr double evaporation_kj_kg = 2501.0;
  constexpr double vapour_kj_kg_k = 1.86;
  return dry_air_kj_kg_k * air_c +
         humidity_ratio(vapour_kpa, most_kpa) * (evaporation_kj_kg + vapour_kj_kg_k * air_c);
}

/// Kilograms of dry air in a litre of air.
double dry_air_kg_l(double air_c, double vapour_kpa) {
  constexpr double gas_kj_kg_k = 0.287042;
  constexpr double zero_c_k = 273.15;
  constexpr double litres_per_m3 = 1000.0;
  return (pressure_kpa - vapour_kpa) / (gas_kj_kg_k * (air_c + zero_c_k)) / litres_per_m3;
}

}  // namespace

double warm_goods_w_per_k(double litres_day, double hours_day) {
  return litres_day * water_kj_l_k * w_per_kw / (hours_day * s_per_h);
}

double moist_air_kj_kg(double air_c, double vapour_kpa) {
  return moist_air_kj_kg(air_c, vapour_kpa, saturation_vapour_pressure_kpa(air_c));
}

double exchanged_air_w_per_k(double volume_l, double openings_day, double hours_day, double air_c,
                             double vapour_kpa, double inside_c) {
  const double most_kpa = saturation_vapour_pressure_kpa(air_c);
  const double held_kpa = std::clamp(vapour_kpa, 0.0, most_kpa);
  const double warmer_k = air_c - inside_c;
  const double kj_kg_k =
      warmer_k < least_warmer_k
          ? dry_air_kj_kg_k
          : (moist_air_kj_kg(air_c, held_kpa, most_kpa) - moist_air_kj_kg(inside_c, held_kpa)) /
                warmer_k;
  const double kg_day = openings_day * volume_l * dry_air_kg_l(air_c, held_kpa);
  return kg_day * kj_kg_k * w_per_kw / (hours_day * s_per_h);
}

}  // namespace drystage::models
