#include "models/food_properties.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>

namespace drystage::models {
namespace {

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 1000001) / 1e6;
}

// Earle, Unit Operations in Food Processing, appendix 7 (after ASHRAE): beef of 75 % water has
// 3.22 and 1.67 kJ/(kg K) and 255 kJ/kg. The table was measured; the rule by water fraction is
// Earle's own, and comes within 5 % of it.
TEST(FoodProperties, TheRuleByWaterFractionComesNearTheTabulatedBeef) {
  const FoodThermal beef = food_thermal(0.75, -2.0);
  EXPECT_NEAR(beef.above_kj_kg_k, 3.22, 0.05 * 3.22);
  EXPECT_NEAR(beef.below_kj_kg_k, 1.67, 0.08 * 1.67);
  EXPECT_NEAR(beef.latent_kj_kg, 255.0, 0.05 * 255.0);
  EXPECT_DOUBLE_EQ(beef.freezing_c, -2.0);
}

// Earle: c = 4.19 p + 0.84 (1 - p), 2.1 p + 0.84 (1 - p), 335 p; worked here by hand for p = 0.6.
TEST(FoodProperties, FollowsTheRuleByWaterFraction) {
  const FoodThermal food = food_thermal(0.6);
  EXPECT_NEAR(food.above_kj_kg_k, 2.514 + 0.336, 1e-12);
  EXPECT_NEAR(food.below_kj_kg_k, 1.26 + 0.336, 1e-12);
  EXPECT_NEAR(food.latent_kj_kg, 201.0, 1e-12);
  EXPECT_DOUBLE_EQ(food.freezing_c, -1.0);
}

TEST(FoodProperties, MovesAnImpossibleWaterFractionToTheNearestPossible) {
  EXPECT_DOUBLE_EQ(food_thermal(1.4).latent_kj_kg, 335.0);
  EXPECT_DOUBLE_EQ(food_thermal(-0.1).latent_kj_kg, 0.0);
}

TEST(FoodProperties, EnthalpyHasAStepOfTheLatentHeatAtTheFreezingPoint) {
  const FoodThermal food = food_thermal(0.73);
  EXPECT_DOUBLE_EQ(food_enthalpy_kj_kg(food, 0.0), 0.0);
  EXPECT_NEAR(food_enthalpy_kj_kg(food, -1.0 + 1e-9) - food_enthalpy_kj_kg(food, -1.0),
              food.latent_kj_kg, 1e-6);
  // From -18 °C to +4 °C, by hand: 17 K frozen, the latent heat, 5 K thawed.
  EXPECT_NEAR(food_enthalpy_kj_kg(food, 4.0) - food_enthalpy_kj_kg(food, -18.0),
              17 * (2.1 * 0.73 + 0.84 * 0.27) + 335 * 0.73 + 5 * (4.19 * 0.73 + 0.84 * 0.27), 1e-9);
}

TEST(FoodProperties, StaysAtTheFreezingPointWhileItMelts) {
  const FoodThermal food = food_thermal(0.5, -1.5);
  const double half = frozen_end_kj_kg(food) + 0.5 * food.latent_kj_kg;
  EXPECT_DOUBLE_EQ(food_temperature_c(food, half), -1.5);
  EXPECT_NEAR(thawed_fraction(food, half), 0.5, 1e-12);
  EXPECT_DOUBLE_EQ(thawed_fraction(food, frozen_end_kj_kg(food) - 1.0), 0.0);
  EXPECT_DOUBLE_EQ(thawed_fraction(food, thawed_end_kj_kg(food) + 1.0), 1.0);
}

TEST(FoodProperties, IceHoldsThreeHundredAndThirtyFiveKilojoulesPerKilogram) {
  EXPECT_DOUBLE_EQ(food_enthalpy_kj_kg(ice_thermal(), 0.0), -335.0);
  EXPECT_DOUBLE_EQ(ice_thermal().below_kj_kg_k, 2.1);
}

TEST(FoodProperties, AMixtureHoldsTheHeatOfItsParts) {
  const std::array portions{FoodPortion{food_thermal(0.73, -1.7), 6.0},
                            FoodPortion{food_thermal(0.9, -0.6), 2.0},
                            FoodPortion{food_thermal(0.5), 0.0}};
  const FoodThermal mix = mix_foods(portions);
  EXPECT_NEAR(8.0 * mix.latent_kj_kg, 6.0 * 335 * 0.73 + 2.0 * 335 * 0.9, 1e-9);
  EXPECT_NEAR(8.0 * mix.above_kj_kg_k,
              6.0 * portions[0].food.above_kj_kg_k + 2.0 * portions[1].food.above_kj_kg_k, 1e-12);
  EXPECT_GT(mix.freezing_c, -1.7);
  EXPECT_LT(mix.freezing_c, -0.6);
}

TEST(FoodProperties, AnEmptyMixtureIsNothing) {
  const FoodThermal mix = mix_foods({});
  EXPECT_EQ(mix.above_kj_kg_k, 0.0);
  EXPECT_EQ(mix.latent_kj_kg, 0.0);
  EXPECT_EQ(food_temperature_c(mix, 12.0), 0.0);
}

RC_GTEST_PROP(FoodProperties, TemperatureAndEnthalpyAreEachOthersInverse, ()) {
  const FoodThermal food = food_thermal(between(0, 1), between(-4, 0));
  const double t = between(-40, 40);
  const double back = food_temperature_c(food, food_enthalpy_kj_kg(food, t));
  RC_ASSERT(std::abs(back - t) < 1e-9);
}

RC_GTEST_PROP(FoodProperties, MoreHeatIsNeverColder, ()) {
  const FoodThermal food = food_thermal(between(0, 1), between(-4, 0));
  const double h = between(-500, 200);
  const double more = h + between(0, 100);
  RC_ASSERT(food_temperature_c(food, more) >= food_temperature_c(food, h));
  RC_ASSERT(thawed_fraction(food, more) >= thawed_fraction(food, h));
}

}  // namespace
}  // namespace drystage::models
