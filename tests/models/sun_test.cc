#include "models/sun.h"

#include <gtest/gtest.h>

#include <cmath>

#include "models/radiation.h"

namespace drystage::models {
namespace {

TEST(JulianDay, MatchesPublishedDates) {
  // Meeus, Astronomical Algorithms, chapter 7 (memory).
  EXPECT_DOUBLE_EQ(julian_day(2000, 1, 1, 12.0), 2451545.0);
  EXPECT_DOUBLE_EQ(julian_day(1987, 6, 19, 12.0), 2446966.0);
  EXPECT_DOUBLE_EQ(julian_day(1900, 1, 1, 0.0), 2415020.5);
  // Reda and Andreas, NREL/TP-560-34302, example: 2452930.312847 (memory).
  EXPECT_NEAR(julian_day(2003, 10, 17, 19.0 + 30.0 / 60.0 + 30.0 / 3600.0), 2452930.312847, 1e-6);
}

TEST(JulianDay, CountsHoursOutsideTheDay) {
  EXPECT_DOUBLE_EQ(julian_day(2027, 2, 28, 36.0), julian_day(2027, 3, 1, 12.0));
  EXPECT_DOUBLE_EQ(julian_day(2027, 1, 1, -6.0), julian_day(2026, 12, 31, 18.0));
}

TEST(DayOfYear, CountsLeapDays) {
  EXPECT_EQ(day_of_year(2027, 1, 1), 1);
  EXPECT_EQ(day_of_year(2027, 9, 3), 246);  // FAO-56 example 8: 3 September is day 246
  EXPECT_EQ(day_of_year(2028, 3, 1), 61);
  EXPECT_EQ(day_of_year(2027, 12, 31), 365);
  EXPECT_EQ(day_of_year(2028, 12, 31), 366);
}

TEST(Sun, MatchesTheNrelWorkedExample) {
  // Reda and Andreas, NREL/TP-560-34302: 17 Oct 2003, 12:30:30 UTC-7, 820 mbar, 11 °C.
  const double moment = julian_day(2003, 10, 17, 19.0 + 30.0 / 60.0 + 30.0 / 3600.0);
  const SunPosition sun = sun_position(moment, 39.742476, -105.1786);
  const double seen_zenith_deg = sun.zenith_deg - refraction_deg(90.0 - sun.zenith_deg, 82.0, 11.0);
  EXPECT_NEAR(seen_zenith_deg, 50.11162, 0.02);
  EXPECT_NEAR(sun.azimuth_deg, 194.34024, 0.02);
  // The same example: refraction 0.016332°, equation of time 14.641503 min (memory).
  EXPECT_NEAR(refraction_deg(90.0 - sun.zenith_deg, 82.0, 11.0), 0.016332, 1e-4);
  EXPECT_NEAR(sun_coordinates(moment).equation_of_time_min, 14.641503, 0.03);
}

TEST(Sun, MatchesTheMeeusWorkedExamples) {
  // Meeus, examples 25.a and 28.a: 13 Oct 1992, 0 h dynamical time (memory).
  const SunCoordinates sun = sun_coordinates(julian_day(1992, 10, 13, -70.0 / 3600.0));
  EXPECT_NEAR(sun.right_ascension_deg, 198.38083, 2e-5);
  EXPECT_NEAR(sun.declination_deg, -7.78507, 2e-5);
  EXPECT_NEAR(sun.distance_au, 0.99766, 1e-5);
  EXPECT_NEAR(sun.equation_of_time_min, 13.0 + 42.6 / 60.0, 0.02);
}

TEST(Sun, RefractionAtTheHorizonIsAboutHalfADegree) {
  // Meeus, chapter 16: the formula gives some 29' at a true elevation of 0 (memory); thinner and
  // warmer air bends less, and below the horizon nothing is seen.
  EXPECT_NEAR(refraction_deg(0.0, 101.0, 10.0), 29.0 / 60.0, 0.02);
  EXPECT_LT(refraction_deg(10.0, 70.0, 10.0), refraction_deg(10.0, 101.0, 10.0));
  EXPECT_LT(refraction_deg(10.0, 101.0, 40.0), refraction_deg(10.0, 101.0, 10.0));
  EXPECT_EQ(refraction_deg(-5.0, 101.0, 10.0), 0.0);
}

TEST(Sun, StandsOnTheMeridianAtSolarNoon) {
  for (const double latitude : {-60.0, -35.0, 35.0, 60.0}) {
    for (int month = 1; month <= 12; ++month) {
      const SunTimes times = sun_times(2027, month, 15, latitude, 20.0, 1.0);
      const SunPosition sun =
          sun_position(julian_day(2027, month, 15, times.noon_h - 1.0), latitude, 20.0);
      const double bearing_of_noon = latitude > 0.0 ? 180.0 : 0.0;
      EXPECT_NEAR(std::remainder(sun.azimuth_deg - bearing_of_noon, 360.0), 0.0, 0.03);
    }
  }
}

TEST(Sun, MirrorsAboutSolarNoon) {
  const SunTimes times = sun_times(2027, 6, 21, 25.0, 6.0, 1.0);  // declination nearly still
  for (double apart_h = 0.5; apart_h <= 11.5; apart_h += 0.5) {
    const SunPosition before =
        sun_position(julian_day(2027, 6, 21, times.noon_h - 1.0 - apart_h), 25.0, 6.0);
    const SunPosition after =
        sun_position(julian_day(2027, 6, 21, times.noon_h - 1.0 + apart_h), 25.0, 6.0);
    EXPECT_NEAR(before.zenith_deg, after.zenith_deg, 0.05) << apart_h;
    EXPECT_NEAR(before.azimuth_deg + after.azimuth_deg, 360.0, 0.2) << apart_h;
    EXPECT_LT(before.azimuth_deg, 180.0);
  }
}

TEST(Sun, IsFiniteAtThePolesAndBeyond) {
  for (const double latitude : {-90.0, 90.0, 120.0}) {
    const SunPosition sun = sun_position(julian_day(2027, 6, 21, 12.0), latitude, 540.0);
    EXPECT_TRUE(std::isfinite(sun.azimuth_deg));
    EXPECT_NEAR(sun.zenith_deg, latitude > 0.0 ? 90.0 - 23.44 : 90.0 + 23.44, 0.02);
  }
}

TEST(SunTimes, CrossTheHorizonAtTheStandardElevation) {
  // The standard sunrise: centre 0.8333° below the level, 34' of refraction and 16' of half disc.
  for (const double latitude : {-64.0, -30.0, 0.0, 45.0, 64.0}) {
    for (int month = 1; month <= 12; ++month) {
      const SunTimes times = sun_times(2030, month, 10, latitude, -70.0, -5.0);
      for (const double hour : {times.rise_h, times.set_h}) {
        const SunPosition sun =
            sun_position(julian_day(2030, month, 10, hour + 5.0), latitude, -70.0);
        EXPECT_NEAR(sun.zenith_deg, 90.8333 + 0.0024, 1e-3);  // the parallax, left out of the rule
      }
    }
  }
}

TEST(SunTimes, KeepTheDayInOnePieceForAnyOffset) {
  const SunTimes home = sun_times(2027, 2, 10, -25.0, 134.0, 9.0);
  for (double offset = -12.0; offset <= 14.0; offset += 0.25) {
    const SunTimes times = sun_times(2027, 2, 10, -25.0, 134.0, offset);
    EXPECT_LT(times.rise_h, times.noon_h);
    EXPECT_LT(times.noon_h, times.set_h);
    EXPECT_GT(times.noon_h, -0.3);
    EXPECT_LT(times.noon_h, 24.3);
    // The same place and a day at most one away: a minute or two of difference.
    EXPECT_NEAR(times.set_h - times.rise_h, home.set_h - home.rise_h, 0.05);
    EXPECT_NEAR(std::remainder(times.rise_h - offset - (home.rise_h - 9.0), 24.0), 0.0, 0.05);
  }
}

TEST(SunTimes, PutAMidsummerSunsetAfterMidnightWhereItIs) {
  const SunTimes times = sun_times(2027, 6, 21, 64.84, -147.72, -8.0);
  EXPECT_GT(times.set_h, 24.0);
  EXPECT_LT(times.set_h, 25.5);
}

TEST(SunTimes, KnowPolarDayAndNight) {
  const SunTimes summer = sun_times(2027, 6, 21, 75.0, 20.0, 1.0);
  EXPECT_TRUE(summer.always_up);
  EXPECT_FALSE(summer.always_down);
  EXPECT_DOUBLE_EQ(summer.set_h - summer.rise_h, 24.0);

  const SunTimes winter = sun_times(2027, 12, 21, 75.0, 20.0, 1.0);
  EXPECT_TRUE(winter.always_down);
  EXPECT_FALSE(winter.always_up);
  EXPECT_DOUBLE_EQ(winter.set_h - winter.rise_h, 0.0);
}

TEST(SunTimes, PassFromNightToDayWithoutAGapAtHighLatitude) {
  // From January to mid-September at 70° N: the day grows from nothing to 24 h and shrinks again.
  int up = 0;
  int down = 0;
  double last_h = 0.0;
  for (int day = 1; day <= 255; ++day) {
    const SunTimes times = sun_times(2027, 1, day, 70.0, 25.0, 1.0);
    const double length_h = times.set_h - times.rise_h;
    EXPECT_GE(length_h, 0.0);
    EXPECT_LE(length_h, 24.0);
    EXPECT_LT(std::abs(length_h - last_h), 2.0) << day;
    last_h = length_h;
    up += times.always_up ? 1 : 0;
    down += times.always_down ? 1 : 0;
  }
  EXPECT_GT(up, 50);
  EXPECT_GT(down, 5);
}

TEST(SolarHour, FollowsLongitudeOffsetAndEquationOfTime) {
  EXPECT_DOUBLE_EQ(solar_hour(12.0, 1.0, 15.0, 0.0), 12.0);
  EXPECT_DOUBLE_EQ(solar_hour(12.0, 0.0, 15.0, 0.0), 13.0);
  EXPECT_DOUBLE_EQ(solar_hour(12.0, 1.0, 15.0, 15.0), 12.25);
  const SunTimes times = sun_times(2027, 11, 3, 27.1, 5.2, 1.0);
  const double equation_min =
      sun_coordinates(julian_day(2027, 11, 3, times.noon_h - 1.0)).equation_of_time_min;
  EXPECT_NEAR(solar_hour(times.noon_h, 1.0, 5.2, equation_min), 12.0, 1e-3);
  EXPECT_NEAR(equation_min, 16.4, 0.1);  // its yearly maximum, about 3 November (memory)
}

TEST(SunTimes, AreLongerThanTheDayWithoutRefraction) {
  // FAO-56 equation 34 leaves out refraction and the half disc: some 7 minutes at the equator.
  const SunTimes times = sun_times(2027, 9, 3, -20.0, 30.0, 2.0);
  EXPECT_NEAR(times.set_h - times.rise_h, daylight_hours(-20.0, 246) + 7.0 / 60.0, 0.1);
}

}  // namespace
}  // namespace drystage::models
