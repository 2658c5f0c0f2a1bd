#include "models/road_load.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <optional>

#include "engine/roads.h"
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

TEST(RoadLoad, RollingResistanceLiesInThePublishedBands) {
  using engine::surface_figures;
  using plan::Surface;
  // Carvill, Mechanical Engineer's Data Handbook: asphalt new 0.01, worn 0.02; gravel rolled 0.01,
  // loose 0.04; medium-hard soil 0.08; sand 0.1 to 0.2. Moyer, in Marks' Standard Handbook: hard
  // road 0.008, packed gravel 0.012, wet loose gravel 0.06.
  EXPECT_GE(surface_figures(Surface::sealed).rolling, 0.008);
  EXPECT_LE(surface_figures(Surface::sealed).rolling, 0.02);
  EXPECT_DOUBLE_EQ(surface_figures(Surface::worn_sealed).rolling, 0.02);
  EXPECT_DOUBLE_EQ(surface_figures(Surface::packed_gravel).rolling, 0.012);
  EXPECT_GE(surface_figures(Surface::gravel).rolling, 0.01);
  EXPECT_LE(surface_figures(Surface::gravel).rolling, 0.04);
  EXPECT_GE(surface_figures(Surface::loose_gravel).rolling, 0.04);
  EXPECT_LE(surface_figures(Surface::loose_gravel).rolling, 0.06);
  // A track: between loose gravel and medium-hard soil.
  EXPECT_GE(surface_figures(Surface::track).rolling, 0.04);
  EXPECT_LE(surface_figures(Surface::track).rolling, 0.08);
  EXPECT_GE(surface_figures(Surface::sand).rolling, 0.1);
  EXPECT_GE(surface_figures(Surface::soft_sand).rolling, surface_figures(Surface::sand).rolling);
  EXPECT_LE(surface_figures(Surface::soft_sand).rolling, 0.2);
}

TEST(RoadLoad, IsTheSumOfRollingAndDragByHand) {
  // 0.015 x 3000 x 9.80665 + 1.2 x 1.4 x 20^2 / 2 = 441.3 + 336 N.
  EXPECT_NEAR(resistance_n(road, 3000), 777.3, 0.01);
  const FuelDemand demand = fuel_demand(road, diesel, 100, 0, 0);
  EXPECT_NEAR(litres(demand, 3000), 777.3 * 100e3 / (0.30 * 35.8e6), 1e-4);
}

TEST(RoadLoad, IdlingCountsByTheHour) {
  Drivetrain idling = diesel;
  idling.idle_l_h = 1.2;
  const double more = litres(fuel_demand(road, idling, 144, 0, 0), 3000) -
                      litres(fuel_demand(road, diesel, 144, 0, 0), 3000);
  EXPECT_NEAR(more, 2 * 1.2, 1e-9);  // 144 km at 72 km/h
}

TEST(RoadLoad, ClimbingTakesTheWeightUpTheHill) {
  const double more = litres(fuel_demand(road, diesel, 50, 800, 0), 3000) -
                      litres(fuel_demand(road, diesel, 50, 0, 0), 3000);
  EXPECT_NEAR(more, 3000 * 9.80665 * 800 / (0.30 * 35.8e6), 1e-9);
}

TEST(RoadLoad, AGentleDescentGivesBackWhatTheClimbTook) {
  // 400 m down over 50 km is 0.8 %, less than rolling alone asks for: no brakes, energy balances.
  const double flat = litres(fuel_demand(road, diesel, 50, 0, 0), 3000);
  const double down = litres(fuel_demand(road, diesel, 50, 0, 400), 3000);
  EXPECT_NEAR(flat - down, 3000 * 9.80665 * 400 / (0.30 * 35.8e6), 1e-9);
  const double up = litres(fuel_demand(road, diesel, 50, 400, 0), 3000);
  EXPECT_NEAR(up + down, 2 * flat, 1e-9);
}

TEST(RoadLoad, ASteepDescentNeverMakesFuel) {
  EXPECT_NEAR(litres(fuel_demand(road, diesel, 10, 0, 2000), 3000), 0, 1e-9);
  // Up and down again costs more than the level: what goes into the brakes is lost.
  const double hilly = litres(fuel_demand(road, diesel, 20, 1500, 1500), 3000);
  EXPECT_GT(hilly, litres(fuel_demand(road, diesel, 20, 0, 0), 3000));
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
  EXPECT_NEAR(litres(fuel_demand(road, train, 100, 0, 0), 2900), 11.2, 1e-9);
}

TEST(RoadLoad, CalibrationRefusesAnObservationBelowIdling) {
  Drivetrain train = diesel;
  train.idle_l_h = 10;
  EXPECT_EQ(calibrated_efficiency(road, train, 0.10, 2900), 0);
}

TEST(RoadLoad, TheUsersFigureIsRightAtItsMassAndFollowsTheMassByRolling) {
  const FuelDemand demand = observed_demand(road, diesel, 0.24, 2900, 100, 0, 0);
  EXPECT_NEAR(litres(demand, 2900), 24, 1e-9);
  EXPECT_NEAR(litres(demand, 3000) - 24, 0.015 * 100 * 9.80665 * 100e3 / (0.30 * 35.8e6), 1e-9);
  EXPECT_NEAR(litres(observed_demand(road, diesel, 0.24, 0, 100, 0, 0), 5000), 24, 1e-9);
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
  const FuelDemand demand = fuel_demand(stretch, diesel, any(1, 500), climb_m, descent_m);
  const double light_kg = any(500, 6000);
  const double heavy_kg = light_kg + any(0, 2000);
  RC_ASSERT(litres(demand, light_kg) >= 0);
  // On the whole downhill a heavy vehicle is pulled the better: there it may use less.
  if (descent_m > climb_m) return;
  RC_ASSERT(litres(demand, heavy_kg) >= litres(demand, light_kg) - 1e-9);
}

plan::ObservedUse observed(plan::Surface surface, double uses_l_km,
                           std::optional<double> speed_km_h = {},
                           std::optional<double> mass_kg = {}) {
  plan::ObservedUse use;
  use.surface = surface;
  use.uses_l_km = uses_l_km;
  use.speed_km_h = speed_km_h;
  use.mass_kg = mass_kg;
  return use;
}

TEST(Roads, CalibrateTheVehicleByItsFirstObservationWithSpeedAndMass) {
  plan::Vehicle truck;
  truck.idle_l_h = 1.2;
  truck.observed = {observed(plan::Surface::soft_sand, 0.24),
                    observed(plan::Surface::sealed, 0.112, 90, 2900)};
  const Drivetrain train = engine::drivetrain(truck);
  // In the air of the observation, taken as 20 °C at 500 m.
  const double density = air_density_kg_m3(500, 20);
  const FuelDemand sealed =
      engine::fuel_demand(truck, train, plan::Surface::sealed, 90, 100, 0, 0, density);
  EXPECT_NEAR(litres(sealed, 2900), 11.2, 0.02);
  const FuelDemand sand =
      engine::fuel_demand(truck, train, plan::Surface::soft_sand, 20, 100, 0, 0, density);
  EXPECT_NEAR(litres(sand, 2900), 24, 1e-9);
}

TEST(Roads, KeepTheUsersFigureWhenItCannotCalibrate) {
  // Idling alone would use more than was observed: no efficiency explains it, yet it was observed.
  plan::Vehicle van;
  van.fuel = plan::FuelKind::petrol;
  van.idle_l_h = 4;
  van.observed = {observed(plan::Surface::track, 0.18, 20, 2000)};
  const FuelDemand demand =
      engine::fuel_demand(van, engine::drivetrain(van), plan::Surface::track, 20, 100, 0, 0, 1.134);
  EXPECT_NEAR(litres(demand, 2000), 18, 1e-6);
}

}  // namespace
}  // namespace drystage::models
