#include "models/daily_weather.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drystage::models {
namespace {

TEST(DailyCourse, IsLowestAtSunriseAndHighestTwoHoursAfterNoon) {
  // de Wit, Goudriaan and van Laar (1978), memory.
  for (const double daylight_h : {8.0, 10.5, 12.0, 14.3, 16.0}) {
    const DailyCourse course(daylight_h);
    EXPECT_NEAR(course.below_max_at(12 - daylight_h / 2), 1, 1e-12) << daylight_h;
    EXPECT_NEAR(course.below_max_at(14), 0, 1e-12) << daylight_h;
    // Half-way between them in time it is half-way in temperature: a cosine wave.
    EXPECT_NEAR(course.below_max_at((12 - daylight_h / 2 + 14) / 2), 0.5, 1e-12) << daylight_h;
  }
}

TEST(DailyCourse, KeepsWithinTheDaysExtremes) {
  // At the equator, and in the polar day and night too.
  for (const double daylight_h : {0.0, 4.0, 9.0, 12.0, 15.0, 19.0, 24.0}) {
    const DailyCourse course(daylight_h);
    double least = 1;
    double most = 0;
    for (double hour = 0; hour < 24; hour += 0.05) {
      const double below = course.below_max_at(hour);
      EXPECT_GE(below, -1e-12) << daylight_h << " h, at " << hour;
      EXPECT_LE(below, 1 + 1e-12) << daylight_h << " h, at " << hour;
      least = std::min(least, below);
      most = std::max(most, below);
    }
    EXPECT_NEAR(least, 0, 1e-4) << daylight_h;
    EXPECT_NEAR(most, 1, 1e-3) << daylight_h;
  }
}

TEST(DailyCourse, RisesAllTheWayUpAndFallsAllTheWayDown) {
  for (const double daylight_h : {6.0, 9.0, 12.0, 15.0, 18.0}) {
    const DailyCourse course(daylight_h);
    const double sunrise_h = 12 - daylight_h / 2;
    for (double hour = sunrise_h; hour + 0.1 <= sunrise_h + 24; hour += 0.1) {
      const double change = course.below_max_at(hour + 0.1) - course.below_max_at(hour);
      const bool rises = hour + 0.1 <= 14;
      const bool falls = hour >= 14;
      EXPECT_FALSE(rises && change > 1e-12) << daylight_h << " h, at " << hour;
      EXPECT_FALSE(falls && change < -1e-12) << daylight_h << " h, at " << hour;
    }
  }
}

TEST(DailyCourse, RepeatsEachDayWithoutAStep) {
  const DailyCourse course(13.2);
  EXPECT_NEAR(course.below_max_at(-3), course.below_max_at(21), 1e-12);
  EXPECT_NEAR(course.below_max_at(49.25), course.below_max_at(1.25), 1e-12);
  for (const double hour : {0.0, 5.4, 14.0, 24.0}) {
    EXPECT_NEAR(course.below_max_at(hour - 1e-7), course.below_max_at(hour + 1e-7), 1e-6) << hour;
  }
}

TEST(DailyCourse, ADaysMeanIsThatOfPartonAndLogan) {
  // Their course by day and by night, summed in small steps: Agricultural Meteorology 23:205
  // (1981), air at 1.5 m, a 1.86 h, b 2.20, c -0.17 h.
  for (const double daylight_h : {8.0, 10.0, 12.0, 14.0, 15.0}) {
    constexpr int pieces = 240000;
    const double night_h = 24 - daylight_h - 0.17;
    const double wave_h = daylight_h + 2 * 1.86;
    const double at_sunset = std::sin(std::numbers::pi * (daylight_h + 0.17) / wave_h);
    double sum = 0;
    for (int i = 0; i < pieces; ++i) {
      const double after_minimum_h = (i + 0.5) * 24 / pieces;
      const double after_sunset_h = after_minimum_h - (daylight_h + 0.17);
      sum += after_sunset_h < 0 ? std::sin(std::numbers::pi * after_minimum_h / wave_h)
                                : at_sunset * std::exp(-2.20 * after_sunset_h / night_h);
    }
    const double wanted = 1 - sum / pieces;
    EXPECT_NEAR(DailyCourse(daylight_h).mean_below_max(0, 24), wanted, 1e-5) << daylight_h;
    EXPECT_NEAR(days_mean_below_max(daylight_h), wanted, 1e-5) << daylight_h;
  }
}

TEST(DailyCourse, MeanIsTheIntegral) {
  // The midpoint rule in small steps, which shares no code with the integral.
  for (const double daylight_h : {9.5, 14.5}) {
    const DailyCourse course(daylight_h);
    for (const double from : {0.0, 3.25, 13.5, 22.75, -30.5}) {
      for (const double length : {0.25, 1.0, 5.5, 24.0, 61.25}) {
        constexpr int pieces = 20000;
        double sum = 0;
        for (int i = 0; i < pieces; ++i) {
          sum += course.below_max_at(from + (i + 0.5) * length / pieces);
        }
        EXPECT_NEAR(course.mean_below_max(from, from + length), sum / pieces, 1e-6)
            << daylight_h << ": " << from << " + " << length;
      }
    }
  }
}

TEST(DailyCourse, AnEmptyIntervalIsItsMoment) {
  const DailyCourse course(11);
  EXPECT_DOUBLE_EQ(course.mean_below_max(7.3, 7.3), course.below_max_at(7.3));
}

}  // namespace
}  // namespace drystage::models
