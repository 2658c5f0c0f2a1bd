#include "models/punctures.h"

#include <gtest/gtest.h>

#include <boost/math/special_functions/gamma.hpp>
#include <cmath>

namespace drystage::models::punctures_test {
namespace {

constexpr double exact = 1e-12;

Punctures holes_alone(double mean) { return {.holes = mean, .cuts = 0}; }

// Tables of the Poisson distribution, as in every handbook of statistics (memory; by hand they are
// sums of e^-m m^n / n!).
TEST(Punctures, AreAtMostSoManyWithTheChancesOfTheTables) {
  const auto at_most = [](double mean, int n) {
    return chance_enough(holes_alone(mean), {.wheels = n, .repairs = 0});
  };
  EXPECT_NEAR(at_most(1, 0), 0.3679, 5e-5);
  EXPECT_NEAR(at_most(1, 1), 0.7358, 5e-5);
  EXPECT_NEAR(at_most(1, 2), 0.9197, 5e-5);
  EXPECT_NEAR(at_most(1, 3), 0.9810, 5e-5);
  EXPECT_NEAR(at_most(2, 4), 0.9473, 5e-5);
  EXPECT_NEAR(at_most(2, 5), 0.9834, 5e-5);
}

// P(N <= n) is the regularized gamma function Q(n + 1, mean): another way to the same (a
// library's).
TEST(Punctures, AreAtMostSoManyAsTheGammaFunctionHasIt) {
  for (const double mean : {0.001, 0.2, 1.0, 3.7, 12.0, 60.0}) {
    for (const int n : {0, 1, 2, 5, 20, 70, 200}) {
      EXPECT_NEAR(chance_enough(holes_alone(mean), {.wheels = n, .repairs = 0}),
                  boost::math::gamma_q(n + 1.0, mean), exact)
          << mean << ", " << n;
    }
  }
}

TEST(Punctures, AreTheSameWhetherARepairOrAWheelServesWhereNoneIsACut) {
  for (int wheels = 0; wheels <= 4; ++wheels) {
    EXPECT_NEAR(chance_enough(holes_alone(1.3), {.wheels = wheels, .repairs = 4 - wheels}),
                boost::math::gamma_q(5.0, 1.3), exact);
  }
}

// Every number of holes and of cuts, one by one: each cut takes a wheel, the rest is for the holes.
TEST(Punctures, AreCountedOneByOneWhereSomeAreCuts) {
  const auto chance_of = [](double mean, int n) {
    return std::exp(-mean + n * std::log(mean) - std::lgamma(n + 1.0));
  };
  const Punctures expected{.holes = 0.9, .cuts = 0.4};
  for (int wheels = 0; wheels <= 3; ++wheels) {
    for (int repairs = 0; repairs <= 5; ++repairs) {
      double sum = 0;
      for (int cuts = 0; cuts <= wheels; ++cuts) {
        for (int holes = 0; holes + cuts <= wheels + repairs; ++holes) {
          sum += chance_of(expected.holes, holes) * chance_of(expected.cuts, cuts);
        }
      }
      EXPECT_NEAR(chance_enough(expected, {.wheels = wheels, .repairs = repairs}), sum, exact);
    }
  }
}

// By hand: of mean 1, P(N <= 2) = 0.920 and P(N <= 3) = 0.981.
TEST(Punctures, NeedTheFewestSparesThatReachTheChance) {
  const Punctures one = holes_alone(1);
  EXPECT_EQ(spares_needed(one, {.wheels = 9, .repairs = 0}, 0.90), 2);
  EXPECT_EQ(spares_needed(one, {.wheels = 9, .repairs = 0}, 0.95), 3);
  EXPECT_EQ(spares_needed(one, {.wheels = 0, .repairs = 0}, 0.95), 3);
  EXPECT_EQ(spares_needed(one, {.wheels = 1, .repairs = 1}, 0.95), 3);
  EXPECT_EQ(spares_needed(holes_alone(0), {.wheels = 0, .repairs = 0}, 0.95), 0);
}

// By hand: of 0.2 cuts none comes with 0.819, at most one with 0.982, at most two with 0.999.
TEST(Punctures, NoNumberOfRepairsStandsForAWheel) {
  const Punctures expected{.holes = 0.6, .cuts = 0.2};
  EXPECT_EQ(spares_needed(expected, {.wheels = 0, .repairs = 50}, 0.95), 51);
  EXPECT_EQ(spares_needed(expected, {.wheels = 1, .repairs = 0}, 0.95), 2);
  EXPECT_LT(chance_enough(expected, {.wheels = 0, .repairs = 50}), 0.82);
  EXPECT_GT(chance_enough(expected, {.wheels = 1, .repairs = 50}), 0.98);
}

TEST(Punctures, SparesAreEnoughIfThereAreAsManyAsAreNeededAndOnlyThen) {
  for (const double holes : {0.0, 0.05, 0.5, 2.0, 9.0}) {
    for (const double cuts : {0.0, 0.02, 0.3, 1.5}) {
      for (const double chance : {0.5, 0.9, 0.95, 0.999}) {
        for (int wheels = 0; wheels <= 4; ++wheels) {
          for (int repairs = 0; repairs <= 6; ++repairs) {
            const Punctures expected{.holes = holes, .cuts = cuts};
            const Spares spares{.wheels = wheels, .repairs = repairs};
            const bool enough = chance_enough(expected, spares) >= chance;
            EXPECT_EQ(spares_needed(expected, spares, chance) <= wheels + repairs, enough);
          }
        }
      }
    }
  }
}

// Nobody has so many: but nothing breaks.
TEST(Punctures, OfAWayWithoutEndAreMoreThanCanBeCarried) {
  EXPECT_EQ(spares_needed({.holes = 2000, .cuts = 1000}, {.wheels = 2, .repairs = 5}, 0.95),
            5 + most_spares);
  EXPECT_DOUBLE_EQ(chance_enough({.holes = 2000, .cuts = 1000}, {.wheels = 2, .repairs = 5}), 0);
}

}  // namespace
}  // namespace drystage::models::punctures_test
