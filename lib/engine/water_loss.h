#pragma once

#include <array>

#include "engine/weather_day.h"
#include "plan/people.h"

namespace drystage::engine {

/// Water that a person loses in each clock hour 0..23 of a day beyond the temperate base, g per m²
/// of body surface: sweat, and breath where the air is dry or thin.
///
/// The hours of the activity follow one another about the hottest part of the day (ours: the
/// cautious choice), in the plan's wind; all else is rest, in still air out of the light or in open
/// shade and the plan's wind, whichever takes more. A wind that is not known is anything from still
/// air to 3 m/s, whichever takes more.
std::array<double, 24> water_loss_g_m2(const plan::Activity& activity, const WeatherDay& weather);

/// The part of each clock hour that the day's activity takes, 0 to 1.
std::array<double, 24> busy_hours(const plan::Activity& activity, const WeatherDay& weather);

/// The same water, by what is done: of an hour of rest, and of an hour of the activity. What of an
/// hour is neither asked for by `busy_h` (0: no activity in it, 1: no rest) is 0.
struct HourlyLoss {
  std::array<double, 24> rest{};
  std::array<double, 24> active{};
};
HourlyLoss hourly_loss_g_m2(const plan::Activity& activity, const WeatherDay& weather,
                            const std::array<double, 24>& busy_h);

/// Whether this weather and activity lie beyond the heat for which the sweat model was validated
/// (ISO 7933), wind aside: there its figures are an extrapolation.
bool beyond_proven_heat(const plan::Activity& activity, const WeatherDay& weather);

/// Whether there is wind hotter than skin, and beyond that for which the model was validated.
bool beyond_proven_wind(const WeatherDay& weather);

}  // namespace drystage::engine
