// The course of air temperature through the day, against the recorded hours of a desert station.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "models/daily_weather.h"
#include "models/radiation.h"
#include "models/sun.h"
#include "support/desert_year.h"

namespace drystage {
namespace {

using support::desert_month;
using support::RecordedDay;

constexpr double base_c = 25;

// The model's air at a clock hour of a day with given extremes.
double modelled_c(const RecordedDay& day, double max_c, double min_c, double clock_h) {
  const models::DailyCourse course(
      models::daylight_hours(support::station_latitude_deg, day.day_of_year));
  const double noon_jd = models::julian_day(2027, day.month, day.day, 19);
  const double solar_h =
      models::solar_hour(clock_h, support::station_utc_offset_h, support::station_longitude_deg,
                         models::sun_coordinates(noon_jd).equation_of_time_min);
  return max_c - course.below_max_at(solar_h) * (max_c - min_c);
}

double degree_hours(const RecordedDay& day) {
  double sum = 0;
  for (const double air_c : day.air_c) sum += std::max(0.0, air_c - base_c);
  return sum;
}

double degree_hours(const RecordedDay& day, double max_c, double min_c) {
  double sum = 0;
  for (int hour = 1; hour <= 24; ++hour) {
    sum += std::max(0.0, modelled_c(day, max_c, min_c, hour) - base_c);
  }
  return sum;
}

struct Month {
  double recorded = 0;
  double modelled = 0;
  [[nodiscard]] double error() const { return modelled / recorded - 1; }
};

Month from_each_days_own_extremes(int month) {
  Month out;
  for (const RecordedDay& day : desert_month(month)) {
    out.recorded += degree_hours(day);
    out.modelled += degree_hours(day, day.max_c(), day.min_c());
  }
  return out;
}

// A month of days alike but for their means, which are spread about the month's as a normal
// distribution is.
Month from_normals_and_spread(int month) {
  const std::vector<RecordedDay> days = desert_month(month);
  std::vector<double> max_c;
  std::vector<double> min_c;
  std::vector<double> mean_c;
  Month out;
  for (const RecordedDay& day : days) {
    out.recorded += degree_hours(day);
    max_c.push_back(day.max_c());
    min_c.push_back(day.min_c());
    mean_c.push_back(day.mean_c());
  }
  const double normal_max_c = support::spread_of(max_c).mean;
  const double normal_min_c = support::spread_of(min_c).mean;
  const double spread_c = support::spread_of(mean_c).deviation;
  double weights = 0;
  double sum = 0;
  for (double z = -4; z <= 4; z += 0.1) {
    const double weight = std::exp(-z * z / 2);
    const double warmer_k = z * spread_c;
    weights += weight;
    sum += weight *
           degree_hours(days[days.size() / 2], normal_max_c + warmer_k, normal_min_c + warmer_k);
  }
  out.modelled = sum / weights * static_cast<double>(days.size());
  return out;
}

TEST(AirByTheHour, DegreeHoursFromEachDaysExtremesAreWithinAFewPercentInSummer) {
  for (const int month : {6, 7, 8, 9}) {
    EXPECT_NEAR(from_each_days_own_extremes(month).error(), 0, 0.03) << month;
  }
}

TEST(AirByTheHour, DegreeHoursFromNormalsAndSpreadAreWithinATenthInWarmMonths) {
  int warm = 0;
  for (int month = 1; month <= 12; ++month) {
    const Month made = from_normals_and_spread(month);
    if (made.recorded < 1000) continue;
    ++warm;
    EXPECT_NEAR(made.error(), 0, 0.10) << month;
  }
  EXPECT_EQ(warm, 7);  // April to October
}

TEST(AirByTheHour, TheMeanOfADayIsWithinHalfADegreeInEveryMonth) {
  for (int month = 1; month <= 12; ++month) {
    double error_k = 0;
    const std::vector<RecordedDay> days = desert_month(month);
    for (const RecordedDay& day : days) {
      double sum = 0;
      for (int hour = 1; hour <= 24; ++hour) {
        sum += modelled_c(day, day.max_c(), day.min_c(), hour);
      }
      error_k += sum / 24 - day.mean_c();
    }
    EXPECT_NEAR(error_k / static_cast<double>(days.size()), 0, 0.5) << month;
  }
}

TEST(AirByTheHour, NoHourOfAMonthIsFarOff) {
  for (int month = 1; month <= 12; ++month) {
    const std::vector<RecordedDay> days = desert_month(month);
    for (std::size_t hour = 1; hour <= 24; ++hour) {
      double error_k = 0;
      for (const RecordedDay& day : days) {
        error_k += modelled_c(day, day.max_c(), day.min_c(), static_cast<double>(hour)) -
                   day.air_c.at(hour - 1);
      }
      EXPECT_NEAR(error_k / static_cast<double>(days.size()), 0, 2.5)
          << "month " << month << ", at " << hour;
    }
  }
}

}  // namespace
}  // namespace drystage
