#include "models/metabolism.h"

#include <gtest/gtest.h>

#include <array>

namespace drystage::models {
namespace {

constexpr double kj_per_kcal = 4.184;

double basal_kcal(double mass_kg, double age_years, Sex sex) {
  return basal_kj_per_day(mass_kg, age_years, sex) / kj_per_kcal;
}

TEST(Metabolism, ClassesAreThoseOfIso8996) {
  EXPECT_EQ(metabolic_w_m2(WorkClass::resting), 65.0);
  EXPECT_EQ(metabolic_w_m2(WorkClass::low), 100.0);
  EXPECT_EQ(metabolic_w_m2(WorkClass::moderate), 165.0);
  EXPECT_EQ(metabolic_w_m2(WorkClass::high), 230.0);
  EXPECT_EQ(metabolic_w_m2(WorkClass::very_high), 290.0);
}

// FAO/WHO/UNU, Human energy requirements (2001), table 5.2 (memory): four of its lines.
TEST(Metabolism, BasalFollowsThePublishedLinesOfAdults) {
  EXPECT_NEAR(basal_kcal(70.0, 25.0, Sex::male), 15.057 * 70.0 + 692.2, 0.01);
  EXPECT_NEAR(basal_kcal(84.0, 51.0, Sex::male), 11.472 * 84.0 + 873.1, 0.01);
  EXPECT_NEAR(basal_kcal(62.0, 22.0, Sex::female), 14.818 * 62.0 + 486.6, 0.01);
  EXPECT_NEAR(basal_kcal(62.0, 34.0, Sex::female), 8.126 * 62.0 + 845.6, 0.01);
}

// The same lines as published in megajoules, for the other bands too (Schofield 1985, as quoted in
// general reference works): 0.249m-0.127, 0.095m+2.110, 0.074m+2.754, 0.049m+2.459 for males;
// 0.244m-0.130, 0.085m+2.033, 0.056m+2.898, 0.038m+2.755 for females. Rounded there to 3 places.
TEST(Metabolism, BasalOfChildrenAndTheOldAgreesWithTheLinesInMegajoules) {
  EXPECT_NEAR(basal_kj_per_day(11.0, 1.5, Sex::male), 249.0 * 11.0 - 127.0, 10.0);
  EXPECT_NEAR(basal_kj_per_day(22.0, 6.0, Sex::male), 95.0 * 22.0 + 2110.0, 10.0);
  EXPECT_NEAR(basal_kj_per_day(45.0, 13.0, Sex::male), 74.0 * 45.0 + 2754.0, 10.0);
  EXPECT_NEAR(basal_kj_per_day(70.0, 68.0, Sex::male), 49.0 * 70.0 + 2459.0, 10.0);
  EXPECT_NEAR(basal_kj_per_day(11.0, 1.5, Sex::female), 244.0 * 11.0 - 130.0, 10.0);
  EXPECT_NEAR(basal_kj_per_day(22.0, 6.0, Sex::female), 85.0 * 22.0 + 2033.0, 10.0);
  EXPECT_NEAR(basal_kj_per_day(45.0, 13.0, Sex::female), 56.0 * 45.0 + 2898.0, 10.0);
  EXPECT_NEAR(basal_kj_per_day(65.0, 68.0, Sex::female), 38.0 * 65.0 + 2755.0, 10.0);
}

// FAO/WHO/UNU (2001), chapter 5.4.1, worked example: women of 20 to 30 years and 55 kg have a basal
// metabolism of 5.45 MJ (1302 kcal) a day, and at an activity level of 1.85 need 10.08 MJ.
TEST(Metabolism, MatchesTheWorkedExampleOfTheSource) {
  const double basal = basal_kj_per_day(55.0, 25.0, Sex::female);
  EXPECT_NEAR(basal, 5450.0, 5.0);
  EXPECT_NEAR(basal / kj_per_kcal, 1302.0, 1.0);
  EXPECT_NEAR(basal * 1.85, 10080.0, 10.0);
}

TEST(Metabolism, BandsBeginAtTheirBirthday) {
  EXPECT_NEAR(basal_kcal(60.0, 29.99, Sex::male), 15.057 * 60.0 + 692.2, 0.01);
  EXPECT_NEAR(basal_kcal(60.0, 30.0, Sex::male), 11.472 * 60.0 + 873.1, 0.01);
  EXPECT_NEAR(basal_kcal(60.0, 60.0, Sex::male), 11.711 * 60.0 + 587.7, 0.01);
  EXPECT_EQ(basal_kcal(0.4, 0.0, Sex::male), 0.0);
}

// FAO/WHO/UNU (2001), chapter 5: sitting costs 1.5 times the basal rate (memory).
TEST(Metabolism, RestingIsSitting) { EXPECT_NEAR(activity_ratio(WorkClass::resting), 1.5, 0.05); }

// FAO/WHO/UNU (2001), table 5.3: light 1.40 to 1.69, active 1.70 to 1.99, vigorous 2.00 to 2.40.
TEST(Metabolism, ActivityLevelsLandInThePublishedBands) {
  const double idle = physical_activity_level({0.0, 1.0, 0.0, 0.0, 0.0});
  EXPECT_GE(idle, 1.3);
  EXPECT_LE(idle, 1.69);
  const double driving = physical_activity_level({0.0, 7.0, 1.0, 0.0, 0.0});
  EXPECT_GE(driving, 1.40);
  EXPECT_LE(driving, 1.69);
  const double field_work = physical_activity_level({0.0, 0.0, 5.0, 1.0, 0.0});
  EXPECT_GE(field_work, 1.70);
  EXPECT_LE(field_work, 1.99);
  const double digging = physical_activity_level({0.0, 2.0, 2.0, 5.0, 0.0});
  EXPECT_GE(digging, 2.00);
  EXPECT_LE(digging, 2.60);
}

TEST(Metabolism, ADayOfNamedHoursIsTheirMean) {
  // 24 h sitting, nobody asleep; and more hours than a day has, shrunk in proportion.
  EXPECT_NEAR(physical_activity_level({24.0, 0.0, 0.0, 0.0, 0.0}), 65.0 / 44.0, 1e-12);
  EXPECT_NEAR(physical_activity_level({24.0, 24.0, 0.0, 0.0, 0.0}), (65.0 + 100.0) / 88.0, 1e-12);
  // 20 h named leave 4 h of sleep.
  EXPECT_NEAR(physical_activity_level({20.0, 0.0, 0.0, 0.0, 0.0}),
              (20.0 * 65.0 / 44.0 + 4.0) / 24.0, 1e-12);
}

TEST(Metabolism, EnergyIsBasalTimesActivity) {
  const std::array<double, work_class_count> hours{0.0, 4.0, 1.0, 0.0, 0.0};
  EXPECT_DOUBLE_EQ(daily_energy_kj(77.0, 29.0, Sex::male, hours),
                   basal_kj_per_day(77.0, 29.0, Sex::male) * physical_activity_level(hours));
  // A man of 77 kg in camp: 2700 to 3200 kcal (common practice).
  EXPECT_GT(daily_energy_kj(77.0, 29.0, Sex::male, hours), 2600.0 * kj_per_kcal);
  EXPECT_LT(daily_energy_kj(77.0, 29.0, Sex::male, hours), 3200.0 * kj_per_kcal);
}

}  // namespace
}  // namespace drystage::models
