#include "models/daily_weather.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace drystage::models {
namespace {

TEST(DailyWeather, MatchesTheAshraeFractions) {
  // ASHRAE Fundamentals, climatic design information: hour 1..24, fraction of the daily range
  // below the maximum (memory).
  constexpr std::array<double, 24> fractions = {.88, .92, .95, .98, 1,   .98, .91, .74,
                                                .55, .38, .23, .13, .05, 0,   0,   .06,
                                                .14, .24, .39, .50, .59, .68, .75, .82};
  for (std::size_t i = 0; i < fractions.size(); ++i) {
    const double hour = static_cast<double>(i) + 1.0;
    EXPECT_NEAR(air_c_at(40.0, 20.0, hour), 40.0 - 20.0 * fractions[i], 1e-12) << hour;
  }
}

TEST(DailyWeather, KeepsWithinTheDaysExtremesAndMeetsThem) {
  double lowest_c = 100.0;
  double highest_c = -100.0;
  for (double hour = 0.0; hour < 24.0; hour += 0.25) {
    const double air_c = air_c_at(31.0, 9.0, hour);
    lowest_c = std::min(lowest_c, air_c);
    highest_c = std::max(highest_c, air_c);
  }
  EXPECT_DOUBLE_EQ(lowest_c, 9.0);
  EXPECT_DOUBLE_EQ(highest_c, 31.0);
}

TEST(DailyWeather, RunsStraightBetweenHoursAndRepeats) {
  EXPECT_NEAR(air_c_at(40.0, 20.0, 9.5), 40.0 - 20.0 * 0.5 * (.55 + .38), 1e-12);
  EXPECT_NEAR(air_c_at(40.0, 20.0, 0.5), 40.0 - 20.0 * 0.5 * (.82 + .88), 1e-12);
  EXPECT_DOUBLE_EQ(air_c_at(40.0, 20.0, 0.0), air_c_at(40.0, 20.0, 24.0));
  EXPECT_DOUBLE_EQ(air_c_at(40.0, 20.0, -3.0), air_c_at(40.0, 20.0, 21.0));
  EXPECT_DOUBLE_EQ(air_c_at(40.0, 20.0, 49.25), air_c_at(40.0, 20.0, 1.25));
}

TEST(DailyWeather, MeanIsTheIntegral) {
  // The trapezoid rule on a grid that holds every corner is exact too, and shares no code.
  for (const double from : {0.0, 3.25, 13.5, 22.75, -30.5}) {
    for (const double length : {0.25, 1.0, 5.5, 24.0, 61.25}) {
      double sum = 0.0;
      const int pieces = static_cast<int>(length * 4.0);
      for (int i = 0; i < pieces; ++i) {
        const double hour = from + 0.25 * i;
        sum += 0.5 * (air_c_at(35.0, 12.0, hour) + air_c_at(35.0, 12.0, hour + 0.25));
      }
      EXPECT_NEAR(mean_air_c(35.0, 12.0, from, from + length), sum / pieces, 1e-10)
          << from << " + " << length;
    }
  }
}

TEST(DailyWeather, DayMeanIsTheMeanOfTheFractions) {
  // The 24 fractions sum to 12.87: a day's mean lies a little below the middle of its extremes.
  EXPECT_NEAR(mean_air_c(30.0, 10.0, 0.0, 24.0), 30.0 - 20.0 * 12.87 / 24.0, 1e-12);
}

TEST(DailyWeather, AnEmptyIntervalIsItsMoment) {
  EXPECT_DOUBLE_EQ(mean_air_c(30.0, 10.0, 7.3, 7.3), air_c_at(30.0, 10.0, 7.3));
  EXPECT_DOUBLE_EQ(mean_air_c(25.0, 25.0, 3.0, 9.0), 25.0);
}

}  // namespace
}  // namespace drystage::models
