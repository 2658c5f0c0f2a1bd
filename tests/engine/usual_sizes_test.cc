// What things usually weigh and take up, against figures of the trade (common practice).
#include "engine/usual_sizes.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace drystage::engine {
namespace {

using plan::BatteryKind;

TEST(UsualSizes, OfCansAreThoseOfTheTrade) {
  // The standard steel fuel can of 20 L: about 4 kg, 47 by 35 by 17 cm.
  EXPECT_NEAR(usual_fuel_can_kg(20), 4, 0.5);
  EXPECT_NEAR(usual_fuel_can_kg(10), 2.4, 0.4);
  EXPECT_NEAR(usual_can_space * 20, 4.7 * 3.5 * 1.7, 1);
  EXPECT_NEAR(usual_container_kg(20), 1.2, 0.3);
  EXPECT_NEAR(usual_container_kg(10), 0.7, 0.2);
}

TEST(UsualSizes, OfBatteriesAreThoseOfTheTrade) {
  // 100 Ah at 12 V: 26 to 33 kg in lead, 10 to 14 kg in lithium iron phosphate; a block of some 33
  // by 17 by 22 cm.
  for (const BatteryKind lead : {BatteryKind::flooded, BatteryKind::agm}) {
    EXPECT_GE(usual_bank_kg(lead, 100, 12), 26);
    EXPECT_LE(usual_bank_kg(lead, 100, 12), 33);
  }
  EXPECT_GE(usual_bank_kg(BatteryKind::lfp, 100, 12.8), 10);
  EXPECT_LE(usual_bank_kg(BatteryKind::lfp, 100, 12.8), 14);
  EXPECT_NEAR(usual_bank_space_l_ah * 100, 3.3 * 1.7 * 2.2, 1);
  // Twice the voltage at the same Ah is twice the battery.
  EXPECT_DOUBLE_EQ(usual_bank_kg(BatteryKind::agm, 100, 24),
                   2 * usual_bank_kg(BatteryKind::agm, 100, 12));
}

TEST(UsualSizes, OfPanelsCabinetsAndTanksAreThoseOfTheTrade) {
  EXPECT_NEAR(usual_panel_kg(160), 11, 2);
  EXPECT_EQ(usual_panel_kg(0), 0);
  EXPECT_NEAR(usual_cabinet_kg(45), 18, 3);
  EXPECT_NEAR(usual_cabinet_space * 45, 7.2 * 4.0 * 4.3, 4);
  EXPECT_NEAR(usual_water_tank_kg(110), 8, 2);
  EXPECT_NEAR(usual_fuel_tank_kg(90), 18, 4);
}

TEST(UsualSizes, AreListedFromTheLeastOnAndOnceEach) {
  const auto rises = [](const auto& sizes) {
    return std::ranges::adjacent_find(sizes, std::greater_equal{}) == sizes.end();
  };
  EXPECT_TRUE(rises(usual_water_containers_l));
}

TEST(UsualSizes, OfMoreWeighMore) {
  for (double size = 5; size < 300; size += 5) {
    EXPECT_GT(usual_fuel_can_kg(size + 5), usual_fuel_can_kg(size));
    EXPECT_GT(usual_container_kg(size + 5), usual_container_kg(size));
    EXPECT_GT(usual_cabinet_kg(size + 5), usual_cabinet_kg(size));
    // Two small ones weigh more than one that holds as much, so nobody is told to take those.
    EXPECT_GT(2 * usual_fuel_can_kg(size), usual_fuel_can_kg(2 * size));
    EXPECT_GT(2 * usual_container_kg(size), usual_container_kg(2 * size));
  }
}

}  // namespace
}  // namespace drystage::engine
