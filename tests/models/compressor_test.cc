#include "models/compressor.h"

#include <gtest/gtest.h>

namespace drystage::models::compressor_test {
namespace {

// A cabinet of about 45 L rated 0.9 A at 12 V in 32 °C with 4 °C inside. Common practice.
constexpr RatedDraw rated{.mean_w = 0.9 * 12.0, .ambient_c = 32.0, .inside_c = 4.0};

double draw_a(double ambient_c, double inside_c) {
  const Compressor compressor = rated_compressor(rated);
  const double load_w = rated_leak_w_per_k(rated) * (ambient_c - inside_c);
  return steady_duty(compressor, load_w, ambient_c, inside_c).mean_w / 12.0;
}

// By hand: evaporator -6 °C = 267.15 K, condenser 47 °C, lift 53 K.
TEST(Compressor, CoefficientIsTheFractionOfCarnotBetweenEvaporatorAndCondenser) {
  EXPECT_NEAR(cooling_cop(0.35, 32.0, 4.0), 0.35 * 267.15 / 53.0, 1e-12);
}

TEST(Compressor, GivesBackItsRatingAtTheRatedPoint) {
  EXPECT_NEAR(draw_a(32.0, 4.0), 0.9, 1e-12);
  const Compressor compressor = rated_compressor(rated);
  EXPECT_NEAR(compressor.running_w, 43.2, 1e-12);
  EXPECT_NEAR(steady_duty(compressor, rated_leak_w_per_k(rated) * 28.0, 32.0, 4.0).duty, 0.25,
              1e-12);
}

// Common practice: such a cabinet set near 2 °C wants about half an ampere in mild weather, and
// between one and two in great heat.
TEST(Compressor, DrawsAPlausibleCurrentInMildAndHotWeather) {
  EXPECT_GT(draw_a(22.0, 2.0), 0.4);
  EXPECT_LT(draw_a(22.0, 2.0), 0.8);
  EXPECT_GT(draw_a(38.0, 2.0), 1.1);
  EXPECT_LT(draw_a(38.0, 2.0), 1.7);
  EXPECT_GT(draw_a(43.0, 2.0), 1.4);
  EXPECT_LT(draw_a(43.0, 2.0), 2.1);
}

// Common practice: the walls of such a cabinet pass about half a watt to a watt per kelvin.
TEST(Compressor, TheWallsOfARatedCabinetAreAsLeakyAsSuchWallsAre) {
  EXPECT_GT(rated_leak_w_per_k(rated), 0.4);
  EXPECT_LT(rated_leak_w_per_k(rated), 1.0);
}

TEST(Compressor, OwnRunningPowerWins) { EXPECT_EQ(rated_compressor(rated, 55.0).running_w, 55.0); }

TEST(Compressor, RunsWithoutAPauseAndFailsToHoldUnderTooGreatALoad) {
  const Compressor compressor = rated_compressor(rated);
  const double most_w = cooling_capacity_w(compressor, 40.0, 2.0);
  EXPECT_TRUE(steady_duty(compressor, 0.999 * most_w, 40.0, 2.0).holds);
  const SteadyDuty over = steady_duty(compressor, 1.001 * most_w, 40.0, 2.0);
  EXPECT_FALSE(over.holds);
  EXPECT_EQ(over.duty, 1.0);
  EXPECT_EQ(over.mean_w, compressor.running_w);
}

TEST(Compressor, StandsStillWithoutALoad) {
  const Compressor compressor = rated_compressor(rated);
  EXPECT_EQ(steady_duty(compressor, 0.0, 2.0, 4.0).mean_w, 0.0);
  EXPECT_EQ(steady_duty(compressor, -5.0, -2.0, 4.0).mean_w, 0.0);
}

TEST(Compressor, StaysFiniteWhereTheInsideIsWarmerThanTheSurroundings) {
  EXPECT_NEAR(cooling_cop(0.35, 0.0, 60.0), 0.35 * 323.15 / least_lift_k, 1e-9);
  EXPECT_EQ(rated_leak_w_per_k({.mean_w = 10.0, .ambient_c = 4.0, .inside_c = 4.0}), 0.0);
}

TEST(Compressor, WorksHarderTheHotterItIsOutsideAndTheColderInside) {
  EXPECT_GT(cooling_cop(0.35, 25.0, 4.0), cooling_cop(0.35, 35.0, 4.0));
  EXPECT_GT(cooling_cop(0.35, 25.0, 4.0), cooling_cop(0.35, 25.0, -18.0));
}

}  // namespace
}  // namespace drystage::models::compressor_test
