#pragma once

namespace drystage::models {

/// Sea-level air of the ICAO standard atmosphere (Doc 7488): 15 °C.
inline constexpr double standard_sea_level_c = 15.0;

// Elevations are heights above mean sea level by tape or map (geometric), held within
// -5000..11000 m: below the tropopause, where the method holds.

/// Air temperature of the ICAO standard atmosphere, °C: 6.5 K less for each geopotential km.
[[nodiscard]] double standard_temperature_c(double elevation_m);

/// Air pressure, kPa, at an elevation under an atmosphere with the lapse rate and the sea-level
/// pressure of the ICAO standard one but another sea-level temperature (-60..60 °C, held there).
/// Hot air is lighter, so pressure falls more slowly with height. With 20 °C this is FAO-56
/// equation 7.
[[nodiscard]] double pressure_kpa(double elevation_m, double sea_level_c);

/// Air pressure of the ICAO standard atmosphere (Doc 7488), kPa.
[[nodiscard]] double standard_pressure_kpa(double elevation_m);

/// Air density of the ICAO standard atmosphere (Doc 7488), kg/m³.
[[nodiscard]] double standard_density_kg_m3(double elevation_m);

/// Density of dry air, kg/m³, at the standard pressure of an elevation and the temperature given
/// (held above -100 °C). Moist air is up to 2 % lighter at 40 °C.
[[nodiscard]] double air_density_kg_m3(double elevation_m, double air_c);

/// Saturation vapour pressure over water, kPa. Valid -40..60 °C; held at -100 °C below that.
/// Source: FAO-56 equation 11.
[[nodiscard]] double saturation_vapour_pressure_kpa(double air_c);

/// Actual vapour pressure of a day, kPa, from its highest and lowest temperature and its mean
/// relative humidity (a fraction, held within 0..1). Source: FAO-56 equation 19.
[[nodiscard]] double daily_vapour_pressure_kpa(double max_c, double min_c,
                                               double mean_relative_humidity);

/// Temperature, °C, at which a vapour pressure is the saturation one: FAO-56 equation 11 turned
/// round. Never below -100 °C, the answer for air with no vapour at all.
[[nodiscard]] double dew_point_c(double vapour_pressure_kpa);

}  // namespace drystage::models
