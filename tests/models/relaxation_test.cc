#include "models/relaxation.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace drystage::models {
namespace {

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 1000001) / 1e6;
}

Relaxation any_temperature() {
  Relaxation q;
  q.start = between(-20, 20);
  q.speed1 = between(-30, 30);
  q.k1 = *rc::gen::element(0.0, 1e-6, 0.01, 1.0) * between(0, 3);
  q.speed2 = *rc::gen::element(0.0, 1.0) * between(-60, 60);
  q.k2 = q.k1 + between(0, 8);
  return q;
}

Relaxation any_heat() {
  Relaxation q;
  q.start = between(0, 1000);
  q.slope = between(-80, 80);
  q.bend = *rc::gen::element(0.0, 1.0) * between(-50, 50);
  q.k1 = *rc::gen::element(0.0, 0.01, 1.0) * between(0, 3);
  return q;
}

TEST(Relaxation, ApproachIsTheTimeItselfWhereNothingSlowsIt) {
  EXPECT_EQ(approach(0.0, 3.0), 3.0);
  EXPECT_NEAR(approach(2.0, 1.5), (1.0 - std::exp(-3.0)) / 2.0, 1e-15);
  EXPECT_NEAR(approach_integral(0.0, 3.0, 3.0), 4.5, 1e-14);
}

TEST(Relaxation, TheIntegralOfApproachHasNoSeamBetweenItsTwoForms) {
  const double low = approach_integral(0.02 * (1 - 1e-12), 1.0, approach(0.02 * (1 - 1e-12), 1.0));
  const double high = approach_integral(0.02 * (1 + 1e-12), 1.0, approach(0.02, 1.0));
  EXPECT_NEAR(low / high, 1.0, 1e-10);
}

TEST(Relaxation, FindsTheTimeAWarmingCabinetPassesATemperature) {
  // From 2 °C toward 30 °C at 0.5 per hour.
  const Relaxation q{.start = 2.0, .speed1 = 14.0, .k1 = 0.5};
  EXPECT_NEAR(first_at_or_above(q, 5.0, 10.0), std::log(28.0 / 25.0) / 0.5, 1e-13);
  EXPECT_NEAR(time_above(q, 5.0, 10.0), 10.0 - std::log(28.0 / 25.0) / 0.5, 1e-12);
  EXPECT_EQ(first_at_or_above(q, 31.0, 100.0), never);
  EXPECT_EQ(first_at_or_below(q, 1.0, 100.0), never);
}

TEST(Relaxation, FindsAPeakThatIsOverBeforeTheEnd) {
  // 3 e^-t up, 3 e^-2t down: rises to a peak of its own at ln 2.
  const Relaxation q{.start = 0.0, .speed1 = -3.0, .k1 = 1.0, .speed2 = 6.0, .k2 = 2.0};
  EXPECT_NEAR(q.turn(), std::log(2.0), 1e-14);
  const double peak = q.at(q.turn());
  EXPECT_GT(peak, q.at(5.0));
  Approaches end(5.0);
  EXPECT_DOUBLE_EQ(reach(q, end).high, peak);
  const double t = first_at_or_above(q, 0.9 * peak, 5.0);
  EXPECT_LT(t, q.turn());
  EXPECT_NEAR(q.at(t), 0.9 * peak, 1e-14);
}

RC_GTEST_PROP(Relaxation, ACrossingIsTheFirstOneAndIsOnTheTarget, ()) {
  const Relaxation q = *rc::gen::element(0, 1) == 0 ? any_temperature() : any_heat();
  const double end = between(0.01, 40);
  const double target = q.start + between(0.001, 60);
  const double t = first_at_or_above(q, target, end);
  const double until = std::min(t, end);
  for (int i = 0; i < 400; ++i) {
    RC_ASSERT(q.at(until * i / 400.0) <= target + 1e-9);
  }
  if (t <= end) {
    RC_ASSERT(std::abs(q.at(t) - target) < 1e-9);
  }
}

RC_GTEST_PROP(Relaxation, NeverLeavesItsReachNorThatItsOuterReach, ()) {
  const Relaxation q = *rc::gen::element(0, 1) == 0 ? any_temperature() : any_heat();
  const double end = between(0.01, 40);
  Approaches after(end);
  const Reach span = reach(q, after);
  const Reach outer = outer_reach(q, end);
  for (int i = 0; i <= 100; ++i) {
    const double value = q.at(end * i / 100.0);
    RC_ASSERT(value >= span.low - 1e-9 && value <= span.high + 1e-9);
  }
  RC_ASSERT(outer.low <= span.low + 1e-9 && outer.high >= span.high - 1e-9);
}

RC_GTEST_PROP(Relaxation, TimeAboveAgreesWithCounting, ()) {
  const Relaxation q = any_temperature();
  const double end = between(0.01, 20);
  const double target = q.start + between(-10, 10);
  constexpr int samples = 4000;
  int above = 0;
  for (int i = 0; i < samples; ++i) {
    above += q.at(end * (i + 0.5) / samples) > target ? 1 : 0;
  }
  RC_ASSERT(std::abs(time_above(q, target, end) - end * above / samples) <= 2.0 * end / samples);
}

RC_GTEST_PROP(Relaxation, WhatIsSweptIsTheIntegral, ()) {
  const Relaxation q = any_temperature();
  const double end = between(0.01, 4);
  Approaches after(end);
  RC_ASSERT(q.at(after) == q.at(end));
  const Relaxation::Moved whole = q.moved(after);
  RC_ASSERT(std::abs(q.start + whole.by - q.at(end)) < 1e-10);
  constexpr int pieces = 400;  // Simpson's rule
  const double h = end / pieces;
  double sum = 0.0;
  for (int i = 0; i < pieces; ++i) {
    sum += (q.at(i * h) + 4.0 * q.at((i + 0.5) * h) + q.at((i + 1) * h)) * h / 6.0;
  }
  RC_ASSERT(std::abs(whole.swept + q.start * end - sum) < 1e-6);
}

}  // namespace
}  // namespace drystage::models
