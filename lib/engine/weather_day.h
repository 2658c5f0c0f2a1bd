#pragma once

#include <optional>

#include "engine/spot.h"
#include "models/radiation.h"
#include "plan/plan.h"

namespace drystage::engine {

/// The weather of one day in one climate, as the models take it.
struct WeatherDay {
  double max_c = 0;
  double min_c = 0;
  double vapour_kpa = 0;
  double wind_m_s = 0;
  double solar_minus_clock_h = 0;
  models::DayRadiation radiation{};
};

/// The figures for one date: a month's normals, or with the plan's own for named days laid over.
struct DayFigures {
  plan::Weather weather;
  models::RadiationFigure sun = models::RadiationFigure::monthly_mean;
  double warmer_k = 0;  ///< on top, with no more vapour in the air
};

/// What a climate and the plan's named days give for a date. Nothing where the climate has no
/// normals for that month.
std::optional<DayFigures> figures_on(const plan::Plan& plan, int climate, plan::Date date);

/// The same made ready for the models at a position.
WeatherDay weather_day(const DayFigures& figures, plan::Date date, const Position& at,
                       double utc_offset_h);

/// Mean air temperature over clock hours of the day, °C.
double mean_air_c(const WeatherDay& weather, double from_h, double to_h);

/// Mean of the day's 24 hours, °C.
double day_mean_c(const WeatherDay& weather);

}  // namespace drystage::engine
