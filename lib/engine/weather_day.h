#pragma once

#include <array>
#include <optional>

#include "engine/route_point.h"
#include "models/daily_weather.h"
#include "models/radiation.h"
#include "plan/plan.h"

namespace drystage::engine {

struct ReadyDay;

/// The weather of one day in one climate, as the models take it.
struct WeatherDay {
  double max_c = 0;
  double min_c = 0;
  double vapour_kpa = 0;
  std::optional<double> wind_m_s;  ///< nothing: not known
  double elevation_m = 0;
  double solar_minus_clock_h = 0;
  models::DayRadiation radiation{};
  models::DailyCourse course{};     ///< of the air's temperature, by solar hours
  const ReadyDay* ready = nullptr;  ///< what is worked out of it beforehand; null: nothing
};

/// The figures for one date: a month's normals, or with the plan's own for named days laid over.
struct DayFigures {
  plan::Weather weather;
  models::RadiationFigure sun = models::RadiationFigure::monthly_mean;
  // On top, with no more vapour in the air:
  double max_warmer_k = 0;
  double min_warmer_k = 0;
  plan::Spell spell{};          ///< the sky's
  double usual_sun_kwh_m2 = 0;  ///< the month's, by which the sky of a spell goes
};

/// Whether the spells that an answer lays over the plan (a heat wave) count.
enum class Spells { laid_over, left_out };

/// What a climate and the plan's named days give for a date. Nothing where the climate has no
/// normals for that month.
std::optional<DayFigures> figures_on(const plan::Plan& plan, int climate, plan::Date date,
                                     Spells spells = Spells::laid_over);

/// The same made ready for the models at a position.
WeatherDay weather_day(const DayFigures& figures, plan::Date date, const Position& at,
                       double utc_offset_h);

/// The same place and date, as humid and as windy, with other figures of warmth and sun.
WeatherDay with_figures(const WeatherDay& like, const DayFigures& figures, plan::Date date,
                        double latitude_deg);

/// Mean air temperature over clock hours of the day, °C.
double mean_air_c(const WeatherDay& weather, double from_h, double to_h);

/// The same of every clock hour.
std::array<double, 24> hourly_air_c(const WeatherDay& weather);

/// Mean of the day's 24 hours, °C.
double day_mean_c(const WeatherDay& weather);

}  // namespace drystage::engine
