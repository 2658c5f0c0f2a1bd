#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <tuple>

#include "engine/ready_day.h"
#include "engine/weather_day.h"

namespace drystage::engine {

/// Keeps what is worked out of days, for any number of threads: calendars that differ in their
/// dates and places share most of it.
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
