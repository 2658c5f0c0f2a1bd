#include "engine/weather_day.h"

#include <algorithm>

#include "engine/ready_day.h"
#include "engine/spell.h"
#include "models/atmosphere.h"
#include "models/daily_weather.h"
#include "models/sun.h"

namespace drystage::engine {

std::optional<DayFigures> figures_on(const plan::Plan& plan, int climate, plan::Date date,
                                     Spells spells) {
  const auto month = static_cast<std::size_t>(date.month().as_number() - 1);
  const auto& normals = plan.climates[static_cast<std::size_t>(climate)].months.at(month);
  if (!normals) return std::nullopt;
  DayFigures figures{.weather = *normals};
  plan::Weather& weather = figures.weather;
  figures.usual_sun_kwh_m2 = weather.sun_kwh_m2;
  double warmer_k = 0;
  for (const plan::NamedDays& days : plan.weather) {
    if (date < days.from || date > days.to) continue;
    if (spells == Spells::left_out && (days.warmer_k != 0 || days.spell != plan::Spell::usual)) {
      continue;
    }
    warmer_k += days.warmer_k;
    if (days.spell != plan::Spell::usual) figures.spell = days.spell;
    weather.max_c = days.max_c.value_or(weather.max_c);
    weather.min_c = days.min_c.value_or(weather.min_c);
    // One of them given alone may lie beyond the normal other one.
    if (!days.min_c) weather.min_c = std::min(weather.min_c, weather.max_c);
    if (!days.max_c) weather.max_c = std::max(weather.min_c, weather.max_c);
    if (days.wind_m_s) weather.wind_m_s = days.wind_m_s;
    if (days.sun_kwh_m2) {
      weather.sun_kwh_m2 = *days.sun_kwh_m2;
      figures.sun = models::RadiationFigure::one_day;
    }
    if (days.humidity) {
      weather.humidity = days.humidity;
      weather.dew_point_c.reset();
    }
    if (days.dew_point_c) weather.dew_point_c = days.dew_point_c;
  }
  figures.max_warmer_k = warmer_k;
  figures.min_warmer_k = warmer_k;
  if (figures.spell == plan::Spell::hot) {
    // Who has named a day's weather knows it: of a hot day no hotter one is made.
    const double hotter_k = spell_hotter_k(*normals);
    figures.max_warmer_k += std::max(0.0, normals->max_c + hotter_k - weather.max_c);
    figures.min_warmer_k += std::max(0.0, normals->min_c + hotter_k - weather.min_c);
  }
  return figures;
}

namespace {

/// A day's global radiation on the level, and what figure that is.
struct DaySun {
  double kwh_m2;
  models::RadiationFigure figure;
};

DaySun day_sun(const DayFigures& figures, double latitude_deg, int day_of_year) {
  const DaySun given{figures.weather.sun_kwh_m2, figures.sun};
  if (figures.spell == plan::Spell::usual) return given;
  const double share =
      spell_sun_share(figures.spell, figures.usual_sun_kwh_m2, latitude_deg, day_of_year);
  const double kwh_m2 = share * figures.usual_sun_kwh_m2;
  const bool brighter = kwh_m2 > given.kwh_m2;
  // A named day that is clearer than clear, or duller than dull, stays as it is.
  return brighter == (figures.spell == plan::Spell::hot)
             ? DaySun{kwh_m2, models::RadiationFigure::one_day}
             : given;
}

}  // namespace

WeatherDay weather_day(const DayFigures& figures, plan::Date date, const Position& at,
                       double utc_offset_h) {
  const plan::Weather& weather = figures.weather;
  WeatherDay day;
  day.max_c = weather.max_c + figures.max_warmer_k;
  day.min_c = weather.min_c + figures.min_warmer_k;
  day.wind_m_s = weather.wind_m_s;
  day.elevation_m = at.elevation_m;
  day.vapour_kpa = weather.dew_point_c
                       ? models::saturation_vapour_pressure_kpa(*weather.dew_point_c)
                       : models::daily_vapour_pressure_kpa(weather.max_c, weather.min_c,
                                                           weather.humidity.value_or(0.5));
  const int year_day = date.day_of_year();
  const double noon_jd =
      models::julian_day(date.year(), date.month(), date.day(), 12 - utc_offset_h);
  const double equation_min = models::sun_coordinates(noon_jd).equation_of_time_min;
  day.solar_minus_clock_h =
      models::solar_hour(12, utc_offset_h, at.longitude_deg, equation_min) - 12;
  const DaySun sun = day_sun(figures, at.latitude_deg, year_day);
  day.radiation = models::day_radiation(at.latitude_deg, year_day, sun.kwh_m2, sun.figure);
  day.course = models::DailyCourse(models::daylight_hours(at.latitude_deg, year_day));
  return day;
}

WeatherDay with_figures(const WeatherDay& like, const DayFigures& figures, plan::Date date,
                        double latitude_deg) {
  WeatherDay day = like;
  day.max_c = figures.weather.max_c + figures.max_warmer_k;
  day.min_c = figures.weather.min_c + figures.min_warmer_k;
  const DaySun sun = day_sun(figures, latitude_deg, date.day_of_year());
  day.radiation = models::with_total(like.radiation, sun.kwh_m2, sun.figure);
  return day;
}

double mean_air_c(const WeatherDay& weather, double from_h, double to_h) {
  const double shift = weather.solar_minus_clock_h;
  return weather.max_c - weather.course.mean_below_max(from_h + shift, to_h + shift) *
                             (weather.max_c - weather.min_c);
}

std::array<double, 24> hourly_air_c(const WeatherDay& weather) {
  std::array<double, 24> out{};
  for (std::size_t h = 0; h < out.size(); ++h) {
    const auto clock_h = static_cast<double>(h);
    out.at(h) = weather.ready != nullptr ? weather.max_c - weather.ready->hours[h].below_max *
                                                               (weather.max_c - weather.min_c)
                                         : mean_air_c(weather, clock_h, clock_h + 1);
  }
  return out;
}

double day_mean_c(const WeatherDay& weather) { return mean_air_c(weather, 0, 24); }

}  // namespace drystage::engine
