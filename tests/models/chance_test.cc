// How likely something is, from how often it happened.

#include "models/chance.h"

#include <gtest/gtest.h>

#include <cmath>

namespace drystage::models {
namespace {

TEST(Chance, IsWilsons) {
  // Wilson (1927), by its formula: 8 of 10.
  const Chance chance = chance_of(8, 10);
  EXPECT_DOUBLE_EQ(chance.chance, 0.8);
  EXPECT_NEAR(chance.low, 0.490, 0.0005);
  EXPECT_NEAR(chance.high, 0.943, 0.0005);
  EXPECT_DOUBLE_EQ(half_width(chance), (chance.high - chance.low) / 2);
}

TEST(Chance, EndsWhereTheTrueOneWouldBeTwoDeviationsAway) {
  // The interval's ends p solve |p - x/n| = z sqrt(p (1 - p) / n).
  constexpr double z = 1.959963984540054;
  for (const auto& [times, trials] : {std::pair{3, 40}, {120, 4000}, {39, 40}}) {
    const Chance chance =
        chance_of(static_cast<std::uint64_t>(times), static_cast<std::uint64_t>(trials));
    for (const double end : {chance.low, chance.high}) {
      EXPECT_NEAR(std::abs(end - chance.chance), z * std::sqrt(end * (1 - end) / trials), 1e-12);
    }
  }
}

TEST(Chance, OfWhatNeverOrAlwaysHappenedIsNotCertain) {
  const Chance never = chance_of(0, 1000);
  EXPECT_EQ(never.chance, 0);
  EXPECT_EQ(never.low, 0);
  // z² / (n + z²).
  EXPECT_NEAR(never.high, 3.8414588 / 1003.8414588, 1e-9);
  const Chance always = chance_of(1000, 1000);
  EXPECT_EQ(always.high, 1);
  EXPECT_NEAR(always.low, 1 - never.high, 1e-12);
  EXPECT_EQ(chance_of(0, 0), (Chance{.chance = 0, .low = 0, .high = 1}));
}

}  // namespace
}  // namespace drystage::models
