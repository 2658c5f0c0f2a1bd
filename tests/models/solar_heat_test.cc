#include "models/solar_heat.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

namespace drystage::models {
namespace {

// ASHRAE 55-2017, appendix C, validation table, as tabulated under the MIT licence for validating
// comfort models. Behind glass: `transmitted` is the part of the light that comes through, sky view
// and body in sun as given, floor reflectance 0.6, diffuse a fifth of the beam. The projected area
// factor is that of the standard's table at the altitude and azimuth of the row.
struct Row {
  double altitude_deg;
  double projected_factor;
  double beam_w_m2;
  double transmitted;
  double sky_view;
  double body_in_sun;
  double absorptivity;
  Posture posture;
  double field_w_m2;
  double excess_k;
};

constexpr auto sit = Posture::sitting;
constexpr auto stand = Posture::standing;

constexpr std::array<Row, 15> rows{{{45, 0.303, 700, 0.8, 0.2, 0.5, 0.7, sit, 64.9, 15.5},
                                    {0, 0.262, 800, 0.5, 0.5, 0.5, 0.7, sit, 43.3, 10.4},
                                    {60, 0.196, 800, 0.5, 0.5, 0.5, 0.7, sit, 63.2, 15.1},
                                    {90, 0.177, 800, 0.5, 0.5, 0.5, 0.7, sit, 65.3, 15.6},
                                    {30, 0.305, 800, 0.5, 0.5, 0.5, 0.7, sit, 63.1, 15.1},
                                    {30, 0.248, 800, 0.5, 0.5, 0.5, 0.7, sit, 57.2, 13.7},
                                    {30, 0.168, 800, 0.5, 0.5, 0.5, 0.7, sit, 49.0, 11.7},
                                    {30, 0.245, 800, 0.5, 0.5, 0.5, 0.7, stand, 59.3, 13.6},
                                    {30, 0.224, 400, 0.5, 0.5, 0.5, 0.7, sit, 27.4, 6.6},
                                    {30, 0.224, 1000, 0.5, 0.5, 0.5, 0.7, sit, 68.5, 16.4},
                                    {30, 0.224, 800, 0.7, 0.5, 0.5, 0.7, sit, 76.7, 18.4},
                                    {30, 0.224, 800, 0.5, 0.1, 0.5, 0.7, sit, 29.3, 7.0},
                                    {30, 0.224, 800, 0.5, 0.7, 0.5, 0.7, sit, 67.5, 16.2},
                                    {30, 0.224, 800, 0.5, 0.5, 0.7, 0.7, sit, 64.0, 15.3},
                                    {30, 0.224, 800, 0.5, 0.5, 0.5, 0.9, sit, 70.4, 16.9}}};

TEST(SolarHeat, MatchesTheValidationTableOfAshrae55) {
  for (const Row& row : rows) {
    const double sine = std::sin(row.altitude_deg * std::numbers::pi / 180.0);
    Sunlight light;
    light.beam_w_m2 = row.transmitted * row.beam_w_m2;
    light.diffuse_w_m2 = 0.2 * light.beam_w_m2;
    light.global_w_m2 = light.beam_w_m2 * sine + light.diffuse_w_m2;
    SunExposure exposure;
    exposure.sky_view = row.sky_view;
    exposure.body_in_sun = row.body_in_sun;
    exposure.absorptivity = row.absorptivity;
    exposure.ground_reflectance = 0.6;
    const double field =
        effective_radiant_field_w_m2(light, exposure, row.projected_factor, row.posture);
    SCOPED_TRACE(row.field_w_m2);
    EXPECT_NEAR(field, row.field_w_m2, 0.1);
    EXPECT_NEAR(radiant_excess_k(field, row.posture), row.excess_k, 0.1);
  }
}

// Fanger's rotationally symmetric standing person, 0.308 cos(h (1 - h²/48402)) with the altitude h
// in degrees (VDI 3787-2; memory): another measurement of the same bodies.
TEST(SolarHeat, StandingAreaIsCloseToThatOfARoundedPerson) {
  for (double altitude = 0.0; altitude <= 90.0; altitude += 5.0) {
    const double bent = altitude * (1.0 - altitude * altitude / 48402.0);
    const double rounded = 0.308 * std::cos(bent * std::numbers::pi / 180.0);
    EXPECT_NEAR(projected_area_factor(altitude, stand), rounded, 0.012) << altitude;
  }
}

TEST(SolarHeat, FullDesertSunWarmsByThirtyToFortyFiveKelvin) {
  // Field measurements of mean radiant temperature in full sun run 25 to 45 K above the air
  // (common practice).
  for (const double altitude : {30.0, 45.0, 60.0, 75.0}) {
    const double sine = std::sin(altitude * std::numbers::pi / 180.0);
    const double excess = sun_radiant_excess_k(850.0 * sine + 90.0, 90.0, altitude, stand);
    EXPECT_GT(excess, 25.0) << altitude;
    EXPECT_LT(excess, 45.0) << altitude;
  }
}

TEST(SolarHeat, NightGivesNothingAndTwilightOnlyTheSky) {
  EXPECT_EQ(sun_radiant_excess_k(0.0, 0.0, -20.0, stand), 0.0);
  EXPECT_EQ(sun_radiant_excess_k(-5.0, -5.0, 30.0, stand), 0.0);
  const SunExposure open;
  const double sky_only =
      0.5 * 40.0 * (1.0 + open.ground_reflectance) * (open.absorptivity / 0.95) / 6.0;
  EXPECT_NEAR(sun_radiant_excess_k(40.0, 40.0, 0.0, sit), sky_only, 1e-12);
}

TEST(SolarHeat, TheLastLightStaysFinite) {
  EXPECT_LT(sun_radiant_excess_k(60.0, 20.0, 0.01, stand), 25.0);
  EXPECT_LT(sun_radiant_excess_k(900.0, 0.0, 0.01, stand), 60.0);
  // Diffuse above global is taken as all of it.
  EXPECT_DOUBLE_EQ(sun_radiant_excess_k(100.0, 150.0, 30.0, sit),
                   sun_radiant_excess_k(100.0, 100.0, 30.0, sit));
}

TEST(SolarHeat, BodyInShadeOfTheBeamKeepsTheSkyAndTheGround) {
  SunExposure parasol;
  parasol.body_in_sun = 0.0;
  const double open = sun_radiant_excess_k(900.0, 100.0, 60.0, stand);
  const double shaded = sun_radiant_excess_k(900.0, 100.0, 60.0, stand, parasol);
  EXPECT_LT(shaded, open);
  EXPECT_GT(shaded, 0.0);
}

// Shade in a hot dry town in full summer sun: 5 to 10 K above the air (Middel and others, Bulletin
// of the American Meteorological Society 102, 2021; memory).
TEST(SolarHeat, OpenShadeOfAHotDayIsFiveToTenKelvinAboveTheAir) {
  EXPECT_GT(shade_radiant_excess_k(900.0, 120.0), 5.0);
  EXPECT_LT(shade_radiant_excess_k(1000.0, 120.0), 10.5);
  EXPECT_EQ(shade_radiant_excess_k(0.0, 0.0), 0.0);
  for (const double altitude : {5.0, 20.0, 50.0, 90.0}) {
    EXPECT_LT(shade_radiant_excess_k(500.0, 100.0),
              sun_radiant_excess_k(500.0, 100.0, altitude, stand));
  }
}

}  // namespace
}  // namespace drystage::models
