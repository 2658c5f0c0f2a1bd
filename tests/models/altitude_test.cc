#include "models/altitude.h"

#include <gtest/gtest.h>

#include "models/water_need.h"

namespace drystage::models {
namespace {

// Arterial carbon dioxide of people used to the altitude: 35 mmHg at 3100 m, 27 to 31 at 4300 m, 23
// at 5800 m against 40 at sea level (West, High Altitude Medicine and Physiology; memory). What is
// breathed is inverse to it.
TEST(Altitude, BreathingGrowsAsTheGasInTheLungsFalls) {
  EXPECT_NEAR(breathing_factor(3100), 40.0 / 35.0, 0.03);
  EXPECT_NEAR(breathing_factor(4300), 40.0 / 29.0, 0.07);
  EXPECT_NEAR(breathing_factor(5800), 40.0 / 23.0, 0.05);
}

TEST(Altitude, ChangesNothingBelow2000Metres) {
  for (const double elevation_m : {-400.0, 0.0, 1500.0, 2000.0}) {
    EXPECT_EQ(breathing_factor(elevation_m), 1.0) << elevation_m;
    EXPECT_EQ(altitude_base_share(elevation_m), 0.0) << elevation_m;
  }
}

TEST(Altitude, RisesWithoutAStepAndNeverFalls) {
  for (double elevation_m = 1900; elevation_m < 7000; elevation_m += 10) {
    const double share = altitude_base_share(elevation_m + 10) - altitude_base_share(elevation_m);
    EXPECT_GE(share, 0.0) << elevation_m;
    EXPECT_LT(share, 0.005) << elevation_m;
    const double breathing = breathing_factor(elevation_m + 10) - breathing_factor(elevation_m);
    EXPECT_GE(breathing, 0.0) << elevation_m;
    EXPECT_LT(breathing, 0.005) << elevation_m;
  }
}

// Ours: none at 2000 m, half of it half-way, all of it from 4000 m on.
TEST(Altitude, RaisesTheBaseByHalfFrom4000MetresOn) {
  EXPECT_NEAR(altitude_base_share(3000), 0.25, 1e-12);
  EXPECT_LT(altitude_base_share(3900), 0.5);
  EXPECT_NEAR(altitude_base_share(4000), 0.5, 1e-12);
  EXPECT_NEAR(altitude_base_share(6000), 0.5, 1e-12);
}

// US Army TB MED 505 (memory): 3 to 4 L a day to drink at 4000 m and above.
TEST(Altitude, ADayOfRestAt4000MetresTakesThreeLitres) {
  const double base_l = 24 * base_drinking_l_per_h(35, Sex::male);
  for (const double elevation_m : {4000.0, 4500.0, 5500.0}) {
    const double litres = base_l * (1 + altitude_base_share(elevation_m));
    EXPECT_GE(litres, 3.0) << elevation_m;
    EXPECT_LE(litres, 4.0) << elevation_m;
  }
}

}  // namespace
}  // namespace drystage::models
