#pragma once

#include <array>
#include <memory>

#include "engine/ready_day.h"
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

/// How much warmer things about are than the air.
struct Excess {
  double k = 0;
  models::PlaceOnAxis place{};
};

/// What is about people in each clock hour of a day. Activities of one day share it.
struct Surroundings {
  struct Hour {
    double air_c = 0;
    models::PlaceOnAxis air{};
    Excess sun{};
    Excess shade{};
  };
  explicit Surroundings(const WeatherDay& weather);

  std::array<Hour, 24> hours{};
};
std::array<double, 24> water_loss_g_m2(const plan::Activity& activity, const WeatherDay& weather,
                                       const Surroundings& about);

/// What of a day is worked out beforehand.
ReadyAir ready_air(const WeatherDay& weather);
ReadyDay ready_day(const WeatherDay& weather, std::shared_ptr<const ReadyAir> air);

/// Whether this weather and activity lie beyond the heat for which the sweat model was validated
/// (ISO 7933), wind aside: there its figures are an extrapolation.
bool beyond_proven_heat(const plan::Activity& activity, const WeatherDay& weather);

/// Whether there is wind hotter than skin, and beyond that for which the model was validated.
bool beyond_proven_wind(const WeatherDay& weather);

}  // namespace drystage::engine
