#include "models/lid.h"

#include <gtest/gtest.h>

#include "models/atmosphere.h"

namespace drystage::models {
namespace {

// Enthalpy of saturated air at 101.325 kPa: ASHRAE Fundamentals, psychrometrics, table of moist air
// (memory).
TEST(MoistAir, HasTheEnthalpyOfTheTable) {
  const auto saturated = [](double air_c) {
    return moist_air_kj_kg(air_c, saturation_vapour_pressure_kpa(air_c));
  };
  EXPECT_NEAR(saturated(0), 9.47, 0.05);
  EXPECT_NEAR(saturated(4), 16.70, 0.1);
  EXPECT_NEAR(saturated(20), 57.56, 0.2);
  EXPECT_NEAR(saturated(30), 100.0, 0.5);
  // 30 °C and half saturated: 64 kJ/kg on the chart.
  EXPECT_NEAR(moist_air_kj_kg(30, 0.5 * saturation_vapour_pressure_kpa(30)), 64.2, 0.3);
  EXPECT_NEAR(moist_air_kj_kg(25, 0), 1.006 * 25, 1e-9);
}

TEST(WarmGoods, BringMassTimesHeatTimesKelvin) {
  // 4 L from 30 to 2 °C: 4 x 4.19 x 28 = 469 kJ.
  const double w_k = warm_goods_w_per_k(4, 14);
  EXPECT_NEAR(w_k * 28 * 14 * 3.6, 469.3, 0.1);
  EXPECT_DOUBLE_EQ(warm_goods_w_per_k(0, 14), 0);
}

TEST(ExchangedAir, BringsTheEnthalpyBetweenTheTwo) {
  // 45 L of air at 30 °C, half saturated: 0.877 m3 for each kg of dry air (ASHRAE chart), from 64.2
  // to 16.7 kJ/kg, twenty times a day.
  const double vapour_kpa = 0.5 * saturation_vapour_pressure_kpa(30);
  const double by_hand_kj = 20 * 0.045 / 0.877 * (64.2 - 16.7);
  EXPECT_NEAR(exchanged_air_w_per_k(45, 20, 14, 30, vapour_kpa, 4) * 26 * 14 * 3.6, by_hand_kj,
              0.01 * by_hand_kj);
  // Dry air: its own heat alone.
  const double dry_kj = 20 * 0.045 * 1.164 * 1.006 * 26;
  EXPECT_NEAR(exchanged_air_w_per_k(45, 20, 14, 30, 0, 4) * 26 * 14 * 3.6, dry_kj, 0.01 * dry_kj);
}

TEST(ExchangedAir, IsFiniteAndNotNegativeWhereverItIs) {
  for (double air_c = -30; air_c <= 55; air_c += 0.5) {
    for (const double vapour_kpa : {0.0, 0.5, 3.0, 7.0}) {
      const double w_k = exchanged_air_w_per_k(45, 20, 14, air_c, vapour_kpa, 4);
      EXPECT_GE(w_k, 0) << air_c;
      EXPECT_LT(w_k, 0.5) << air_c;
    }
  }
}

}  // namespace
}  // namespace drystage::models
