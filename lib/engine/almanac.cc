#include "engine/almanac.h"

#include <bit>
#include <cmath>
#include <limits>
#include <mutex>
#include <optional>
#include <shared_mutex>
#include <unordered_map>

#include "engine/water_loss.h"

namespace drystage::engine {
namespace {

// Enough for any trip with all that may come between; some 10 MB. Beyond it nothing more is kept.
constexpr std::size_t most_kept = 20000;

/// Writes numbers into a key, one after another.
class Writer {
 public:
  explicit Writer(Almanac::Key& key, std::size_t next = 0) : key_(key), next_(next) {}

  void put(double number) { key_.at(next_++) = std::bit_cast<std::uint64_t>(number); }
  void put(const std::optional<double>& number) {
    put(number.value_or(std::numeric_limits<double>::quiet_NaN()));
  }

 private:
  Almanac::Key& key_;
  std::size_t next_;
};

// Where what an activity adds to a day's key begins.
constexpr std::size_t activity_at = 17;

}  // namespace

struct Almanac::Pages {
  struct Hash {
    std::size_t operator()(const Almanac::Key& key) const {
      constexpr std::uint64_t odd = 0x9E3779B97F4A7C15U;
      constexpr int half = 32;
      std::uint64_t sum = 0;
      for (const std::uint64_t word : key) {
        sum = (sum ^ word) * odd;
        sum ^= sum >> half;
      }
      return sum;
    }
  };

  template <class Value>
  class Kept {
   public:
    template <class Make>
    Value get(const Almanac::Key& key, const Make& make) {
      {
        const std::shared_lock lock(mutex_);
        const auto known = values_.find(key);
        if (known != values_.end()) return known->second;
      }
      const Value made = make();
      const std::unique_lock lock(mutex_);
      if (values_.size() < most_kept) values_.emplace(key, made);
      return made;
    }

   private:
    std::shared_mutex mutex_;
    std::unordered_map<Almanac::Key, Value, Hash> values_;
  };

  Kept<models::SunTimes> suns;
  Kept<Day> days;
  Kept<std::array<double, 24>> losses;
};

Almanac::Almanac() : pages_(std::make_unique<Pages>()) {}
Almanac::~Almanac() = default;

models::SunTimes Almanac::sun(plan::Date date, const Position& at, double utc_offset_h) {
  Key key{};
  Writer out(key);
  for (const double number :
       {static_cast<double>(date.day_number()), utc_offset_h, at.latitude_deg, at.longitude_deg}) {
    out.put(number);
  }
  return pages_->suns.get(key, [&] {
    return models::sun_times(date.year(), date.month(), date.day(), at.latitude_deg,
                             at.longitude_deg, utc_offset_h);
  });
}

Almanac::Key Almanac::key(const DayFigures& figures, plan::Date date, const Position& at,
                          double utc_offset_h) {
  Key key{};
  Writer out(key);
  out.put(static_cast<double>(date.day_number()));
  out.put(utc_offset_h);
  out.put(at.latitude_deg);
  out.put(at.longitude_deg);
  out.put(at.elevation_m);
  const plan::Weather& weather = figures.weather;
  out.put(weather.max_c);
  out.put(weather.min_c);
  out.put(weather.humidity);
  out.put(weather.dew_point_c);
  out.put(weather.wind_m_s);
  out.put(weather.sun_kwh_m2);
  out.put(static_cast<double>(figures.sun));
  out.put(figures.max_warmer_k);
  out.put(figures.min_warmer_k);
  out.put(static_cast<double>(figures.spell));
  out.put(figures.usual_sun_kwh_m2);
  return key;
}

Almanac::Day Almanac::day(const Key& key, const DayFigures& figures, plan::Date date,
                          const Position& at, double utc_offset_h) {
  return pages_->days.get(key, [&] {
    Day out{.weather = weather_day(figures, date, at, utc_offset_h)};
    out.air_c = hourly_air_c(out.weather);
    return out;
  });
}

std::array<double, 24> Almanac::loss_g_m2(const Key& key, const plan::Activity& activity,
                                          const WeatherDay& weather) {
  Key with_activity = key;
  Writer out(with_activity, activity_at);
  for (const double hours : activity.hours) out.put(hours);
  out.put(activity.in_sun);
  return pages_->losses.get(with_activity, [&] { return water_loss_g_m2(activity, weather); });
}

}  // namespace drystage::engine
