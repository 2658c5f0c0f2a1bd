#include "models/atmosphere.h"

#include <gtest/gtest.h>

#include <cmath>

namespace drystage::models {
namespace {

TEST(Atmosphere, MatchesTheIcaoDensities) {
  // ICAO standard atmosphere, Doc 7488.
  EXPECT_NEAR(standard_density_kg_m3(0.0), 1.2250, 5e-5);
  EXPECT_NEAR(standard_density_kg_m3(1000.0), 1.1117, 5e-5);
  EXPECT_NEAR(standard_density_kg_m3(2000.0), 1.0066, 5e-5);
}

TEST(Atmosphere, MatchesTheIcaoPressuresAndTemperatures) {
  // ICAO standard atmosphere, Doc 7488, by geometric height (memory).
  EXPECT_DOUBLE_EQ(standard_pressure_kpa(0.0), 101.325);
  EXPECT_NEAR(standard_pressure_kpa(1000.0), 89.876, 0.002);
  EXPECT_NEAR(standard_pressure_kpa(5000.0), 54.048, 0.002);
  EXPECT_DOUBLE_EQ(standard_temperature_c(0.0), 15.0);
  EXPECT_NEAR(standard_temperature_c(5000.0), 255.676 - 273.15, 0.001);
}

TEST(Atmosphere, MatchesTheFaoPressureOnItsWarmerSeaLevel) {
  // FAO-56 example 2: 1800 m, 81.8 kPa. FAO-56 takes 293 K at sea level.
  EXPECT_NEAR(pressure_kpa(1800.0, 293.0 - 273.15), 81.8, 0.05);
  EXPECT_LT(standard_pressure_kpa(1800.0), pressure_kpa(1800.0, 20.0));
}

TEST(Atmosphere, HotAirIsLighter) {
  EXPECT_NEAR(air_density_kg_m3(0.0, 15.0), 1.2250, 5e-5);
  // At the same pressure density goes as the inverse of absolute temperature: the gas law.
  EXPECT_NEAR(air_density_kg_m3(800.0, 40.0) / air_density_kg_m3(800.0, 0.0), 273.15 / 313.15,
              1e-12);
}

TEST(Atmosphere, HoldsElevationWithinTheTroposphere) {
  EXPECT_DOUBLE_EQ(standard_pressure_kpa(50000.0), standard_pressure_kpa(11000.0));
  EXPECT_DOUBLE_EQ(standard_pressure_kpa(-9000.0), standard_pressure_kpa(-5000.0));
  EXPECT_GT(standard_pressure_kpa(-100.0), 101.325);
}

TEST(Vapour, MatchesTheFaoSaturationPressures) {
  // FAO-56 example 3.
  EXPECT_NEAR(saturation_vapour_pressure_kpa(24.5), 3.075, 5e-4);
  EXPECT_NEAR(saturation_vapour_pressure_kpa(15.0), 1.705, 5e-4);
}

TEST(Vapour, MatchesTheFaoActualPressure) {
  // FAO-56 example 5: 25 and 18 °C, mean relative humidity 68 %: 1.78 kPa (memory).
  EXPECT_NEAR(daily_vapour_pressure_kpa(25.0, 18.0, 0.68), 1.78, 5e-3);
}

TEST(Vapour, DewPointTurnsSaturationRound) {
  for (double air_c = -40.0; air_c <= 60.0; air_c += 2.5) {
    EXPECT_NEAR(dew_point_c(saturation_vapour_pressure_kpa(air_c)), air_c, 1e-9);
  }
  EXPECT_NEAR(dew_point_c(0.0), -100.0, 1e-9);
  EXPECT_NEAR(dew_point_c(-1.0), -100.0, 1e-9);
}

TEST(Vapour, IsNoMoreThanSaturationHoweverDampTheAir) {
  EXPECT_DOUBLE_EQ(daily_vapour_pressure_kpa(30.0, 10.0, 1.5),
                   daily_vapour_pressure_kpa(30.0, 10.0, 1.0));
}

TEST(Vapour, StaysFiniteInImpossibleCold) {
  EXPECT_TRUE(std::isfinite(saturation_vapour_pressure_kpa(-300.0)));
  EXPECT_TRUE(std::isfinite(air_density_kg_m3(0.0, -300.0)));
}

}  // namespace
}  // namespace drystage::models
