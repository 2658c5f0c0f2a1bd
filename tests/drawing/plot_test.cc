// A frame with lines that end at its edges, and labels that never overlap.
#include "drawing/plot.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "support/overlaps.h"

namespace drystage::drawing {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr Rect frame{.x = 10, .y = 20, .width = 100, .height = 50};

double length(const std::vector<Point>& line) {
  double sum = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    sum += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
  }
  return sum;
}

bool is_in(Point point, const Rect& rect) {
  constexpr double tiny = 1e-9;
  return point.x >= rect.x - tiny && point.x <= rect.right() + tiny && point.y >= rect.y - tiny &&
         point.y <= rect.bottom() + tiny;
}

TEST(Clipped, LeavesWhatLiesInsideAsItIs) {
  const std::vector<Point> line{{11, 21}, {50, 60}, {109, 22}};
  const auto pieces = clipped(line, frame);
  ASSERT_THAT(pieces, SizeIs(1));
  ASSERT_THAT(pieces[0], SizeIs(3));
  EXPECT_EQ(pieces[0][1].x, 50);
  EXPECT_EQ(pieces[0][1].y, 60);
}

TEST(Clipped, CutsAtTheEdges) {
  // From left of the frame to above it, through two edges: y falls by 1 for each 1 to the right.
  const auto pieces = clipped({{0, 40}, {40, 0}}, frame);
  ASSERT_THAT(pieces, SizeIs(1));
  EXPECT_DOUBLE_EQ(pieces[0].front().x, 10);
  EXPECT_DOUBLE_EQ(pieces[0].front().y, 30);
  EXPECT_DOUBLE_EQ(pieces[0].back().x, 20);
  EXPECT_DOUBLE_EQ(pieces[0].back().y, 20);
}

TEST(Clipped, IsTwoPiecesWhereALineLeavesAndComesBack) {
  EXPECT_THAT(clipped({{20, 30}, {30, 0}, {40, 30}}, frame), SizeIs(2));
}

TEST(Clipped, KeepsWhatLiesOnAnEdge) {
  EXPECT_THAT(clipped({{10, 20}, {110, 20}}, frame), SizeIs(1));
  EXPECT_THAT(clipped({{110, 20}, {110, 70}}, frame), SizeIs(1));
}

TEST(Clipped, LeavesOutWhatPassesByOrOnlyTouches) {
  EXPECT_THAT(clipped({{0, 0}, {200, 10}}, frame), IsEmpty());
  EXPECT_THAT(clipped({{0, 30}, {20, 10}}, frame), IsEmpty());
  EXPECT_THAT(clipped({{50, 40}}, frame), IsEmpty());
}

/// The length within by trying many points: an independent measure.
RC_GTEST_PROP(ClippedProperty, IsWhatLiesWithin, ()) {
  std::vector<Point> line;
  const int points = *rc::gen::inRange(2, 8);
  for (int i = 0; i < points; ++i) {
    line.push_back({static_cast<double>(*rc::gen::inRange(-50, 200)),
                    static_cast<double>(*rc::gen::inRange(-50, 150))});
  }
  double within = 0;
  for (const auto& piece : clipped(line, frame)) {
    for (const Point& point : piece) RC_ASSERT(is_in(point, frame));
    within += length(piece);
  }
  constexpr int samples = 4000;
  double counted = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double each = length({line[i - 1], line[i]}) / samples;
    for (int n = 0; n < samples; ++n) {
      const double share = (n + 0.5) / samples;
      const Point at{.x = std::lerp(line[i - 1].x, line[i].x, share),
                     .y = std::lerp(line[i - 1].y, line[i].y, share)};
      if (is_in(at, frame)) counted += each;
    }
  }
  // A sample at either end of each line may be on the wrong side.
  RC_ASSERT(std::abs(within - counted) < 2 * length(line) / samples + 1e-6);
}

TEST(WithoutNeedless, KeepsCornersAndSteps) {
  const std::vector<Point> stairs{{0, 0}, {1, 0}, {2, 0}, {2, 5}, {3, 5}, {4, 5}};
  const std::vector<Point> kept = without_needless(stairs);
  ASSERT_THAT(kept, SizeIs(4));
  EXPECT_EQ(kept[1].x, 2);
  EXPECT_EQ(kept[1].y, 0);
  EXPECT_EQ(kept[2].y, 5);
}

TEST(WithoutNeedless, KeepsATurnBackAlongTheSameLine) {
  EXPECT_THAT(without_needless({{0, 0}, {0, 9}, {0, 3}}), SizeIs(3));
}

TEST(WithoutNeedless, StraysNowhereFromALongCurve) {
  std::vector<Point> curve;
  constexpr int points = 2000;
  for (int i = 0; i <= points; ++i) {
    const double angle = std::numbers::pi * i / points;
    curve.push_back({.x = 200 * std::cos(angle), .y = 200 * std::sin(angle)});
  }
  const std::vector<Point> kept = without_needless(curve);
  EXPECT_LT(kept.size(), curve.size() / 4);
  // The chord of a circle of 200 pt whose rise is 0.01 pt.
  for (std::size_t i = 1; i < kept.size(); ++i) {
    EXPECT_LE(length({kept[i - 1], kept[i]}), 2 * std::sqrt(2 * 200 * 0.01) + 1e-6);
  }
}

TEST(Plot, PutsNumbersWhereTheyBelong) {
  const Plot plot(frame, 0, 24, -5, 5);
  EXPECT_DOUBLE_EQ(plot.at(0, -5).x, 10);
  EXPECT_DOUBLE_EQ(plot.at(0, -5).y, 70);
  EXPECT_DOUBLE_EQ(plot.at(24, 5).x, 110);
  EXPECT_DOUBLE_EQ(plot.at(24, 5).y, 20);
  EXPECT_DOUBLE_EQ(plot.at(6, 0).x, 35);
  EXPECT_DOUBLE_EQ(plot.at(6, 0).y, 45);
}

TEST(Plot, WritesItsNumbersBesideTheirLines) {
  const Typesetter typesetter;
  const Axis axis = axis_over(0, 40, frame.height, 5, 12);
  Plot plot(frame, 0, 24, axis.low, axis.high);
  plot.numbers_right(typesetter, axis, {});
  const Scale upward = plot.upward();
  const std::vector<Mark> marks = std::move(plot).marks();
  ASSERT_THAT(marks, SizeIs(axis.numbers().size()));
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const auto& text = std::get<Text>(marks[i]);
    EXPECT_EQ(std::stod(text.words), axis.numbers()[i]);
    EXPECT_NEAR(text.box.y + text.box.height / 2, upward.at_pt(axis.numbers()[i]), 0.01);
    EXPECT_GT(text.box.x, frame.right());
  }
}

TEST(RowOf, LeavesOutWhatWouldPassAnEnd) {
  const Typesetter typesetter;
  const std::vector<Label> labels{
      {.at_pt = 0, .words = "0000"}, {.at_pt = 50, .words = "50"}, {.at_pt = 100, .words = "1000"}};
  const std::vector<Mark> row = row_of(typesetter, labels, 1, {}, 0, 0, 100);
  ASSERT_THAT(row, SizeIs(1));
  EXPECT_EQ(std::get<Text>(row[0]).words, "50");
}

RC_GTEST_PROP(RowOfProperty, HasAsManyLabelsAsThereIsRoomFor, ()) {
  static const Typesetter typesetter;
  const Font font{.size_pt = 9, .bold = *rc::gen::arbitrary<bool>()};
  const int count = *rc::gen::inRange(2, 60);
  const double apart = *rc::gen::inRange(20, 600) / 10.0;
  const double gap_pt = *rc::gen::inRange(0, 6);
  std::vector<Label> labels;
  double widest = 0;
  for (int i = 0; i < count; ++i) {
    labels.push_back({.at_pt = apart * i, .words = std::to_string(*rc::gen::inRange(0, 100000))});
    widest = std::max(widest, typesetter.width(labels.back().words, font));
  }
  const std::size_t every = stride(typesetter, labels, font, gap_pt);
  const double end = apart * count + widest;
  const std::vector<Mark> row = row_of(typesetter, labels, every, font, 0, -widest, end);
  RC_ASSERT(row.size() == (labels.size() + every - 1) / every);
  RC_ASSERT(support::overlaps(typesetter, row).empty());
  RC_ASSERT(support::strays(typesetter, row, {-widest, 0, end + widest, 20}).empty());
  // One fewer between them would be too near.
  RC_ASSERT(static_cast<double>(every) * apart >= widest + gap_pt - 1e-6);
  if (every > 1) RC_ASSERT(static_cast<double>(every - 1) * apart < widest + gap_pt);
}

}  // namespace
}  // namespace drystage::drawing
