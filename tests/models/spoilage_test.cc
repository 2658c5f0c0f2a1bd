#include "models/spoilage.h"

#include <gtest/gtest.h>

#include <cmath>

namespace drystage::models {
namespace {

// Square-root spoilage model (Ratkowsky; Olley), worked figure published by DTU.
TEST(Spoilage, TwentyOneDaysAtFiveDegreesAreFortySevenAtZero) {
  EXPECT_NEAR(shelf_life_days(0.0, 21.0, 5.0), 47.2, 0.06);
}

TEST(Spoilage, TheRateIsOneAtZeroDegreesAndFourTimesThatAtTen) {
  EXPECT_DOUBLE_EQ(relative_spoilage_rate(0.0), 1.0);
  EXPECT_DOUBLE_EQ(relative_spoilage_rate(10.0), 4.0);
}

TEST(Spoilage, NothingAgesAtMinusTenOrBelow) {
  EXPECT_EQ(relative_spoilage_rate(-10.0), 0.0);
  EXPECT_EQ(relative_spoilage_rate(-25.0), 0.0);
  EXPECT_TRUE(std::isinf(hours_until_spent(0.3, -18.0, 10.0, 4.0)));
}

TEST(Spoilage, AtItsStatedTemperatureFoodKeepsAsLongAsStated) {
  EXPECT_NEAR(240.0 * shelf_life_used_per_h(4.0, 10.0, 4.0), 1.0, 1e-12);
  EXPECT_NEAR(hours_until_spent(0.25, 4.0, 10.0, 4.0), 180.0, 1e-9);
  EXPECT_EQ(hours_until_spent(1.0, -30.0, 10.0, 4.0), 0.0);
}

TEST(Spoilage, ALifeStatedForAFreezerErrsShort) {
  EXPECT_NEAR(shelf_life_days(-9.0, 100.0, -18.0), 100.0, 1e-9);
  EXPECT_NEAR(shelf_life_days(0.0, 100.0, -18.0), 1.0, 1e-9);
}

TEST(Spoilage, ALifeOfNothingIsSpentAtOnce) {
  EXPECT_EQ(hours_until_spent(0.0, 4.0, 0.0, 4.0), 0.0);
  EXPECT_EQ(shelf_life_used_per_h(-20.0, 0.0, 4.0), 0.0);
}

// FSANZ 2-hour/4-hour guide.
TEST(FoodClock, IsFineUnderTwoHoursThenToBeUsedThenToBeThrownAwayAfterFour) {
  EXPECT_EQ(food_clock(0.0), FoodClock::fine);
  EXPECT_EQ(food_clock(1.999), FoodClock::fine);
  EXPECT_EQ(food_clock(2.0), FoodClock::use_now);
  EXPECT_EQ(food_clock(4.0), FoodClock::use_now);
  EXPECT_EQ(food_clock(4.001), FoodClock::throw_away);
}

TEST(FoodClock, RunsBetweenFiveAndSixtyDegrees) {
  EXPECT_FALSE(food_clock_runs(5.0));
  EXPECT_TRUE(food_clock_runs(5.01));
  EXPECT_TRUE(food_clock_runs(59.9));
  EXPECT_FALSE(food_clock_runs(60.0));
}

// US Department of Agriculture, food safety basics: two hours out of the cold, one above 90 °F.
TEST(FoodClock, RunsTwiceAsFastAboveThirtyTwoDegrees) {
  EXPECT_DOUBLE_EQ(food_clock_rate(5.0), 0.0);
  EXPECT_DOUBLE_EQ(food_clock_rate(20.0), 1.0);
  EXPECT_DOUBLE_EQ(food_clock_rate(32.0), 1.0);
  EXPECT_DOUBLE_EQ(food_clock_rate(33.0), 2.0);
  EXPECT_DOUBLE_EQ(hours_until_use_now(0.0, 25.0), 2.0);
  EXPECT_DOUBLE_EQ(hours_until_use_now(0.0, 40.0), 1.0);
  EXPECT_DOUBLE_EQ(hours_until_throw_away(1.0, 40.0), 1.5);
}

TEST(FoodClock, RunsForTheWarmPartOfARise) {
  EXPECT_DOUBLE_EQ(mean_food_clock_rate(0.0, 10.0), 0.5);
  EXPECT_DOUBLE_EQ(mean_food_clock_rate(10.0, 0.0), 0.5);
  EXPECT_DOUBLE_EQ(mean_food_clock_rate(30.0, 34.0), 1.5);
  EXPECT_DOUBLE_EQ(mean_food_clock_rate(40.0, 40.0), 2.0);
  EXPECT_DOUBLE_EQ(mean_food_clock_rate(4.0, 4.0), 0.0);
}

TEST(FoodClock, SaysHowLongIsLeft) {
  EXPECT_DOUBLE_EQ(hours_until_use_now(0.5, 20.0), 1.5);
  EXPECT_DOUBLE_EQ(hours_until_throw_away(0.5, 20.0), 3.5);
  EXPECT_EQ(hours_until_use_now(3.0, 4.0), 0.0);
  EXPECT_TRUE(std::isinf(hours_until_throw_away(3.0, 4.0)));
  EXPECT_EQ(hours_until_throw_away(4.5, 4.0), 0.0);
}

}  // namespace
}  // namespace drystage::models
