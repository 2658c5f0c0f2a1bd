#pragma once

#include <array>
#include <vector>

namespace drystage::support {

/// A recorded day of a desert station: tests/published/data/desert_year.csv names its source.
struct RecordedDay {
  int month = 0;
  int day = 0;          ///< of the month
  int day_of_year = 0;  ///< 1..365
  double sun_kwh_m2 = 0;
  double wind_m_s = 0;
  double dew_point_c = 0;
  std::array<double, 24> air_c{};  ///< at 1 h, 2 h, .. 24 h of the clock

  [[nodiscard]] double max_c() const;
  [[nodiscard]] double min_c() const;
  [[nodiscard]] double mean_c() const;
};

/// Where the station is.
inline constexpr double station_latitude_deg = 33.45;
inline constexpr double station_longitude_deg = -111.98;
inline constexpr double station_utc_offset_h = -7;

/// The 365 days of its typical year.
std::vector<RecordedDay> desert_year();

/// Those of one month, 1..12.
std::vector<RecordedDay> desert_month(int month);

/// Mean and standard deviation.
struct Spread {
  double mean = 0;
  double deviation = 0;
};
Spread spread_of(const std::vector<double>& values);

}  // namespace drystage::support
