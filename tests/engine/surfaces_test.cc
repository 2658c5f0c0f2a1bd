#include "engine/surfaces.h"

#include <gtest/gtest.h>

namespace drystage::engine {
namespace {

using plan::Surface;

double at_road_pressure(Surface surface) { return surface_figures(surface).rolling; }

TEST(Surfaces, RollingResistanceLiesInThePublishedBands) {
  // Carvill, Mechanical Engineer's Data Handbook: asphalt new 0.01, worn 0.02; gravel rolled 0.01,
  // loose 0.04; medium-hard soil 0.08; sand 0.1 to 0.2. Moyer, in Marks' Standard Handbook: hard
  // road 0.008, packed gravel 0.012, wet loose gravel 0.06. Engineering ToolBox: car tyres on
  // concrete and new asphalt 0.010 to 0.015, on rolled gravel 0.02, on loose gravel and solid sand
  // 0.04 to 0.08, on loose sand 0.2 to 0.4. Wong, Theory of Ground Vehicles (memory): asphalt
  // 0.013, rolled gravel 0.02, unpaved road 0.05, field 0.1 to 0.35.
  EXPECT_GE(at_road_pressure(Surface::sealed), 0.010);
  EXPECT_LE(at_road_pressure(Surface::sealed), 0.015);
  EXPECT_DOUBLE_EQ(at_road_pressure(Surface::worn_sealed), 0.02);
  EXPECT_NEAR(at_road_pressure(Surface::packed_gravel) - at_road_pressure(Surface::sealed),
              0.02 - 0.013, 1e-12);
  EXPECT_GE(at_road_pressure(Surface::gravel), 0.02);
  EXPECT_LE(at_road_pressure(Surface::gravel), 0.04);
  EXPECT_GE(at_road_pressure(Surface::loose_gravel), 0.04);
  EXPECT_LE(at_road_pressure(Surface::loose_gravel), 0.08);
  EXPECT_GE(at_road_pressure(Surface::track), 0.04);
  EXPECT_LE(at_road_pressure(Surface::track), 0.08);
  EXPECT_GE(at_road_pressure(Surface::sand), 0.1);
  EXPECT_GE(at_road_pressure(Surface::soft_sand), 0.15);
  EXPECT_LE(at_road_pressure(Surface::soft_sand), 0.35);
}

TEST(Surfaces, AreInTheOrderOfTheirRollingResistanceHoweverTheTyresAre) {
  for (const plan::Tyres tyres :
       {plan::Tyres::usual, plan::Tyres::road_pressure, plan::Tyres::lowered}) {
    for (int s = 1; s < plan::surface_count; ++s) {
      EXPECT_GT(rolling(static_cast<Surface>(s), tyres),
                rolling(static_cast<Surface>(s - 1), tyres));
    }
  }
}

// Ours: tyres let down roll harder themselves, and halve what sand takes beyond a sealed road.
TEST(Surfaces, OfSandTakeHalfWithTyresLetDown) {
  for (const Surface sand : {Surface::sand, Surface::soft_sand}) {
    const double at_road_pressure = rolling(sand, plan::Tyres::road_pressure);
    EXPECT_NEAR(rolling(sand, plan::Tyres::usual),
                tyre_rolling() + 0.006 + (at_road_pressure - tyre_rolling()) / 2, 1e-12);
  }
}

TEST(Surfaces, AreSlowerTheSofterTheyAre) {
  for (int s = 1; s < plan::surface_count; ++s) {
    EXPECT_LT(surface_figures(static_cast<Surface>(s)).speed_km_h,
              surface_figures(static_cast<Surface>(s - 1)).speed_km_h);
  }
}

}  // namespace
}  // namespace drystage::engine
