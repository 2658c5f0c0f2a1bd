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

TEST(Surfaces, AreSlowerTheSofterTheyAreAndSlowestOnRock) {
  double before_km_h = 130;
  for (int s = 0; s < plan::surface_count; ++s) {
    const double speed_km_h = surface_figures(static_cast<Surface>(s)).speed_km_h;
    EXPECT_GE(speed_km_h, surface_figures(Surface::rock).speed_km_h);
    if (static_cast<Surface>(s) == Surface::rock) continue;
    EXPECT_LT(speed_km_h, before_km_h);
    before_km_h = speed_km_h;
  }
}

// Common practice, from memory: a set of tyres on sealed road is worn out, at some 50,000 km,
// before it has had more than one or two punctures; on bad gravel and tracks one in one to three
// thousand km is no surprise; nothing is worse than rock.
TEST(Surfaces, HaveTheMorePuncturesTheRougherTheyAre) {
  const auto rate = [](Surface surface) { return surface_figures(surface).punctures_1000_km; };
  for (int s = 1; s <= static_cast<int>(Surface::rock); ++s) {
    EXPECT_GT(rate(static_cast<Surface>(s)), rate(static_cast<Surface>(s - 1)));
  }
  EXPECT_NEAR(rate(Surface::sealed) * 50, 1, 1);
  for (const Surface rough : {Surface::gravel, Surface::loose_gravel, Surface::track}) {
    EXPECT_GE(rate(rough), 1.0 / 3);
    EXPECT_LE(rate(rough), 1);
  }
  EXPECT_LT(rate(Surface::soft_sand), rate(Surface::gravel));
}

}  // namespace
}  // namespace drystage::engine
