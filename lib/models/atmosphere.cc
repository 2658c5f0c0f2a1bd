#include "models/atmosphere.h"

#include <algorithm>
#include <cmath>

namespace drystage::models {
namespace {

// ICAO Doc 7488, the constants that define the standard atmosphere.
constexpr double standard_gravity_m_s2 = 9.80665;
constexpr double gas_constant_j_kg_k = 287.05287;
constexpr double lapse_k_m = 0.0065;
constexpr double sea_level_kpa = 101.325;
constexpr double earth_radius_m = 6356766.0;
constexpr double zero_celsius_k = 273.15;
constexpr double pressure_exponent = standard_gravity_m_s2 / (gas_constant_j_kg_k * lapse_k_m);

// FAO-56 equation 11.
constexpr double base_kpa = 0.6108;
constexpr double tetens_slope = 17.27;
constexpr double offset_c = 237.3;
constexpr double coldest_c = -100.0;

// The height that would give the same potential energy if gravity did not fall with height.
double geopotential_m(double elevation_m) {
  const double held_m = std::clamp(elevation_m, -5000.0, 11000.0);
  return earth_radius_m * held_m / (earth_radius_m + held_m);
}

double density_kg_m3(double pressure_in_kpa, double air_c) {
  return 1000.0 * pressure_in_kpa / (gas_constant_j_kg_k * (zero_celsius_k + air_c));
}

}  // namespace

double standard_temperature_c(double elevation_m) {
  return standard_sea_level_c - lapse_k_m * geopotential_m(elevation_m);
}

double pressure_kpa(double elevation_m, double sea_level_c) {
  const double sea_level_k = zero_celsius_k + std::clamp(sea_level_c, -60.0, 60.0);
  const double ratio = 1.0 - lapse_k_m * geopotential_m(elevation_m) / sea_level_k;
  return sea_level_kpa * std::pow(ratio, pressure_exponent);
}

double standard_pressure_kpa(double elevation_m) {
  return pressure_kpa(elevation_m, standard_sea_level_c);
}

double standard_density_kg_m3(double elevation_m) {
  return density_kg_m3(standard_pressure_kpa(elevation_m), standard_temperature_c(elevation_m));
}

double air_density_kg_m3(double elevation_m, double air_c) {
  return density_kg_m3(standard_pressure_kpa(elevation_m), std::max(air_c, coldest_c));
}

double saturation_vapour_pressure_kpa(double air_c) {
  const double held_c = std::max(air_c, coldest_c);
  return base_kpa * std::exp(tetens_slope * held_c / (held_c + offset_c));
}

double daily_vapour_pressure_kpa(double max_c, double min_c, double mean_relative_humidity) {
  const double mean_saturation_kpa =
      0.5 * (saturation_vapour_pressure_kpa(max_c) + saturation_vapour_pressure_kpa(min_c));
  return std::clamp(mean_relative_humidity, 0.0, 1.0) * mean_saturation_kpa;
}

double dew_point_c(double vapour_pressure_kpa) {
  const double held_kpa = std::max(vapour_pressure_kpa, saturation_vapour_pressure_kpa(coldest_c));
  const double exponent = std::log(held_kpa / base_kpa);
  return offset_c * exponent / (tetens_slope - exponent);
}

}  // namespace drystage::models
