#include "models/sun.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <numbers>

namespace drystage::models {
namespace {

constexpr double deg = std::numbers::pi / 180.0;
constexpr double j2000 = 2451545.0;
constexpr double days_per_century = 36525.0;
// Terrestrial less universal time: 29 s in 1950, 69 s in 2020 (IERS); see sun_coordinates.
constexpr double delta_t_days = 70.0 / 86400.0;
constexpr double horizon_elevation_deg = -0.8333;
constexpr double sun_parallax_deg = 8.794 / 3600.0;

double turned(double angle_deg) {
  const double folded = std::fmod(angle_deg, 360.0);
  return folded < 0.0 ? folded + 360.0 : folded;
}

std::chrono::sys_days civil_day(int year, int month, int day) {
  return std::chrono::sys_days{std::chrono::year{year} /
                               std::chrono::month{static_cast<unsigned>(month)} /
                               std::chrono::day{static_cast<unsigned>(day)}};
}

// Sine of the geocentric elevation of the sun.
double sine_of_elevation(const SunCoordinates& sun, double latitude_deg, double longitude_deg) {
  const double hour_angle = (sun.sidereal_deg + longitude_deg - sun.right_ascension_deg) * deg;
  const double declination = sun.declination_deg * deg;
  const double latitude = latitude_deg * deg;
  return std::sin(latitude) * std::sin(declination) +
         std::cos(latitude) * std::cos(declination) * std::cos(hour_angle);
}

// The sun as seen from one place, by the clock of one civil day.
class LocalSky {
 public:
  LocalSky(double julian_day_at_midnight, double latitude_deg, double longitude_deg)
      : midnight_(julian_day_at_midnight),
        latitude_deg_(latitude_deg),
        longitude_deg_(longitude_deg) {}

  [[nodiscard]] SunCoordinates sun(double clock_h) const {
    return sun_coordinates(midnight_ + clock_h / 24.0);
  }
  [[nodiscard]] bool up(double clock_h) const {
    return sine_of_elevation(sun(clock_h), latitude_deg_, longitude_deg_) > sine_of_horizon_;
  }
  // The moment the sun crosses the horizon between an hour when it is down and one when it is up.
  [[nodiscard]] double crossing_h(double down_h, double up_h) const {
    for (int halving = 0; halving < 24; ++halving) {  // 12 h / 2^24 = 2.6 ms
      const double middle_h = 0.5 * (down_h + up_h);
      (up(middle_h) ? up_h : down_h) = middle_h;
    }
    return 0.5 * (down_h + up_h);
  }

 private:
  double midnight_;
  double latitude_deg_;
  double longitude_deg_;
  double sine_of_horizon_ = std::sin(horizon_elevation_deg * deg);
};

}  // namespace

double julian_day(int year, int month, int day, double ut_hour) {
  constexpr double julian_day_of_1970 = 2440587.5;
  const auto days = civil_day(year, month, day).time_since_epoch().count();
  return julian_day_of_1970 + static_cast<double>(days) + ut_hour / 24.0;
}

int day_of_year(int year, int month, int day) {
  return static_cast<int>((civil_day(year, month, day) - civil_day(year, 1, 1)).count()) + 1;
}

SunCoordinates sun_coordinates(double julian_day_ut) {
  const double t = (julian_day_ut + delta_t_days - j2000) / days_per_century;

  const double mean_longitude_deg = 280.46646 + t * (36000.76983 + t * 0.0003032);
  const double anomaly = (357.52911 + t * (35999.05029 - t * 0.0001537)) * deg;
  const double eccentricity = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
  const double centre_deg = (1.914602 - t * (0.004817 + t * 0.000014)) * std::sin(anomaly) +
                            (0.019993 - t * 0.000101) * std::sin(2.0 * anomaly) +
                            0.000289 * std::sin(3.0 * anomaly);
  const double distance_au = 1.000001018 * (1.0 - eccentricity * eccentricity) /
                             (1.0 + eccentricity * std::cos(anomaly + centre_deg * deg));

  const double node = (125.04 - 1934.136 * t) * deg;  // of the moon's orbit: drives nutation
  const double nutation_deg = -0.00478 * std::sin(node);
  constexpr double aberration_deg = -0.00569;
  const double longitude = (mean_longitude_deg + centre_deg + aberration_deg + nutation_deg) * deg;
  const double obliquity = (23.439291 - t * (0.0130042 + t * (0.00000016 - t * 0.000000504)) +
                            0.00256 * std::cos(node)) *
                           deg;

  const double right_ascension_deg =
      std::atan2(std::cos(obliquity) * std::sin(longitude), std::cos(longitude)) / deg;
  const double declination_deg = std::asin(std::sin(obliquity) * std::sin(longitude)) / deg;

  const double days_ut = julian_day_ut - j2000;
  const double t_ut = days_ut / days_per_century;
  const double equinoxes_deg = nutation_deg * std::cos(obliquity);
  const double sidereal_deg = 280.46061837 + 360.98564736629 * days_ut +
                              t_ut * t_ut * (0.000387933 - t_ut / 38710000.0) + equinoxes_deg;

  // Meeus 28.1: mean longitude without aberration, less right ascension; four minutes a degree.
  const double equation_deg =
      std::remainder(mean_longitude_deg - 0.0057183 - right_ascension_deg + equinoxes_deg, 360.0);
  return {turned(right_ascension_deg), declination_deg, distance_au, turned(sidereal_deg),
          4.0 * equation_deg};
}

SunPosition sun_position(double julian_day_ut, double latitude_deg, double longitude_deg) {
  const SunCoordinates sun = sun_coordinates(julian_day_ut);
  const double hour_angle = (sun.sidereal_deg + longitude_deg - sun.right_ascension_deg) * deg;
  const double declination = sun.declination_deg * deg;
  const double latitude = std::clamp(latitude_deg, -90.0, 90.0) * deg;

  // The direction in axes east, north, up.
  const double along_meridian = std::cos(declination) * std::cos(hour_angle);
  const double east = -std::cos(declination) * std::sin(hour_angle);
  const double north =
      std::cos(latitude) * std::sin(declination) - std::sin(latitude) * along_meridian;
  const double up =
      std::sin(latitude) * std::sin(declination) + std::cos(latitude) * along_meridian;

  const double geocentric_zenith = std::atan2(std::hypot(east, north), up);
  const double parallax_deg = sun_parallax_deg / sun.distance_au * std::sin(geocentric_zenith);
  return {geocentric_zenith / deg + parallax_deg, turned(std::atan2(east, north) / deg)};
}

double refraction_deg(double true_elevation_deg, double pressure_kpa, double air_c) {
  if (true_elevation_deg < horizon_elevation_deg) {
    return 0.0;
  }
  const double lifted = (true_elevation_deg + 10.3 / (true_elevation_deg + 5.11)) * deg;
  return pressure_kpa / 101.0 * 283.0 / (273.0 + air_c) * 1.02 / (60.0 * std::tan(lifted));
}

SunTimes sun_times(int year, int month, int day, double latitude_deg, double longitude_deg,
                   double utc_offset_h) {
  const LocalSky sky(julian_day(year, month, day, -utc_offset_h),
                     std::clamp(latitude_deg, -90.0, 90.0), longitude_deg);

  double mean_noon_h = std::fmod(12.0 + utc_offset_h - longitude_deg / 15.0, 24.0);
  if (mean_noon_h < 0.0) {
    mean_noon_h += 24.0;
  }
  const double noon_h = mean_noon_h - sky.sun(mean_noon_h).equation_of_time_min / 60.0;

  if (!sky.up(noon_h)) {
    return {noon_h, noon_h, noon_h, false, true};
  }
  const double before_h = noon_h - 12.0;
  const double after_h = noon_h + 12.0;
  const bool up_before = sky.up(before_h);
  const bool up_after = sky.up(after_h);
  return {up_before ? before_h : sky.crossing_h(before_h, noon_h), noon_h,
          up_after ? after_h : sky.crossing_h(after_h, noon_h), up_before && up_after, false};
}

double solar_hour(double clock_h, double utc_offset_h, double longitude_deg,
                  double equation_of_time_min) {
  return clock_h - utc_offset_h + longitude_deg / 15.0 + equation_of_time_min / 60.0;
}

}  // namespace drystage::models
