#include "models/dip_curve.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <vector>

#include "models/tank_shape.h"

namespace drystage::models {
namespace {

using plan::DipMark;
using Vessel = std::function<double(double)>;  // litres by depth in m

// Of 100 L, 0.4 m high.
double lying(double depth_m) { return 100 * filled_share(Walls::lying_cylinder, depth_m / 0.4); }
// A trough like a V, and one like an upturned cone, of 100 L and 0.4 m.
double wedge(double depth_m) { return 100 * std::pow(depth_m / 0.4, 2); }
double cone(double depth_m) { return 100 * std::pow(depth_m / 0.4, 3); }

DipCurve marked(const Vessel& vessel, const std::vector<double>& depths_m) {
  std::vector<DipMark> marks(depths_m.size());
  std::ranges::transform(depths_m, marks.begin(), [&](double depth_m) {
    return DipMark{depth_m, vessel(depth_m)};
  });
  return DipCurve(marks);
}

std::vector<double> equal_depths(int marks) {
  std::vector<double> out;
  for (int m = 1; m <= marks; ++m) out.push_back(0.4 * m / marks);
  return out;
}

struct Apart {
  double over_l = 0;
  double under_l = 0;
};

Apart most_apart(const DipCurve& curve, const Vessel& vessel, double top_m) {
  Apart out;
  for (int i = 0; i <= 4000; ++i) {
    const double depth_m = top_m * i / 4000;
    const double error_l = curve.volume_l(depth_m) - vessel(depth_m);
    out.over_l = std::max(out.over_l, error_l);
    out.under_l = std::max(out.under_l, -error_l);
  }
  return out;
}

TEST(DipCurve, SaysAtEveryMarkWhatWasMeasured) {
  const std::vector<DipMark> marks{{0, 1}, {0.05, 9}, {0.1, 20}, {0.2, 45}, {0.31, 70}};
  const DipCurve curve(marks);
  for (const DipMark& mark : marks) {
    EXPECT_DOUBLE_EQ(curve.volume_l(mark.depth_m), mark.volume_l);
    EXPECT_NEAR(curve.depth_m(mark.volume_l).value(), mark.depth_m, 1e-15);
  }
}

TEST(DipCurve, IsAStraightLineThroughOneMark) {
  const DipCurve curve({{0.2, 50}});
  EXPECT_DOUBLE_EQ(curve.volume_l(0.05), 12.5);
  EXPECT_DOUBLE_EQ(curve.depth_m(12.5).value(), 0.05);
}

TEST(DipCurve, OfUprightWallsIsStraight) {
  const DipCurve curve({{0.1, 20}, {0.25, 50}, {0.3, 60}, {0.35, 70}});
  for (int i = 0; i <= 35; ++i) EXPECT_NEAR(curve.volume_l(i / 100.0), 2.0 * i, 1e-9);
}

TEST(DipCurve, OfNarrowingWallsIsStraight) {
  const DipCurve curve({{0.1, 40}, {0.2, 70}, {0.3, 90}, {0.4, 100}});
  EXPECT_DOUBLE_EQ(curve.volume_l(0.05), 20);
  EXPECT_DOUBLE_EQ(curve.volume_l(0.15), 55);
  EXPECT_DOUBLE_EQ(curve.volume_l(0.35), 95);
}

// By hand: from (1, 1) with the slope 1 of the first piece, to (2, 3) with the slope 3 of the last:
// they meet at depth 1.5, volume 1.5. Up to the first mark the power is the 2 of the middle piece.
TEST(DipCurve, OfWideningWallsIsTheLeastThatTheMarksAllow) {
  const DipCurve curve({{1, 1}, {2, 3}, {3, 6}});
  EXPECT_DOUBLE_EQ(curve.volume_l(0.5), 0.25);
  EXPECT_DOUBLE_EQ(curve.volume_l(1.25), 1.25);
  EXPECT_DOUBLE_EQ(curve.volume_l(1.5), 1.5);
  EXPECT_DOUBLE_EQ(curve.volume_l(1.75), 2.25);
  // The last piece as if a slope of 4 came after it: (2 + 0.5, 3 + 1) is on both lines.
  EXPECT_DOUBLE_EQ(curve.volume_l(2.5), 4);
}

TEST(DipCurve, EndsAtTheLastMarkAndBeginsAtTheBase) {
  const DipCurve curve({{0, 3}, {0.1, 10}, {0.2, 20}});
  EXPECT_EQ(curve.volume_l(-1), 3);
  EXPECT_EQ(curve.volume_l(0), 3);
  EXPECT_EQ(curve.volume_l(0.2), 20);
  EXPECT_EQ(curve.volume_l(5), 20);
  EXPECT_FALSE(curve.depth_m(2.9).has_value());
  EXPECT_FALSE(curve.depth_m(20.1).has_value());
  EXPECT_EQ(curve.depth_m(3).value(), 0);
}

// The figures of docs/models.md, in L of 100.
TEST(DipCurve, OfALyingCylinderIsHardlyEverTooMuch) {
  const auto apart = [](int marks) {
    return most_apart(marked(lying, equal_depths(marks)), lying, 0.4);
  };
  EXPECT_NEAR(apart(2).over_l, 5.77, 0.01);
  EXPECT_NEAR(apart(4).over_l, 0.54, 0.01);
  EXPECT_NEAR(apart(8).over_l, 0.06, 0.01);
  EXPECT_NEAR(apart(4).under_l, 2.62, 0.01);
  EXPECT_NEAR(apart(8).under_l, 1.26, 0.01);
}

TEST(DipCurve, OfWedgesAndConesIsNeverTooMuch) {
  for (const Vessel& vessel : {Vessel(wedge), Vessel(cone)}) {
    for (const int marks : {3, 4, 5, 8, 20}) {
      EXPECT_LT(most_apart(marked(vessel, equal_depths(marks)), vessel, 0.4).over_l, 1e-9) << marks;
    }
  }
}

std::vector<DipMark> random_marks() {
  std::vector<DipMark> out;
  double depth_m = 0;
  double volume_l = *rc::gen::inRange(0, 2) * 0.5;
  if (volume_l > 0) out.push_back({0, volume_l});
  const int marks = *rc::gen::inRange(1, 9);
  for (int m = 0; m < marks; ++m) {
    depth_m += *rc::gen::inRange(1, 200) / 1000.0;
    volume_l += *rc::gen::inRange(1, 400) / 10.0;
    out.push_back({depth_m, volume_l});
  }
  return out;
}

// The straight line through all marks.
double straight(std::vector<DipMark> marks, double depth_m) {
  if (marks.front().depth_m > 0) marks.insert(marks.begin(), DipMark{});
  for (std::size_t i = 1; i < marks.size(); ++i) {
    if (depth_m > marks[i].depth_m) continue;
    const double share =
        (depth_m - marks[i - 1].depth_m) / (marks[i].depth_m - marks[i - 1].depth_m);
    return marks[i - 1].volume_l + share * (marks[i].volume_l - marks[i - 1].volume_l);
  }
  return marks.back().volume_l;
}

RC_GTEST_PROP(DipCurveProperty, RisesAndNeverStandsAboveTheStraightLine, ()) {
  const std::vector<DipMark> marks = random_marks();
  const DipCurve curve(marks);
  const double top_m = marks.back().depth_m;
  double before_l = curve.volume_l(0);
  for (int i = 1; i <= 200; ++i) {
    const double depth_m = top_m * i / 200;
    const double now_l = curve.volume_l(depth_m);
    RC_ASSERT(now_l >= before_l);
    RC_ASSERT(now_l <= straight(marks, depth_m) + 1e-9);
    before_l = now_l;
  }
  for (const DipMark& mark : marks) {
    RC_ASSERT(std::abs(curve.volume_l(mark.depth_m) - mark.volume_l) < 1e-9);
  }
}

RC_GTEST_PROP(DipCurveProperty, TheInverseGivesTheVolumeBack, ()) {
  const std::vector<DipMark> marks = random_marks();
  const DipCurve curve(marks);
  const double base_l = curve.volume_l(0);
  const double wanted_l =
      base_l + (marks.back().volume_l - base_l) * *rc::gen::inRange(0, 1001) / 1000.0;
  const auto depth_m = curve.depth_m(wanted_l);
  RC_ASSERT(depth_m.has_value());
  RC_ASSERT(std::abs(curve.volume_l(*depth_m) - wanted_l) < 1e-7);
}

}  // namespace
}  // namespace drystage::models
