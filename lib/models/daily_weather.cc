#include "models/daily_weather.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drystage::models {
namespace {

using std::numbers::pi;
constexpr double day_h = 24;
constexpr double noon_by_clock_h = 12;
constexpr double warmest_h = 14;  // de Wit and others (1978), memory
constexpr double least_daylight_h = 6;
constexpr double most_daylight_h = 18;
constexpr double most_bend = 0.25;  // beyond, the wave would turn back at one of its ends

// The falling wave, a share x (0..1) on its way from the maximum to the minimum, and its integral
// from 0.
double falling(double x, double bend) {
  const double sine = std::sin(pi * x);
  return 0.5 - 0.5 * std::cos(pi * x) + bend * sine * sine;
}

double falling_integral(double x, double bend) {
  return 0.5 * x - std::sin(pi * x) / (2 * pi) + bend * (0.5 * x - std::sin(2 * pi * x) / (4 * pi));
}

// The rising wave, a share x on its way from the minimum to the maximum, and its integral.
double rising(double x) { return 0.5 + 0.5 * std::cos(pi * x); }

double rising_integral(double x) { return 0.5 * x + std::sin(pi * x) / (2 * pi); }

}  // namespace

double days_mean_below_max(double daylight_h) {
  // Air at 1.5 m: the maximum's lag behind noon, the nights' rate of cooling, and the minimum's lag
  // behind sunrise.
  constexpr double noon_lag_h = 1.86;
  constexpr double cooling = 2.20;
  constexpr double sunrise_lag_h = -0.17;
  const double half_wave_h = daylight_h + 2 * noon_lag_h;
  const double angle = pi * (daylight_h - sunrise_lag_h) / half_wave_h;
  const double by_day_h = half_wave_h / pi * (1 - std::cos(angle));
  const double by_night_h =
      std::sin(angle) * (day_h - daylight_h + sunrise_lag_h) * (1 - std::exp(-cooling)) / cooling;
  return 1 - (by_day_h + by_night_h) / day_h;
}

DailyCourse::DailyCourse(double daylight_h) {
  const double held_h = std::clamp(daylight_h, least_daylight_h, most_daylight_h);
  sunrise_h_ = noon_by_clock_h - held_h / 2;
  rising_h_ = warmest_h - sunrise_h_;
  falling_h_ = day_h - rising_h_;
  // The mean of a wave is 1/2, and that of what bends it half of `bend`.
  const double wanted = (days_mean_below_max(held_h) - 0.5) * 2 * day_h / falling_h_;
  bend_ = std::clamp(wanted, -most_bend, most_bend);
}

double DailyCourse::below_max_at(double solar_hour) const {
  const double past_h = solar_hour - sunrise_h_;
  const double in_day_h = past_h - day_h * std::floor(past_h / day_h);
  return in_day_h < rising_h_ ? rising(in_day_h / rising_h_)
                              : falling((in_day_h - rising_h_) / falling_h_, bend_);
}

double DailyCourse::integral_to(double solar_hour) const {
  const double past_h = solar_hour - sunrise_h_;
  const double days = std::floor(past_h / day_h);
  const double in_day_h = past_h - day_h * days;
  const double rise = rising_h_ * rising_integral(std::min(1.0, in_day_h / rising_h_));
  const double fall_share = std::max(0.0, in_day_h - rising_h_) / falling_h_;
  const double whole_day = rising_h_ * rising_integral(1) + falling_h_ * falling_integral(1, bend_);
  return days * whole_day + rise + falling_h_ * falling_integral(fall_share, bend_);
}

double DailyCourse::mean_below_max(double solar_hour_from, double solar_hour_to) const {
  if (solar_hour_to <= solar_hour_from) return below_max_at(solar_hour_from);
  return (integral_to(solar_hour_to) - integral_to(solar_hour_from)) /
         (solar_hour_to - solar_hour_from);
}

}  // namespace drystage::models
