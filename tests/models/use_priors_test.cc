#include "models/use_priors.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include "plan/vehicle.h"

namespace drystage::models::use_priors_test {
namespace {

TEST(UsePriors, OwnFiguresAreSurerThanTheModel) {
  EXPECT_LT(usual_drinking(true).prior.common_sd, usual_drinking(false).prior.common_sd);
  EXPECT_LT(usual_fuel(true).prior.common_sd, usual_fuel(false).prior.common_sd);
}

TEST(UsePriors, FuelIsTheLessSureTheSofterTheGround) {
  const std::vector<double> sd = usual_fuel(true).prior.part_sd;
  ASSERT_EQ(sd.size(), static_cast<std::size_t>(plan::surface_count));
  for (std::size_t i = 1; i < sd.size(); ++i) {
    EXPECT_GE(sd[i], sd[i - 1]);
  }
  const auto of = [&](plan::Surface surface) { return sd[static_cast<std::size_t>(surface)]; };
  EXPECT_DOUBLE_EQ(of(plan::Surface::sealed), 0.03);
  EXPECT_DOUBLE_EQ(of(plan::Surface::gravel), 0.08);
  EXPECT_DOUBLE_EQ(of(plan::Surface::track), 0.12);
  EXPECT_DOUBLE_EQ(of(plan::Surface::soft_sand), 0.25);
}

// What the trade says of fuel without a figure of one's own: within about a third; and of soft
// ground: from 0.6 to 1.6 times.
TEST(UsePriors, RangesAreThoseOfTheTrade) {
  const UseFactors model = learn(usual_fuel(false).prior, {});
  EXPECT_NEAR(model.common.high, 1.48, 0.02);
  EXPECT_NEAR(model.common.low, 0.68, 0.02);
  const UseFactors own = learn(usual_fuel(true).prior, {});
  EXPECT_NEAR(own.parts.back().high, 1.65, 0.05);
  EXPECT_NEAR(own.parts.back().low, 0.60, 0.02);
  EXPECT_NEAR(own.parts.front().high, 1.14, 0.01);
}

TEST(UsePriors, ManyDaysScatterLessThanOneInProportion) {
  const std::array<double, 1> one{10};
  const std::array<double, 4> four{10, 10, 10, 10};
  EXPECT_DOUBLE_EQ(scatter_of_days(usual_drinking(false), one), 1.5);
  EXPECT_DOUBLE_EQ(scatter_of_days(usual_drinking(false), four), 3);
  EXPECT_DOUBLE_EQ(scatter_of_days(usual_fuel(true), {}), 0);
}

// Closed form: each part by its own deviation, then all errors together.
TEST(UsePriors, TheMostThatIsUsualGrowsByTheFactorsAndTheErrors) {
  const UsualUse usual{{0.20, {0.0, 0.15}}, 0.0};
  const UseInterval exact{{10, 20}, 0, 0, 0, false, 0};
  EXPECT_NEAR(most_usual_use(usual, exact, 1), 10 * std::exp(0.20) + 20 * std::exp(0.25), 1e-12);
  EXPECT_NEAR(most_usual_use(usual, exact, 0), 30, 1e-12);
  const UseInterval read{{10, 20}, 0, 3, 4, false, 12};
  EXPECT_NEAR(most_usual_use(usual, read, 2) - most_usual_use(usual, exact, 2), 2 * 13, 1e-12);
  // The share of a normal distribution beyond either bound (any table).
  EXPECT_NEAR(0.5 * std::erfc(unusual_from / std::sqrt(2)), 0.10, 1e-4);
  EXPECT_NEAR(0.5 * std::erfc(loss_from / std::sqrt(2)), 1.0 / 741, 1e-5);
}

}  // namespace
}  // namespace drystage::models::use_priors_test
