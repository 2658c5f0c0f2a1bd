#include "models/solar_panel.h"

#include <gtest/gtest.h>

#include <cmath>

#include "plan/values.h"

namespace drystage::models {
namespace {

TEST(SolarPanel, CellIsAtNoctInTheConditionsThatDefineIt) {
  // IEC 61215: NOCT is the cell temperature at 800 W/m² and 20 °C air.
  for (const double noct_c : {42.0, 45.0, 48.5, 63.0}) {
    EXPECT_DOUBLE_EQ(cell_temperature_c(800.0, 20.0, noct_c), noct_c);
  }
  EXPECT_DOUBLE_EQ(cell_temperature_c(0.0, 31.0, 45.0), 31.0);
  EXPECT_DOUBLE_EQ(cell_temperature_c(-5.0, 31.0, 45.0), 31.0);
}

TEST(SolarPanel, UsuallyLosesWhatPvwattsDoes) {
  // PVWatts version 5 manual, NREL/TP-6A20-62641: soiling, shading, mismatch, wiring, connections,
  // first light, nameplate, age and availability, one after another. They are 14.08 % together.
  double kept = 1;
  for (const double loss_pct : {2.0, 3.0, 2.0, 2.0, 0.5, 1.5, 1.0, 0.0, 3.0}) {
    kept *= 1 - loss_pct / 100;
  }
  EXPECT_NEAR(1 - kept, 0.1408, 5e-5);
  EXPECT_NEAR(plan::default_number("power.charging.losses").value(), 1 - kept, 0.005);
}

TEST(SolarPanel, GivesItsRatingInTheRatingConditions) {
  EXPECT_DOUBLE_EQ(dc_power_w(1000.0, 25.0, 160.0, -0.0047), 160.0);
  EXPECT_DOUBLE_EQ(dc_power_w(500.0, 25.0, 160.0, -0.0047), 80.0);
  EXPECT_NEAR(dc_power_w(1000.0, 65.0, 160.0, -0.004), 160.0 * 0.84, 1e-12);
  EXPECT_GT(dc_power_w(1000.0, 0.0, 160.0, -0.004), 160.0);
}

TEST(SolarPanel, NeverTakesPower) {
  EXPECT_DOUBLE_EQ(dc_power_w(-10.0, 25.0, 160.0, -0.004), 0.0);
  EXPECT_DOUBLE_EQ(dc_power_w(1000.0, 400.0, 160.0, -0.004), 0.0);
  EXPECT_DOUBLE_EQ(dc_power_w(-10.0, 400.0, 160.0, -0.004), 0.0);
}

TEST(SolarPanel, PutsHeatAndLossesTogether) {
  // By hand: 35 + 25·1000/800 = 66.25 °C; 1 - 0.0047·41.25 = 0.806125; 160·0.806125·0.9.
  const SolarPanel panel{160.0, 45.0, -0.0047, 0.1};
  EXPECT_NEAR(panel_power_w(panel, 1000.0, 35.0), 116.082, 1e-9);
  EXPECT_DOUBLE_EQ(panel_power_w(panel, 0.0, 35.0), 0.0);
}

}  // namespace
}  // namespace drystage::models
