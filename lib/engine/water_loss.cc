#include "engine/water_loss.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <utility>

#include "models/altitude.h"
#include "models/metabolism.h"
#include "models/water_need.h"

namespace drystage::engine {
namespace {

using models::WorkClass;

// The middle of a day's work, solar time: half-way from the strongest sun, at noon, to the hottest
// air, after two (ours).
constexpr double middle_of_work_h = 13;

// ISO 7933's own still air, and the end of the wind for which it was validated.
constexpr double still_air_m_s = 0.3;
constexpr double most_proven_m_s = 3;

// Air from which more wind may take more water: cooler than skin, since sweat wets it better then.
constexpr double wind_may_heat_c = 30;

constexpr double skin_c = 35;

using Hour = Surroundings::Hour;

Excess excess_of(double k) { return {.k = k, .place = models::place_of_excess(k)}; }

/// The hours over which a day's activity is spread.
struct Span {
  double from_h = 0;
  double length_h = 0;
};

Span active_span(const WeatherDay& weather, double active_h) {
  const double middle_h = middle_of_work_h - weather.solar_minus_clock_h;
  return {.from_h = middle_h - active_h / 2, .length_h = active_h};
}

/// Hours of a span that fall into a clock hour. A span may pass midnight.
double hours_in(const Span& span, int hour) {
  double sum = 0;
  for (const double turn : {-24.0, 0.0, 24.0}) {
    const double from = span.from_h + turn;
    sum += std::max(0.0, std::min(hour + 1.0, from + span.length_h) - std::max(1.0 * hour, from));
  }
  return std::min(1.0, sum);
}

/// Air that moves.
struct Wind {
  double m_s = 0;
  const models::SweatInAir* ready = nullptr;  ///< sweat in it; null: not worked out
};

/// Winds between which people may be.
struct Winds {
  Wind least;
  Wind most;
};

Winds in_the_open(const WeatherDay& weather) {
  const ReadyAir* ready = weather.ready != nullptr ? weather.ready->air.get() : nullptr;
  return {.least = {.m_s = weather.wind_m_s.value_or(still_air_m_s),
                    .ready = ready != nullptr ? &ready->open_least : nullptr},
          .most = {.m_s = weather.wind_m_s.value_or(most_proven_m_s),
                   .ready = ready != nullptr ? &ready->open_most : nullptr}};
}

Winds sheltered(const WeatherDay& weather) {
  const Wind wind{.m_s = std::min(weather.wind_m_s.value_or(still_air_m_s), still_air_m_s),
                  .ready = weather.ready != nullptr ? &weather.ready->air->sheltered : nullptr};
  return {.least = wind, .most = wind};
}

/// What people lose in the weather of a day.
struct Loss {
  const WeatherDay& weather;
  double breathing = 1;

  [[nodiscard]] double breath(WorkClass work, double air_c) const {
    return models::extra_breath_g_per_h_m2(models::metabolic_w_m2(work), air_c, weather.vapour_kpa,
                                           breathing);
  }

  /// Least wind wets the skin most, in damp air and in sun; most wind heats it most. In between
  /// there is less than at the worse end.
  [[nodiscard]] double sweat(WorkClass work, const Hour& hour, const Excess& excess,
                             const Winds& winds) const {
    const auto in_wind = [&](const Wind& wind) {
      return wind.ready != nullptr ? wind.ready->g_per_h_m2(work, hour.air, excess.place)
                                   : models::sweat_g_per_h_m2(work, hour.air_c, weather.vapour_kpa,
                                                              excess.k, wind.m_s);
    };
    const double least = in_wind(winds.least);
    const bool may_heat = hour.air_c > wind_may_heat_c && winds.most.m_s > winds.least.m_s;
    return may_heat ? std::max(least, in_wind(winds.most)) : least;
  }

  /// Whoever rests lies in closed shade, where the air is still, or in open shade, in wind and
  /// among things in the sun: whichever takes more. Both at once would be too much.
  [[nodiscard]] double rest(const Hour& hour) const {
    const double closed = sweat(WorkClass::resting, hour, {}, sheltered(weather));
    const double open = sweat(WorkClass::resting, hour, hour.shade, in_the_open(weather));
    return std::max(closed, open) + breath(WorkClass::resting, hour.air_c);
  }
};

/// The part of each clock hour that the day's activity takes, 0 to 1.
std::array<double, 24> busy_hours(const plan::Activity& activity, const WeatherDay& weather) {
  std::array<double, 24> out{};
  const double active_h = std::accumulate(activity.hours.begin(), activity.hours.end(), 0.0);
  if (active_h <= 0) return out;
  const Span span = active_span(weather, active_h);
  for (std::size_t h = 0; h < out.size(); ++h) out.at(h) = hours_in(span, static_cast<int>(h));
  return out;
}

/// What an hour of rest takes, and an hour of the activity. What of an hour is neither asked for by
/// `busy_h` (0: no activity in it, 1: no rest) is 0.
struct HourlyLoss {
  std::array<double, 24> rest{};
  std::array<double, 24> active{};
};

HourlyLoss hourly_loss_g_m2(const plan::Activity& activity, const WeatherDay& weather,
                            const Surroundings& about, const std::array<double, 24>& busy_h) {
  const std::array<Hour, 24>& hours = about.hours;
  const double active_h = std::accumulate(activity.hours.begin(), activity.hours.end(), 0.0);
  const Winds winds = in_the_open(weather);
  const Loss loss{.weather = weather, .breathing = models::breathing_factor(weather.elevation_m)};
  HourlyLoss out;
  for (std::size_t h = 0; h < hours.size(); ++h) {
    const Hour& hour = hours.at(h);
    if (busy_h.at(h) < 1) out.rest.at(h) = loss.rest(hour);
    if (busy_h.at(h) <= 0 || active_h <= 0) continue;
    for (std::size_t w = 0; w < activity.hours.size(); ++w) {
      const double part = activity.hours.at(w) / active_h;
      if (part <= 0) continue;
      const auto work = static_cast<WorkClass>(w);
      const double shade = loss.sweat(work, hour, hour.shade, winds);
      const double sun =
          activity.in_sun > 0 && hour.sun.k > 0 ? loss.sweat(work, hour, hour.sun, winds) : shade;
      const double sweat = std::max(shade + activity.in_sun * (sun - shade),
                                    models::comfort_sweat_g_per_h_m2(models::metabolic_w_m2(work)));
      out.active.at(h) += part * (sweat + loss.breath(work, hour.air_c));
    }
  }
  return out;
}

/// How the sun of a solar hour falls on somebody who stands in it.
models::SunOnBody sun_on_body(const WeatherDay& weather, double solar_h) {
  const models::DayRadiation& sky = weather.radiation;
  const double angle = (solar_h - 12) * std::numbers::pi / 12;
  const double sine = sky.sine_latitude * sky.sine_declination +
                      sky.cosine_latitude * sky.cosine_declination * std::cos(angle);
  const double altitude_deg = std::asin(std::clamp(sine, -1.0, 1.0)) * 180 / std::numbers::pi;
  return {altitude_deg, models::Posture::standing};
}

}  // namespace

Surroundings::Surroundings(const WeatherDay& weather) {
  const models::DayRadiation& sky = weather.radiation;
  const std::array<double, 24> air_c = hourly_air_c(weather);
  for (std::size_t h = 0; h < hours.size(); ++h) {
    Hour& hour = hours.at(h);
    const ReadyDay::Hour* ready = weather.ready != nullptr ? &weather.ready->hours[h] : nullptr;
    hour.air_c = air_c.at(h);
    hour.air = models::place_of_air(hour.air_c);
    const double solar_from = static_cast<double>(h) + weather.solar_minus_clock_h;
    const models::HourlyRadiation light =
        ready != nullptr ? ready->light.mean(sky)
                         : models::mean_radiation(sky, solar_from, solar_from + 1);
    if (light.global_w_m2 <= 0) continue;
    const models::SunOnBody on_body =
        ready != nullptr ? ready->sun_on_body : sun_on_body(weather, solar_from + 0.5);
    hour.sun = excess_of(on_body.radiant_excess_k(light.global_w_m2, light.diffuse_w_m2));
    hour.shade = excess_of(models::shade_radiant_excess_k(light.global_w_m2, light.diffuse_w_m2));
  }
}

ReadyAir ready_air(const WeatherDay& weather) {
  const auto in = [&](const Wind& wind) {
    return models::SweatInAir(weather.vapour_kpa, wind.m_s);
  };
  const Winds open = in_the_open(weather);
  return {.sheltered = in(sheltered(weather).least),
          .open_least = in(open.least),
          .open_most = in(open.most)};
}

ReadyDay ready_day(const WeatherDay& weather, std::shared_ptr<const ReadyAir> air) {
  ReadyDay out{.hours = {}, .air = std::move(air)};
  for (int h = 0; h < 24; ++h) {
    const double solar_h = h + weather.solar_minus_clock_h;
    out.hours.push_back({.light = models::SunStretch(weather.radiation, solar_h, solar_h + 1),
                         .sun_on_body = sun_on_body(weather, solar_h + 0.5),
                         .below_max = weather.course.mean_below_max(solar_h, solar_h + 1)});
  }
  return out;
}

std::array<double, 24> water_loss_g_m2(const plan::Activity& activity, const WeatherDay& weather) {
  return water_loss_g_m2(activity, weather, Surroundings(weather));
}

std::array<double, 24> water_loss_g_m2(const plan::Activity& activity, const WeatherDay& weather,
                                       const Surroundings& about) {
  const std::array<double, 24> busy_h = busy_hours(activity, weather);
  const HourlyLoss loss = hourly_loss_g_m2(activity, weather, about, busy_h);
  std::array<double, 24> out{};
  for (std::size_t h = 0; h < out.size(); ++h) {
    out.at(h) = (1 - busy_h.at(h)) * loss.rest.at(h) + busy_h.at(h) * loss.active.at(h);
  }
  return out;
}

bool beyond_proven_heat(const plan::Activity& activity, const WeatherDay& weather) {
  // Of what the standard bounds, cold is no danger here; heat, damp and work are.
  constexpr double mild_c = 30;
  std::size_t hardest = 0;
  for (std::size_t work = 0; work < activity.hours.size(); ++work) {
    if (activity.hours.at(work) > 0) hardest = work;
  }
  for (const Hour& hour : Surroundings(weather).hours) {
    if (hour.air_c < mild_c) continue;
    const double excess_k = activity.in_sun > 0 ? hour.sun.k : hour.shade.k;
    if (!models::heat_strain_validated(static_cast<WorkClass>(hardest), hour.air_c,
                                       weather.vapour_kpa, excess_k, still_air_m_s)) {
      return true;
    }
  }
  return false;
}

bool beyond_proven_wind(const WeatherDay& weather) {
  if (weather.wind_m_s.value_or(0) <= most_proven_m_s) return false;
  for (int h = 0; h < 24; ++h) {
    if (mean_air_c(weather, h, h + 1) > skin_c) return true;
  }
  return false;
}

}  // namespace drystage::engine
