// Slanting lines within an area, and nowhere else.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <variant>

#include "drawing/plot.h"

namespace drystage::drawing::hatch_test {
namespace {

using ::testing::IsEmpty;

constexpr Rect box{.x = 10, .y = 20, .width = 100, .height = 50};
constexpr double apart_pt = 4;

struct Piece {
  Point from;
  Point to;
};

std::vector<Piece> pieces(const std::vector<Point>& area, const Rect& within = box) {
  std::vector<Piece> out;
  for (const Mark& mark : hatch(area, within, apart_pt, {})) {
    const auto& shape = std::get<Shape>(mark);
    out.push_back({.from = shape.points.front(), .to = shape.points.back()});
  }
  return out;
}

double area_of(const std::vector<Piece>& all) {
  // Lines 4 pt apart along a level line are 4 / √2 apart across themselves.
  double length = 0;
  for (const Piece& one : all) {
    length += std::hypot(one.to.x - one.from.x, one.to.y - one.from.y);
  }
  return length * apart_pt / std::sqrt(2.0);
}

TEST(Hatch, FillsABoxEvenly) {
  const std::vector<Piece> all = pieces(corners(box));
  EXPECT_NEAR(area_of(all), 100 * 50, 150);
  for (const Piece& one : all) {
    EXPECT_NEAR(one.from.x + one.from.y, one.to.x + one.to.y, 1e-9);
    EXPECT_LT(one.from.x, one.to.x);
  }
}

TEST(Hatch, LeavesOutWhatLiesOutsideTheBox) {
  const std::vector<Point> wide{{-500, 30}, {700, 30}, {700, 900}, {-500, 900}};
  const std::vector<Piece> all = pieces(wide);
  EXPECT_NEAR(area_of(all), 100 * 40, 150);
  for (const Piece& one : all) {
    for (const Point point : {one.from, one.to}) {
      EXPECT_GE(point.x, box.x - 1e-9);
      EXPECT_LE(point.x, box.right() + 1e-9);
      EXPECT_GE(point.y, 30 - 1e-9);
      EXPECT_LE(point.y, box.bottom() + 1e-9);
    }
  }
}

TEST(Hatch, LeavesAGapFree) {
  // Two towers on a low wall.
  const std::vector<Point> area{{10, 20}, {40, 20},  {40, 60},  {80, 60},
                                {80, 20}, {110, 20}, {110, 70}, {10, 70}};
  for (const Piece& one : pieces(area)) {
    const Point middle{.x = (one.from.x + one.to.x) / 2, .y = (one.from.y + one.to.y) / 2};
    EXPECT_FALSE(middle.x > 40 && middle.x < 80 && middle.y < 60);
  }
  EXPECT_NEAR(area_of(pieces(area)), 30 * 50 * 2 + 40 * 10, 150);
}

TEST(Hatch, IsNothingOfNoArea) {
  EXPECT_THAT(pieces({}), IsEmpty());
  EXPECT_THAT(pieces({{20, 30}, {60, 30}}), IsEmpty());
}

RC_GTEST_PROP(HatchProperty, HasTheAreaOfAnySteps, ()) {
  const auto heights = *rc::gen::container<std::vector<int>>(10, rc::gen::inRange(0, 51));
  std::vector<Point> area;
  double expected = 0;
  for (std::size_t i = 0; i < heights.size(); ++i) {
    const double x = box.x + 10 * static_cast<double>(i);
    area.push_back({.x = x, .y = box.bottom() - heights[i]});
    area.push_back({.x = x + 10, .y = box.bottom() - heights[i]});
    expected += 10.0 * heights[i];
  }
  area.push_back({.x = box.right(), .y = box.bottom()});
  area.push_back({.x = box.x, .y = box.bottom()});
  RC_ASSERT(std::abs(area_of(pieces(area)) - expected) < 300);
}

}  // namespace
}  // namespace drystage::drawing::hatch_test
