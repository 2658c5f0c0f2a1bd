#pragma once

namespace drystage::models {

/// Where the centre of the sun stands for an observer at sea level.
struct SunPosition {
  /// Angle from straight up, 0..180°, topocentric and *without* refraction: the true direction.
  /// The sun is seen higher by `refraction_deg`.
  double zenith_deg;
  /// Bearing, 0..360°, from north by east.
  double azimuth_deg;
};

/// Apparent place of the sun seen from the middle of the Earth, and what follows from it alone.
struct SunCoordinates {
  double right_ascension_deg;   ///< 0..360
  double declination_deg;       ///< north positive
  double distance_au;           ///< Earth to sun
  double sidereal_deg;          ///< apparent sidereal time at Greenwich, 0..360
  double equation_of_time_min;  ///< apparent minus mean solar time, -17..+17
};

/// The daylight that belongs to one civil day.
struct SunTimes {
  /// Clock hours of sunrise and sunset, always rise_h <= noon_h <= set_h, so that `set_h - rise_h`
  /// is the length of the day. The three belong to the solar noon of the civil day, so rise_h may
  /// be below 0 (the evening before) and set_h above 24 (after midnight); add or take 24 for the
  /// reading of the clock. Where the sun does not cross the horizon on one side of noon, that side
  /// is the solar midnight: noon_h - 12 or noon_h + 12. `always_down` puts both at noon.
  double rise_h;
  double noon_h;
  double set_h;
  bool always_up;    ///< above the horizon from one solar midnight to the next
  bool always_down;  ///< below the horizon even at solar noon
};

/// Julian day number (days and fraction since noon of 1 January 4713 BC) of a date in the
/// Gregorian calendar and an hour of universal time. `ut_hour` may lie outside 0..24 and counts on
/// into other days; so does a `day` up to 255. `month` must be 1..12.
[[nodiscard]] double julian_day(int year, int month, int day, double ut_hour);

/// Number of a date in its year: 1 for 1 January, 365 or 366 for 31 December.
[[nodiscard]] int day_of_year(int year, int month, int day);

/// Apparent geocentric place of the sun at a Julian day of universal time.
/// Source: J. Meeus, Astronomical Algorithms, 2nd ed., chapters 12, 25 (lower accuracy) and 28.
/// Within 0.01° from 1950 to 2100; the error grows slowly outside. The difference between
/// terrestrial and universal time is held at 70 s: a minute's error in it moves the sun 0.0007°.
[[nodiscard]] SunCoordinates sun_coordinates(double julian_day_ut);

/// Direction of the sun: within 0.02° of the NREL Solar Position Algorithm from 1950 to 2100.
/// Latitude is north positive and held within -90..90; longitude is east positive, any turn.
/// Source: as `sun_coordinates`, with the parallax of a place at sea level.
[[nodiscard]] SunPosition sun_position(double julian_day_ut, double latitude_deg,
                                       double longitude_deg);

/// How much higher than its true elevation the sun is seen, in degrees.
/// `true_elevation_deg` is 90 less the zenith angle; below -0.8333° (the whole disc is under the
/// horizon) the answer is 0. Source: Reda and Andreas, NREL/TP-560-34302, equation 42.
[[nodiscard]] double refraction_deg(double true_elevation_deg, double pressure_kpa, double air_c);

/// Sunrise, solar noon and sunset of one civil day, as clock hours at `utc_offset_h`.
/// The horizon is level and the sun rises when its centre is 0.8333° below it (34' refraction and
/// 16' half disc, the standard figure). Within 60 s of the NREL algorithm up to latitude 65°.
/// A civil day owns the solar noon whose *mean* time falls in its 0..24 h; see `SunTimes`.
[[nodiscard]] SunTimes sun_times(int year, int month, int day, double latitude_deg,
                                 double longitude_deg, double utc_offset_h);

/// Apparent solar time in hours (12 when the sun crosses the meridian) of a clock hour. Not folded
/// into 0..24. Source: the definition; FAO-56 equation 31 is the same with other signs.
[[nodiscard]] double solar_hour(double clock_h, double utc_offset_h, double longitude_deg,
                                double equation_of_time_min);

}  // namespace drystage::models
