#include "models/water_need.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "models/heat_strain.h"
#include "models/heat_strain_table.h"

namespace drystage::models {
namespace {

constexpr double us_quart_l = 0.946352946;

// --- The temperate base -----------------------------------------------------------------------

// EFSA, Scientific opinion on dietary reference values for water (2010): adequate intakes, L/day.
TEST(WaterNeed, TemperateDayIsTheAdequateIntake) {
  EXPECT_EQ(temperate_water_l_per_day(35.0, Sex::male), 2.5);
  EXPECT_EQ(temperate_water_l_per_day(35.0, Sex::female), 2.0);
  EXPECT_EQ(temperate_water_l_per_day(80.0, Sex::male), 2.5);
  EXPECT_EQ(temperate_water_l_per_day(14.0, Sex::female), 2.0);
  EXPECT_EQ(temperate_water_l_per_day(13.0, Sex::male), 2.1);
  EXPECT_EQ(temperate_water_l_per_day(9.0, Sex::female), 1.9);
  EXPECT_EQ(temperate_water_l_per_day(8.0, Sex::male), 1.6);
  EXPECT_EQ(temperate_water_l_per_day(3.0, Sex::female), 1.3);
  EXPECT_EQ(temperate_water_l_per_day(1.5, Sex::male), 1.2);
  EXPECT_EQ(temperate_water_l_per_day(0.7, Sex::female), 1.0);
  EXPECT_EQ(temperate_water_l_per_day(0.2, Sex::male), 0.7);
  EXPECT_EQ(temperate_water_l_per_day(-1.0, Sex::male), 0.7);
}

TEST(WaterNeed, FoodCarriesAFifthOfIt) {
  EXPECT_DOUBLE_EQ(24.0 * base_drinking_l_per_h(35.0, Sex::male), 2.0);
  EXPECT_DOUBLE_EQ(24.0 * base_drinking_l_per_h(35.0, Sex::female), 2.0);
  EXPECT_DOUBLE_EQ(24.0 * base_drinking_l_per_h(8.0, Sex::female), 0.8 * 1.6);
  EXPECT_DOUBLE_EQ(24.0 * base_drinking_l_per_h(35.0, Sex::male, 0.0), 2.5);
  EXPECT_DOUBLE_EQ(24.0 * base_drinking_l_per_h(35.0, Sex::male, -3.0), 2.5);
  EXPECT_DOUBLE_EQ(base_drinking_l_per_h(35.0, Sex::male, 2.0), 0.0);
}

TEST(WaterNeed, BreathOfTheTemperateDayIsNotCountedTwice) {
  EXPECT_DOUBLE_EQ(extra_breath_g_per_h_m2(65.0, 20.0, 1.2), 0.0);
  EXPECT_DOUBLE_EQ(extra_breath_g_per_h_m2(65.0, 10.0, 1.2), 0.0);  // cooler: never below 0
  EXPECT_GT(extra_breath_g_per_h_m2(230.0, 40.0, 0.5), 20.0);
  EXPECT_LT(extra_breath_g_per_h_m2(230.0, 40.0, 0.5), 40.0);
}

TEST(WaterNeed, LossIsAddedToTheBaseAndNeverTakenFromIt) {
  EXPECT_DOUBLE_EQ(drinking_l_per_h(0.1, 450.0), 0.55);
  EXPECT_DOUBLE_EQ(drinking_l_per_h(0.1, -50.0), 0.1);
}

// TB MED 507: not more than 1½ quarts an hour and 12 quarts a day.
TEST(WaterNeed, CeilingsAreThoseOfThePublishedTable) {
  EXPECT_NEAR(most_drinking_l_per_h, 1.42, 0.005);
  EXPECT_NEAR(most_drinking_l_per_day, 11.36, 0.005);
}

// --- Published bands --------------------------------------------------------------------------

// Air temperature at which the simplified wet bulb globe temperature of the Australian Bureau of
// Meteorology (after ACSM 1984; fairly strong sun and light wind understood) has the value given:
// WBGT = 0.567 Ta + 0.393 e + 3.94, with e in hPa = RH/100 · 6.105 · exp(17.27 Ta/(237.7 + Ta)).
double vapour_hpa(double air_c, double humidity) {
  return humidity / 100.0 * 6.105 * std::exp(17.27 * air_c / (237.7 + air_c));
}

double air_for_wbgt_c(double wbgt_f, double humidity) {
  const double wbgt_c = (wbgt_f - 32.0) / 1.8;
  double low = 0.0;
  double high = 60.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2.0;
    const double reached = 0.567 * middle + 0.393 * vapour_hpa(middle, humidity) + 3.94;
    (reached < wbgt_c ? low : high) = middle;
  }
  return low;
}

struct HeatCategory {
  double wbgt_f;    // in the middle of the category
  double easy_min;  // minutes of work in the hour
  double easy_qt_h;
  double moderate_min;
  double moderate_qt_h;
};

// TB MED 507, fluid replacement table, heat categories 1 to 5 with their minutes of work and rest
// (the fifth, 90 °F and above, has no upper end: 94 °F here);
// easy work is 250 W and moderate 425 W; "individual differences and full sun or shade ± ¼ qt".
constexpr std::array<HeatCategory, 5> categories{{{80.0, 60.0, 0.50, 60.0, 0.75},
                                                  {83.5, 60.0, 0.50, 50.0, 0.75},
                                                  {86.5, 60.0, 0.75, 40.0, 0.75},
                                                  {89.0, 60.0, 0.75, 30.0, 0.75},
                                                  {94.0, 50.0, 1.00, 20.0, 1.00}}};

// What the reference gives, qt/h, for an hour of work and rest in the open: 20 K of sun (halfway
// between shade and full sun), a light wind of 1 m/s, 0.5 clo, and the temperate base.
double drinking_qt_h(double work_w, double work_min, double wbgt_f, double humidity) {
  HeatStrainInputs in;
  in.air_c = air_for_wbgt_c(wbgt_f, humidity);
  in.radiant_c = in.air_c + 20.0;
  in.vapour_pressure_kpa = vapour_hpa(in.air_c, humidity) / 10.0;
  in.air_speed_m_s = 1.0;
  const double surface_m2 = body_surface_m2(in.mass_kg, in.height_m);
  const auto loss_g_h = [&](double metabolic_w_m2) {
    in.metabolic_w_m2 = metabolic_w_m2;
    const double sweat =
        predicted_heat_strain(in).mean_sweat_w_m2 * grams_per_watt_hour * surface_m2;
    return sweat +
           surface_m2 * extra_breath_g_per_h_m2(metabolic_w_m2, in.air_c, in.vapour_pressure_kpa);
  };
  const double part = work_min / 60.0;
  const double loss =
      part * loss_g_h(work_w / surface_m2) + (1.0 - part) * loss_g_h(class_metabolic_w_m2.front());
  return drinking_l_per_h(base_drinking_l_per_h(25.0, Sex::male), loss) / us_quart_l;
}

TEST(WaterNeed, LandsInTheHourlyBandsOfTbMed507InDryAndMiddlingAir) {
  for (const double humidity : {20.0, 30.0, 40.0}) {
    for (const HeatCategory& row : categories) {
      SCOPED_TRACE(testing::Message() << "WBGT " << row.wbgt_f << " °F, " << humidity << " %");
      EXPECT_NEAR(drinking_qt_h(250.0, row.easy_min, row.wbgt_f, humidity), row.easy_qt_h, 0.25);
      EXPECT_NEAR(drinking_qt_h(425.0, row.moderate_min, row.wbgt_f, humidity), row.moderate_qt_h,
                  0.25);
    }
  }
}

// In damp air the same wet bulb globe temperature goes with cooler air, and the standard gives less
// sweat there than the table, which has one figure for all climates. The model stays inside the
// band or just below it in the first four categories and falls short by up to 0.45 qt/h in the
// fifth; it is never above the band.
TEST(WaterNeed, FallsShortOfTbMed507OnlyInDampAir) {
  for (const double humidity : {60.0, 75.0}) {
    for (const HeatCategory& row : categories) {
      SCOPED_TRACE(testing::Message() << "WBGT " << row.wbgt_f << " °F, " << humidity << " %");
      const double most_short = row.wbgt_f < 90.0 ? 0.30 : 0.45;
      const double easy = drinking_qt_h(250.0, row.easy_min, row.wbgt_f, humidity);
      EXPECT_LE(easy, row.easy_qt_h + 0.25);
      EXPECT_GE(easy, row.easy_qt_h - most_short);
      const double moderate = drinking_qt_h(425.0, row.moderate_min, row.wbgt_f, humidity);
      EXPECT_LE(moderate, row.moderate_qt_h + 0.25);
      EXPECT_GE(moderate, row.moderate_qt_h - most_short);
    }
  }
}

double day_at_rest_l(double air_c, Sex sex, double mass_kg, double height_m) {
  const double loss = body_surface_m2(mass_kg, height_m) *
                      water_loss_g_per_h_m2(WorkClass::resting, air_c, 1.2, 0.0, 0.3);
  return planning_water_l_per_day(30.0, sex) + 24.0 * loss / 1000.0;
}

// Sphere Handbook and WHO technical note 9: 2.5 to 3 L a day, drink and food together, to survive.
TEST(WaterNeed, ADayOfRestInTemperateShadeIsTheSurvivalRation) {
  for (const double air_c : {18.0, 20.0, 22.0, 24.0}) {
    EXPECT_GE(day_at_rest_l(air_c, Sex::male, 75.0, 1.80), 2.5) << air_c;
    EXPECT_LE(day_at_rest_l(air_c, Sex::male, 75.0, 1.80), 3.0) << air_c;
    EXPECT_GE(day_at_rest_l(air_c, Sex::female, 62.0, 1.65), 2.5) << air_c;
    EXPECT_LE(day_at_rest_l(air_c, Sex::female, 62.0, 1.65), 3.0) << air_c;
  }
}

// US Army survival manual FM 21-76: hard work in the sun at 43 °C takes 19 L a day. It does not say
// for how long; taken here: 8 h of the class `high` at 43 °C in full sun (35 K), light wind, dry
// air, the other 16 h at rest in shade that cools from 43 to 30 °C. Within a fifth.
TEST(WaterNeed, HardWorkInTheDesertSunTakesAboutNineteenLitres) {
  const double surface_m2 = body_surface_m2(75.0, 1.80);
  const double base_l_h = base_drinking_l_per_h(25.0, Sex::male);
  double total_l = 0.0;
  for (int hour = 0; hour < 24; ++hour) {
    const bool work = hour < 8;
    const double air_c = work ? 43.0 : 43.0 - 13.0 * (hour - 8) / 15.0;
    const double loss =
        surface_m2 * water_loss_g_per_h_m2(work ? WorkClass::high : WorkClass::resting, air_c, 1.2,
                                           work ? 35.0 : 0.0, 1.0);
    total_l += drinking_l_per_h(base_l_h, loss);
  }
  RecordProperty("millilitres", static_cast<int>(std::lround(1000.0 * total_l)));
  EXPECT_NEAR(total_l, 19.0, 3.8);
}

// ISO 7730 (Fanger), memory: a worker in comfort at 2.8 met (165 W/m²) evaporates 0.42 (165
// - 58.15) = 44.9 W/m² of sweat, 17.6 of which the class `low` does already. By 0.674 Wh/g that is
// 40 g.
TEST(WaterNeed, WorkInTheColdTakesTheSweatOfComfort) {
  EXPECT_NEAR(comfort_sweat_g_per_h_m2(165.0), (44.877 - 17.577) / 0.674, 0.1);
  EXPECT_EQ(comfort_sweat_g_per_h_m2(100.0), 0.0);
  EXPECT_EQ(comfort_sweat_g_per_h_m2(65.0), 0.0);
}

}  // namespace
}  // namespace drystage::models
