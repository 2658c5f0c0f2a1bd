#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <tuple>
#include <vector>

#include "engine/water_loss.h"
#include "engine/weather_day.h"
#include "models/solar_heat.h"

namespace drystage::engine {

/// What of a day's weather does not change with how warm or how bright it is, worked out
/// beforehand. Trips that differ in these alone then take a small part of the time, and the figures
/// are the same but for rounding.
struct ReadyDay {
  struct Hour {
    models::SunStretch light;
    models::SunOnBody sun_on_body;
    double below_max = 0;  ///< part of the day's range by which it is below the maximum
  };

  ReadyDay(const WeatherDay& weather, std::shared_ptr<const ReadyAir> its_air);

  std::vector<Hour> hours;  ///< by clock hour
  std::shared_ptr<const ReadyAir> air;
};

/// Keeps such days, for any number of threads: calendars that differ in their dates and places
/// share most of them.
class ReadyDays {
 public:
  /// The day that goes with a weather, made if it is not there.
  [[nodiscard]] std::shared_ptr<const ReadyDay> of(const WeatherDay& weather);

 private:
  using AirKey = std::tuple<double, double>;  // vapour, wind
  using DayKey = std::tuple<AirKey, double, double, double>;

  std::mutex mutex_;
  std::map<AirKey, std::shared_ptr<const ReadyAir>> airs_;
  std::map<DayKey, std::shared_ptr<const ReadyDay>> days_;
};

}  // namespace drystage::engine
