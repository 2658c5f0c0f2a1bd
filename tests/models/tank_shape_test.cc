#include "models/tank_shape.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

namespace drystage::models {
namespace {

constexpr double pi = std::numbers::pi;

double random_share() { return *rc::gen::inRange(0, 1'000'001) / 1e6; }

// The chord of a circle of diameter 1, summed from the bottom up with the midpoint rule in the
// angle (where it is smooth), over the circle's area.
double summed_segment(double depth_share) {
  constexpr int strips = 4000;
  const double end = std::acos(1 - 2 * depth_share);  // depth = (1 - cos a) / 2
  double area = 0;
  for (int i = 0; i < strips; ++i) {
    const double a = end * (i + 0.5) / strips;
    area += std::sin(a) * (std::sin(a) / 2) * end / strips;  // chord times rise of the depth
  }
  return area / (pi / 4);
}

TEST(TankShape, UprightWallsHoldTheShareOfTheirHeight) {
  for (const double share : {0.0, 0.1, 0.25, 0.5, 0.9, 1.0}) {
    EXPECT_EQ(filled_share(Walls::upright, share), share);
    EXPECT_EQ(depth_share(Walls::upright, share), share);
  }
}

// At a quarter of the depth the angle is 120 degrees: 1/3 - sqrt(3) / 4 pi.
TEST(TankShape, ALyingCylinderHasItsClosedFormAtQuartersOfTheDepth) {
  const double quarter = 1.0 / 3 - std::sqrt(3.0) / (4 * pi);
  EXPECT_EQ(filled_share(Walls::lying_cylinder, 0), 0);
  EXPECT_NEAR(filled_share(Walls::lying_cylinder, 0.25), quarter, 1e-15);
  EXPECT_NEAR(filled_share(Walls::lying_cylinder, 0.5), 0.5, 1e-15);
  EXPECT_NEAR(filled_share(Walls::lying_cylinder, 0.75), 1 - quarter, 1e-15);
  EXPECT_EQ(filled_share(Walls::lying_cylinder, 1), 1);
}

// Published: a segment 5 high in a circle of radius 10 has 61.4185 of its 314.159 (a worked
// example at calculatorlib.com/circle-fill-percentage-calculator).
TEST(TankShape, ALyingCylinderAgreesWithAPublishedExample) {
  EXPECT_NEAR(filled_share(Walls::lying_cylinder, 5.0 / 20.0) * 100 * pi, 61.4185, 5e-5);
}

// The quarter-tank problem: a - sin a = pi / 2 has a = pi / 2 + d with d = cos d, the number
// 0.73908513321516064 (sequence A003957 of the encyclopedia of integer sequences).
TEST(TankShape, AQuarterOfALyingCylinderIsWhereTheQuarterTankProblemHasIt) {
  const double d = 0.73908513321516064;
  const double depth = (1 - std::cos((pi / 2 + d) / 2)) / 2;
  EXPECT_NEAR(depth_share(Walls::lying_cylinder, 0.25), depth, 1e-12);
  EXPECT_NEAR(depth_share(Walls::lying_cylinder, 0.75), 1 - depth, 1e-12);
}

TEST(TankShape, WhatIsBeyondIsTakenForTheNearerEnd) {
  for (const Walls walls : {Walls::upright, Walls::lying_cylinder}) {
    EXPECT_EQ(filled_share(walls, -0.1), 0);
    EXPECT_EQ(filled_share(walls, 1.1), 1);
    EXPECT_EQ(depth_share(walls, -0.1), 0);
    EXPECT_EQ(depth_share(walls, 1.1), 1);
  }
}

// For a small segment the parabola's formula, two thirds of chord times height, is the limit. With
// the next term of the series of sqrt(x - x^2) the segment is larger by a fifth of the share.
TEST(TankShape, AShallowSegmentIsThatOfAParabola) {
  for (const double share : {1e-12, 1e-9, 1e-6, 1e-5, 1e-4}) {
    const double chord = 2 * std::sqrt(share * (1 - share));
    const double parabola = 2.0 / 3 * chord * share / (pi / 4);
    const double ratio = filled_share(Walls::lying_cylinder, share) / parabola;
    EXPECT_NEAR(ratio, 1 + share / 5, 2 * share * share + 1e-10) << share;
  }
}

TEST(TankShape, HasNoStepWhereTheSeriesEnds) {
  // The angle 0.1: share sin^2(0.025).
  const double share = std::pow(std::sin(0.025), 2);
  const double below = filled_share(Walls::lying_cylinder, share * (1 - 1e-9));
  const double above = filled_share(Walls::lying_cylinder, share * (1 + 1e-9));
  EXPECT_GT(above, below);
  EXPECT_NEAR(above / below, 1 + 3e-9, 1e-9);
}

RC_GTEST_PROP(TankShapeProperty, ALyingCylinderIsTheSumOfItsStrips, ()) {
  const double share = random_share();
  RC_ASSERT(std::abs(filled_share(Walls::lying_cylinder, share) - summed_segment(share)) < 1e-6);
}

RC_GTEST_PROP(TankShapeProperty, WhatIsFilledBelowIsEmptyAboveWhenTurnedOver, ()) {
  const double share = random_share();
  const double sum =
      filled_share(Walls::lying_cylinder, share) + filled_share(Walls::lying_cylinder, 1 - share);
  RC_ASSERT(std::abs(sum - 1) < 1e-12);
}

RC_GTEST_PROP(TankShapeProperty, RisesWithTheDepth, ()) {
  const double share = random_share();
  const double deeper = share + *rc::gen::inRange(1, 1000) / 1e6;
  RC_PRE(deeper <= 1);
  RC_ASSERT(filled_share(Walls::lying_cylinder, deeper) >
            filled_share(Walls::lying_cylinder, share));
}

RC_GTEST_PROP(TankShapeProperty, BelowTheMiddleALyingCylinderHoldsLessThanABox, ()) {
  const double share = random_share() / 2;
  RC_PRE(share > 0);
  RC_PRE(share < 0.5);
  RC_ASSERT(filled_share(Walls::lying_cylinder, share) < share);
}

RC_GTEST_PROP(TankShapeProperty, TheInverseGivesTheDepthBack, ()) {
  const double share = random_share();
  for (const Walls walls : {Walls::upright, Walls::lying_cylinder}) {
    RC_ASSERT(std::abs(depth_share(walls, filled_share(walls, share)) - share) < 1e-10);
    RC_ASSERT(std::abs(filled_share(walls, depth_share(walls, share)) - share) < 1e-14);
  }
}

}  // namespace
}  // namespace drystage::models
