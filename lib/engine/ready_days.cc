#include "engine/ready_days.h"

#include "engine/water_loss.h"

namespace drystage::engine {

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
  day = std::make_shared<const ReadyDay>(ready_day(weather, air));
  return day;
}

}  // namespace drystage::engine
