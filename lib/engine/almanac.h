#pragma once

#include <array>
#include <cstdint>
#include <memory>

#include "engine/weather_day.h"
#include "models/sun.h"
#include "plan/people.h"

namespace drystage::engine {

/// Sun and weather of days, made ready for the models, and what people lose in them: worked out
/// when first asked for, and kept. Trips that are laid out one from another meet the same days at
/// the same places again and again. Everything that goes into a figure is compared, so that any
/// plans may share an almanac. It may be asked by many threads at once.
class Almanac {
 public:
  Almanac();
  ~Almanac();
  Almanac(const Almanac&) = delete;
  Almanac& operator=(const Almanac&) = delete;

  models::SunTimes sun(plan::Date date, const Position& at, double utc_offset_h);

  /// All that a day's weather comes of, bit by bit.
  using Key = std::array<std::uint64_t, 24>;

  struct Day {
    WeatherDay weather{};
    std::array<double, 24> air_c{};  ///< mean of every clock hour
  };

  static Key key(const DayFigures& figures, plan::Date date, const Position& at,
                 double utc_offset_h);

  /// As `weather_day`, of which `key` is the key.
  Day day(const Key& key, const DayFigures& figures, plan::Date date, const Position& at,
          double utc_offset_h);

  /// As `water_loss_g_m2`; `key` is that of the weather.
  std::array<double, 24> loss_g_m2(const Key& key, const plan::Activity& activity,
                                   const WeatherDay& weather);

 private:
  struct Pages;
  std::unique_ptr<Pages> pages_;
};

}  // namespace drystage::engine
