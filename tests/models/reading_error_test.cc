#include "models/reading_error.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

namespace drystage::models::reading_error_test {
namespace {

TEST(ReadingError, OfAStickInABoxIsItsWidthTimesTheStickError) {
  // 80 L, 40 cm high: 2 L a centimetre.
  EXPECT_NEAR(dip_error_l(Walls::upright, 80, 0.4, 0.2), 3, 1e-9);
  EXPECT_NEAR(dip_error_l(Walls::upright, 80, 0.4, 0), 3, 1e-9);
  EXPECT_NEAR(dip_error_l(Walls::upright, 80, 0.4, 0.4), 3, 1e-9);
  const DipCurve marked({{0.1, 20}, {0.2, 40}, {0.3, 60}, {0.4, 80}});
  for (const double depth_m : {0.0, 0.1, 0.23, 0.4}) {
    EXPECT_NEAR(dip_error_l(marked, depth_m), 3, 1e-9) << depth_m;
  }
}

TEST(ReadingError, OfAStickInALyingCylinderIsMostWhereItIsWidest) {
  // A chord is 2 sqrt(d (D - d)) wide, and the circle has pi D^2 / 4 (plane geometry).
  const double diameter_m = 0.5;
  const double holds_l = 100;
  const auto by_chord = [&](double depth_m) {
    const double chord_m = 2 * std::sqrt(depth_m * (diameter_m - depth_m));
    return holds_l * chord_m * stick_error_m / (std::numbers::pi * diameter_m * diameter_m / 4);
  };
  for (const double depth_m : {0.1, 0.25, 0.4}) {
    EXPECT_NEAR(dip_error_l(Walls::lying_cylinder, holds_l, diameter_m, depth_m), by_chord(depth_m),
                0.06 * by_chord(depth_m))
        << depth_m;
  }
  EXPECT_LT(dip_error_l(Walls::lying_cylinder, holds_l, diameter_m, 0.01),
            dip_error_l(Walls::lying_cylinder, holds_l, diameter_m, 0.25));
  EXPECT_GT(dip_error_l(Walls::lying_cylinder, holds_l, diameter_m, 0), 0);
  EXPECT_GT(dip_error_l(Walls::lying_cylinder, holds_l, diameter_m, diameter_m), 0);
}

TEST(ReadingError, OfWhatIsNotThereIsNone) {
  EXPECT_DOUBLE_EQ(dip_error_l(Walls::upright, 0, 0.4, 0.2), 0);
  EXPECT_DOUBLE_EQ(dip_error_l(Walls::upright, 80, 0, 0.2), 0);
  EXPECT_DOUBLE_EQ(cans_error_l(0), 0);
  EXPECT_DOUBLE_EQ(cans_error_l(-5), 0);
  EXPECT_DOUBLE_EQ(error_of_sum({}), 0);
}

TEST(ReadingError, OfCansIsThatOfTheOneThatIsOpen) { EXPECT_DOUBLE_EQ(cans_error_l(20), 2); }

TEST(ReadingError, OfSumsAddsUpInSquares) {
  const std::array<double, 3> errors{2, 3, 6};
  EXPECT_DOUBLE_EQ(error_of_sum(errors), 7);
}

}  // namespace
}  // namespace drystage::models::reading_error_test
