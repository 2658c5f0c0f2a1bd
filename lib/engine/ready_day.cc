#include "engine/ready_day.h"

#include <utility>

namespace drystage::engine {

ReadyDay::ReadyDay(const WeatherDay& weather, std::shared_ptr<const ReadyAir> its_air)
    : air(std::move(its_air)) {
  for (int h = 0; h < 24; ++h) {
    const double solar_h = h + weather.solar_minus_clock_h;
    hours.push_back({.light = models::SunStretch(weather.radiation, solar_h, solar_h + 1),
                     .sun_on_body = sun_on_body(weather, solar_h + 0.5),
                     .below_max = weather.course.mean_below_max(solar_h, solar_h + 1)});
  }
}

std::shared_ptr<const ReadyDay> ReadyDays::of(const WeatherDay& weather) {
  constexpr double unknown = -1;
  const AirKey air_key{weather.vapour_kpa, weather.wind_m_s.value_or(unknown)};
  const DayKey key{air_key, weather.solar_minus_clock_h, weather.radiation.sine_latitude,
                   weather.radiation.sine_declination};
  const std::scoped_lock lock(mutex_);
  std::shared_ptr<const ReadyDay>& day = days_[key];
  if (day) return day;
  std::shared_ptr<const ReadyAir>& air = airs_[air_key];
  if (!air) air = std::make_shared<const ReadyAir>(ready_air(weather));
  day = std::make_shared<const ReadyDay>(weather, air);
  return day;
}

}  // namespace drystage::engine
