#include "models/road_load.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "models/atmosphere.h"

namespace drystage::models {
namespace {

constexpr Stretch road{
    .rolling = 0.015, .drag_area_m2 = 1.4, .air_density_kg_m3 = 1.2, .speed_m_s = 20};
constexpr Drivetrain diesel{.heating_mj_l = diesel_mj_l, .efficiency = 0.30};

TEST(RoadLoad, HeatingValuesAreThoseOfTheDepartmentOfEnergy) {
  // US DOE Alternative Fuels Data Center: Btu per US gallon.
  constexpr double mj_per_btu = 1055.056e-6;
  constexpr double l_per_gal = 3.785411784;
  EXPECT_NEAR(diesel_mj_l, 128488 * mj_per_btu / l_per_gal, 0.05);
  EXPECT_GE(petrol_mj_l, 112114 * mj_per_btu / l_per_gal - 0.06);
  EXPECT_LE(petrol_mj_l, 116090 * mj_per_btu / l_per_gal + 0.06);
}

TEST(RoadLoad, IsTheSumOfRollingAndDragByHand) {
  // 0.015 x 3000 x 9.80665 + 1.2 x 1.4 x 20^2 / 2 = 441.3 + 336 N.
  EXPECT_NEAR(resistance_n(road, 3000), 777.3, 0.01);
  const FuelDemand demand = fuel_demand(road, diesel, 100, {});
  EXPECT_NEAR(litres(demand, 3000), 777.3 * 100e3 / (0.30 * 35.8e6), 1e-4);
}

TEST(RoadLoad, IdlingCountsByTheHour) {
  Drivetrain idling = diesel;
  idling.idle_l_h = 1.2;
  const double more = litres(fuel_demand(road, idling, 144, {}), 3000) -
                      litres(fuel_demand(road, diesel, 144, {}), 3000);
  EXPECT_NEAR(more, 2 * 1.2, 1e-9);  // 144 km at 72 km/h
}

TEST(RoadLoad, ClimbingTakesTheWeightUpTheHill) {
  const double more = litres(fuel_demand(road, diesel, 50, {.climb_m = 800}), 3000) -
                      litres(fuel_demand(road, diesel, 50, {}), 3000);
  EXPECT_NEAR(more, 3000 * 9.80665 * 800 / (0.30 * 35.8e6), 1e-9);
}

TEST(RoadLoad, AGentleDescentGivesBackWhatTheClimbTook) {
  // 400 m down over 50 km, evenly: 0.8 %, less than rolling alone asks for. No brakes, and the
  // energy balances.
  const double flat = litres(fuel_demand(road, diesel, 50, {}), 3000);
  const double down =
      litres(fuel_demand(road, diesel, 50, {.descent_m = 400, .steepness = 0.008}), 3000);
  EXPECT_NEAR(flat - down, 3000 * 9.80665 * 400 / (0.30 * 35.8e6), 1e-9);
  const double up =
      litres(fuel_demand(road, diesel, 50, {.climb_m = 400, .steepness = 0.008}), 3000);
  EXPECT_NEAR(up + down, 2 * flat, 1e-9);
}

TEST(RoadLoad, RollingCountryIsNotFree) {
  // A thousand metres up and down over 100 km, by hand: 3 t on sealed road (0.013, 1.4 m2) at 85
  // km/h is held back by 825 N, 82.5 MJ. The climbs take 29.4 MJ more. On 20 km of 5 % down, 16.5
  // MJ are saved. That leaves 16 % more.
  const Stretch sealed{
      .rolling = 0.013, .drag_area_m2 = 1.4, .air_density_kg_m3 = 1.134, .speed_m_s = 85 / 3.6};
  ASSERT_NEAR(resistance_n(sealed, 3000), 825, 1);
  const double flat = litres(fuel_demand(sealed, diesel, 100, {}), 3000);
  const Hills hills{.climb_m = 1000, .descent_m = 1000, .steepness = 0.05};
  EXPECT_NEAR(litres(fuel_demand(sealed, diesel, 100, hills), 3000) / flat, 1.16, 0.005);
}

TEST(RoadLoad, HillsOfFivePercentOnAverageGiveBackAsMuchAsEvenOnesOfTheUsualSteepness) {
  // As much of each steepness from 0 to 10 %. At 947 N for 3 t the road is level with 3.2 %.
  const Stretch sealed{
      .rolling = 0.015, .drag_area_m2 = 1.6, .air_density_kg_m3 = 1.134, .speed_m_s = 85 / 3.6};
  double mixed_l = 0;
  constexpr int parts = 1000;
  for (int i = 0; i < parts; ++i) {
    const double slope = 0.10 * (i + 0.5) / parts;
    const Hills down{.descent_m = slope * 100e3 / parts, .steepness = slope};
    mixed_l += litres(fuel_demand(sealed, diesel, 100.0 / parts, down), 3000);
  }
  // The rest of the way, where it is not 6 %, is level.
  const Hills even{.descent_m = 5000, .steepness = usual_steepness};
  const double flat_l = litres(fuel_demand(sealed, diesel, 100, {}), 3000);
  const double even_l = litres(fuel_demand(sealed, diesel, 100, even), 3000);
  EXPECT_NEAR((flat_l - even_l) / (flat_l - mixed_l), 1, 0.01);
}

TEST(RoadLoad, LongDescentsGiveBackWhatWouldHaveBeenAskedForOnThem) {
  // 2000 m down in 100 km at the usual 6 %: 33 km need nothing, the rest is level.
  const double flat = litres(fuel_demand(road, diesel, 100, {}), 3000);
  const double down = litres(fuel_demand(road, diesel, 100, {.descent_m = 2000}), 3000);
  EXPECT_NEAR(down, flat * (1 - 2 / 0.06 / 100), 1e-9);
}

TEST(RoadLoad, HillsThatDoNotFitAreSteeper) {
  EXPECT_DOUBLE_EQ(fitting_steepness({.climb_m = 500, .descent_m = 500}, 100), usual_steepness);
  EXPECT_DOUBLE_EQ(fitting_steepness({.climb_m = 500, .descent_m = 500}, 10), 0.1);
  const Hills most{.climb_m = 600, .descent_m = 600};
  const double exact = litres(fuel_demand(road, diesel, 10, most), 3000);
  EXPECT_NEAR(
      exact,
      litres(fuel_demand(road, diesel, 10, {.climb_m = 600, .descent_m = 600, .steepness = 0.12}),
             3000),
      1e-12);
  // Five km need nothing.
  const double flat = litres(fuel_demand(road, diesel, 10, {}), 3000);
  EXPECT_NEAR(exact, flat / 2 + 3000 * 9.80665 * 600 / (0.30 * 35.8e6), 1e-9);
}

TEST(RoadLoad, ASteepDescentNeverMakesFuel) {
  EXPECT_NEAR(litres(fuel_demand(road, diesel, 10, {.descent_m = 2000}), 3000), 0, 1e-9);
  // Up and down again costs more than the level: what goes into the brakes is lost.
  const double hilly =
      litres(fuel_demand(road, diesel, 20, {.climb_m = 1500, .descent_m = 1500}), 3000);
  EXPECT_GT(hilly, litres(fuel_demand(road, diesel, 20, {}), 3000));
}

TEST(RoadLoad, ThinAirDragsLess) {
  Stretch high = road;
  high.air_density_kg_m3 = air_density_kg_m3(4000, standard_temperature_c(4000));
  Stretch low = road;
  low.air_density_kg_m3 = air_density_kg_m3(0, 15);
  const double drag_low = resistance_n(low, 0);
  const double drag_high = resistance_n(high, 0);
  // ICAO standard atmosphere: 0.8194 kg/m3 at 4000 m, 1.2250 at sea level (memory for 4000 m).
  EXPECT_NEAR(drag_high / drag_low, 0.8194 / 1.2250, 1e-3);
}

TEST(RoadLoad, CalibrationReproducesTheObservation) {
  Drivetrain train = diesel;
  train.idle_l_h = 1.0;
  train.efficiency = calibrated_efficiency(road, train, 0.112, 2900);
  EXPECT_GT(train.efficiency, 0.2);
  EXPECT_LT(train.efficiency, 0.4);
  EXPECT_NEAR(litres(fuel_demand(road, train, 100, {}), 2900), 11.2, 1e-9);
}

TEST(RoadLoad, CalibrationRefusesAnObservationBelowIdling) {
  Drivetrain train = diesel;
  train.idle_l_h = 10;
  EXPECT_EQ(calibrated_efficiency(road, train, 0.10, 2900), 0);
}

TEST(RoadLoad, AHeadwindIsDragAtTheSpeedOfBoth) {
  Stretch windy = road;
  windy.headwind_m_s = 10;
  Stretch fast = road;
  fast.speed_m_s = 30;
  EXPECT_DOUBLE_EQ(drag_n(windy), drag_n(fast));
  EXPECT_DOUBLE_EQ(resistance_n(windy, 3000) - resistance_n(road, 3000),
                   drag_n(windy) - drag_n(road));
}

TEST(RoadLoad, CalibratedRollingReproducesTheObservation) {
  Drivetrain train = diesel;
  train.idle_l_h = 1.0;
  Stretch sand = road;
  sand.speed_m_s = 6;
  sand.rolling = calibrated_rolling(sand, train, 0.22, 2900);
  EXPECT_NEAR(litres(fuel_demand(sand, train, 100, {}), 2900), 22, 1e-9);
  EXPECT_LT(calibrated_rolling(sand, train, 0.04, 2900), 0);
}

TEST(RoadLoad, TheUsersFigureIsRightAtItsMassAndFollowsTheMassByRolling) {
  const auto observed = [](const OwnUse& own) {
    return observed_demand(road, diesel, own, 100, {});
  };
  const FuelDemand demand = observed({.uses_l_km = 0.24, .mass_kg = 2900});
  EXPECT_NEAR(litres(demand, 2900), 24, 1e-9);
  EXPECT_NEAR(litres(demand, 3000) - 24, 0.015 * 100 * 9.80665 * 100e3 / (0.30 * 35.8e6), 1e-9);
  EXPECT_NEAR(litres(observed({.uses_l_km = 0.24}), 5000), 24, 1e-9);
  EXPECT_NEAR(litres(observed({.uses_l_km = 0.24, .more_n = 107.4}), 5000), 25, 1e-9);
}

RC_GTEST_PROP(RoadLoad, GrowsWithMassUnlessDownhillAndIsNeverNegative, ()) {
  const auto any = [](double low, double high) {
    return low + (high - low) * *rc::gen::inRange(0, 100001) / 1e5;
  };
  const Stretch stretch{.rolling = any(0.008, 0.2),
                        .drag_area_m2 = any(0.6, 4),
                        .air_density_kg_m3 = any(0.6, 1.4),
                        .speed_m_s = any(2, 36)};
  const double climb_m = any(0, 3000);
  const double descent_m = any(0, 3000);
  const FuelDemand demand =
      fuel_demand(stretch, diesel, any(1, 500),
                  {.climb_m = climb_m, .descent_m = descent_m, .steepness = any(0.005, 0.3)});
  const double light_kg = any(500, 6000);
  const double heavy_kg = light_kg + any(0, 2000);
  RC_ASSERT(litres(demand, light_kg) >= 0);
  // On the whole downhill a heavy vehicle is pulled the better: there it may use less.
  if (descent_m > climb_m) return;
  RC_ASSERT(litres(demand, heavy_kg) >= litres(demand, light_kg) - 1e-9);
}

}  // namespace
}  // namespace drystage::models
