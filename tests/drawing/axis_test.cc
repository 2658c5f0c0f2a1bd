// Axes: round steps, lines and numbers.
#include "drawing/axis.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace drystage::drawing {
namespace {

using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::Pointwise;

constexpr double close = 1e-9;

bool is_whole(double number) { return std::abs(std::remainder(number, 1.0)) < 1e-6; }

/// Whether a number is 1, 2 or 5 times a power of ten.
bool is_round(double number) {
  const double power = std::floor(std::log10(number) + close);
  const double digit = number / std::pow(10.0, power);
  return std::abs(digit - 1) < close || std::abs(digit - 2) < close || std::abs(digit - 5) < close;
}

TEST(RoundStep, IsTheNextOfOneTwoFiveTen) {
  EXPECT_DOUBLE_EQ(round_step(1), 1);
  EXPECT_DOUBLE_EQ(round_step(1.01), 2);
  EXPECT_DOUBLE_EQ(round_step(2.5), 5);
  EXPECT_DOUBLE_EQ(round_step(5.1), 10);
  EXPECT_DOUBLE_EQ(round_step(73), 100);
  EXPECT_DOUBLE_EQ(round_step(0.013), 0.02);
  EXPECT_DOUBLE_EQ(round_step(0.5), 0.5);
  EXPECT_DOUBLE_EQ(round_step(0.2), 0.2);
}

TEST(Axis, HasTheStepsThatOneWouldDrawByHand) {
  // 100 pt for 130: lines 5 pt apart or more come to 26 for each 20 lines, so 10.
  const Axis axis = axis_over(0, 130, 100, 5, 13);
  EXPECT_EQ(axis.low, 0);
  EXPECT_EQ(axis.high, 130);
  EXPECT_EQ(axis.fine, 10);
  EXPECT_EQ(axis.step, 20);
  EXPECT_EQ(axis.decimals, 0);
  EXPECT_THAT(axis.numbers(), ElementsAre(0, 20, 40, 60, 80, 100, 120));
  EXPECT_THAT(axis.fine_lines(), ElementsAre(10, 30, 50, 70, 90, 110, 130));
}

TEST(Axis, EndsAtTheNextLineBeyondWhatItShows) {
  const Axis axis = axis_over(-7.2, 41, 120, 5, 15);
  EXPECT_EQ(axis.fine, 5);
  EXPECT_EQ(axis.low, -10);
  EXPECT_EQ(axis.high, 45);
}

TEST(Axis, WritesAsManyDecimalsAsItsNumbersNeed) {
  const Axis axis = axis_over(0, 1, 100, 5, 15);
  EXPECT_EQ(axis.step, 0.2);
  EXPECT_EQ(axis.decimals, 1);
  EXPECT_THAT(axis.numbers(), Pointwise(DoubleNear(close), {0.0, 0.2, 0.4, 0.6, 0.8, 1.0}));
  EXPECT_EQ(axis_over(0, 3000, 100, 5, 15).decimals, 0);
}

TEST(Axis, HasNoNumberBetweenItsLines) {
  // Of fine lines 2 apart, 5 is no number though it is round.
  const Axis axis = axis_over(0, 40, 100, 5, 11);
  EXPECT_EQ(axis.fine, 2);
  EXPECT_EQ(axis.step, 10);
}

TEST(Scale, LeadsThereAndBack) {
  const Scale scale{.from = 10, .to = 30, .from_pt = 200, .to_pt = 100};
  EXPECT_DOUBLE_EQ(scale.at_pt(10), 200);
  EXPECT_DOUBLE_EQ(scale.at_pt(25), 125);
  EXPECT_DOUBLE_EQ(scale.number(125), 25);
}

RC_GTEST_PROP(AxisProperty, ShowsAllInRoundStepsFarEnoughApart, ()) {
  const double low = *rc::gen::inRange(-100000, 100000) / 100.0;
  const double span = *rc::gen::inRange(1, 1000000) / 1000.0;
  const double length_pt = *rc::gen::inRange(60, 600);
  const double fine_pt = *rc::gen::inRange(3, 10);
  const double step_pt = fine_pt + *rc::gen::inRange(0, 30);
  const Axis axis = axis_over(low, low + span, length_pt, fine_pt, step_pt);
  const double pt = length_pt / (axis.high - axis.low);
  RC_ASSERT(axis.low <= low + close * span);
  RC_ASSERT(axis.high >= low + span * (1 - close));
  RC_ASSERT(low - axis.low < axis.fine);
  RC_ASSERT(axis.high - (low + span) < axis.fine);
  RC_ASSERT(is_round(axis.fine));
  RC_ASSERT(is_round(axis.step));
  RC_ASSERT(is_whole(axis.step / axis.fine));
  RC_ASSERT(axis.step > axis.fine * 1.5);
  RC_ASSERT(axis.fine * pt >= fine_pt - 1e-6);
  RC_ASSERT(axis.step * pt >= step_pt - 1e-6);
  RC_ASSERT(is_whole(axis.low / axis.fine));
  RC_ASSERT(is_whole(axis.high / axis.fine));
  for (const double number : axis.numbers()) {
    RC_ASSERT(is_whole(number / axis.step));
    RC_ASSERT(is_whole(number * std::pow(10.0, axis.decimals)));
  }
  const auto lines = static_cast<double>(axis.numbers().size() + axis.fine_lines().size());
  RC_ASSERT(std::abs(lines - ((axis.high - axis.low) / axis.fine + 1)) < 1e-6);
}

}  // namespace
}  // namespace drystage::drawing
