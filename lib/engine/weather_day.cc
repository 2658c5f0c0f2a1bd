#include "engine/weather_day.h"

#include <algorithm>

#include "models/atmosphere.h"
#include "models/daily_weather.h"
#include "models/sun.h"

namespace drystage::engine {

std::optional<DayFigures> figures_on(const plan::Plan& plan, int climate, plan::Date date) {
  const auto month = static_cast<std::size_t>(date.month().as_number() - 1);
  const auto& normals = plan.climates[static_cast<std::size_t>(climate)].months.at(month);
  if (!normals) return std::nullopt;
  DayFigures figures{.weather = *normals};
  plan::Weather& weather = figures.weather;
  for (const plan::NamedDays& days : plan.weather) {
    if (date < days.from || date > days.to) continue;
    figures.warmer_k += days.warmer_k;
    weather.max_c = days.max_c.value_or(weather.max_c);
    weather.min_c = days.min_c.value_or(weather.min_c);
    // One of them given alone may lie beyond the normal other one.
    if (!days.min_c) weather.min_c = std::min(weather.min_c, weather.max_c);
    if (!days.max_c) weather.max_c = std::max(weather.min_c, weather.max_c);
    weather.wind_m_s = days.wind_m_s.value_or(weather.wind_m_s);
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
  return figures;
}

WeatherDay weather_day(const DayFigures& figures, plan::Date date, const Position& at,
                       double utc_offset_h) {
  const plan::Weather& weather = figures.weather;
  WeatherDay day;
  day.max_c = weather.max_c + figures.warmer_k;
  day.min_c = weather.min_c + figures.warmer_k;
  day.wind_m_s = weather.wind_m_s;
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
  day.radiation = models::day_radiation(at.latitude_deg, year_day, weather.sun_kwh_m2, figures.sun);
  return day;
}

double mean_air_c(const WeatherDay& weather, double from_h, double to_h) {
  const double shift = weather.solar_minus_clock_h;
  return models::mean_air_c(weather.max_c, weather.min_c, from_h + shift, to_h + shift);
}

double day_mean_c(const WeatherDay& weather) { return mean_air_c(weather, 0, 24); }

}  // namespace drystage::engine
