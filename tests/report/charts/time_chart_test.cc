// All reserves over one time line: read as a reader would, they say what the run says.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <variant>

#include "report/charts/charted_reserve.h"
#include "report/charts/day_axis.h"
#include "report/charts/level_strip.h"
#include "report/charts/picture.h"
#include "report/charts/run_parts.h"
#include "report/text/words.h"
#include "support/charts.h"
#include "support/needs_answer.h"
#include "support/overlaps.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::report::time_chart_test {
namespace {

using answers::Level;
using answers::Levels;
using answers::PlanRun;
using drawing::Block;
using drawing::Mark;
using drawing::Point;
using drawing::Rect;
using drawing::Shape;
using drawing::Text;
using support::lines_of;
using support::PlanText;
using support::ReadChart;
using support::travel;
using support::words_of;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

constexpr double day_h = 24;
constexpr double near_pt = 0.1;

const drawing::Typesetter& typesetter() {
  static const drawing::Typesetter one;
  return one;
}

/// What a chart has of one piece of days.
struct PieceOfChart {
  DaysAcross days;
  Block band;
  std::vector<Block> strips;  ///< in the order of life_first
};

std::vector<PieceOfChart> pieces_of(const PlanRun& planned,
                                    units::System system = units::System::metric) {
  const TripLine line = trip_line(*planned.course.timeline);
  const std::vector<Block> blocks =
      time_chart(typesetter(), planned, line, answers::levels(planned), system);
  std::vector<PieceOfChart> out;
  std::size_t next = 1;  // after the key
  for (const DaysAcross& days : across_days(planned, line)) {
    PieceOfChart piece{.days = days, .band = blocks.at(next++), .strips = {}};
    for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
      piece.strips.push_back(blocks.at(next++));
    }
    out.push_back(std::move(piece));
  }
  EXPECT_EQ(next, blocks.size());
  return out;
}

ReadChart read(const PieceOfChart& piece, const Block& strip) {
  return support::read_strip(typesetter(), strip, piece.days.across.scale.from,
                             piece.days.across.scale.to);
}

/// The strip of a reserve in a chart of one piece.
const Block& strip_of(const PieceOfChart& piece, const std::string& title) {
  const auto found = std::ranges::find_if(piece.strips, [&title](const Block& strip) {
    return words_of(strip.marks).find(title) != std::string::npos;
  });
  if (found == piece.strips.end()) throw std::out_of_range("there is no strip of " + title);
  return *found;
}

/// Boxes filled with a shade, from left to right.
std::vector<Rect> boxes_filled(const Block& block, double grey) {
  std::vector<Rect> out;
  for (const Mark& mark : block.marks) {
    const auto* shape = std::get_if<Shape>(&mark);
    if (shape == nullptr || shape->points.size() != 4 || shape->fill_grey != grey) continue;
    const Point corner = shape->points[0];
    const Point other = shape->points[2];
    out.push_back(
        {.x = corner.x, .y = corner.y, .width = other.x - corner.x, .height = other.y - corner.y});
  }
  std::ranges::sort(out, {}, &Rect::x);
  return out;
}

/// Days on 4 L each out of one can.
PlanText staying(int nights, const std::string& filled = "60 L") {
  PlanText plan;
  plan.margins = {"drinking_water: 8 L"};
  plan.containers = {"{name: can, holds: 60 L, filled: " + filled + ", for: drinking}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(nights) + "}"};
  return plan;
}

TEST(TimeChart, HasDaysAndDatesOnceOverAll) {
  const auto pieces = pieces_of(travel(support::three_places()));
  ASSERT_THAT(pieces, SizeIs(1));
  EXPECT_THAT(words_of(pieces[0].band.marks), HasSubstr("day 6"));
  EXPECT_THAT(words_of(pieces[0].band.marks), HasSubstr("Mon"));
  for (const Block& strip : pieces[0].strips) {
    EXPECT_THAT(words_of(strip.marks), Not(HasSubstr("day")));
    EXPECT_THAT(words_of(strip.marks), Not(HasSubstr("Mon")));
  }
}

TEST(TimeChart, HasAllFramesBelowEachOther) {
  const auto pieces = pieces_of(travel(support::three_places()));
  const Rect band = support::frame_of(pieces.at(0).band);
  for (const Block& strip : pieces[0].strips) {
    EXPECT_DOUBLE_EQ(support::frame_of(strip).x, band.x);
    EXPECT_DOUBLE_EQ(support::frame_of(strip).right(), band.right());
  }
}

TEST(TimeChart, GivesMoreRoomToWhatLifeDependsOn) {
  const auto pieces = pieces_of(travel(support::three_places()));
  EXPECT_GT(support::frame_of(strip_of(pieces.at(0), "Drinking water, L")).height,
            1.4 * support::frame_of(strip_of(pieces[0], "Food, meals")).height);
}

TEST(TimeChart, HasABandOfTheTrip) {
  PlanText plan = support::three_places();
  plan.itinerary.insert(plan.itinerary.begin() + 4, "resupply: {diesel: fill}");
  const PlanRun planned = travel(plan);
  const auto pieces = pieces_of(planned);
  const std::string words = words_of(pieces.at(0).band.marks);
  for (const char* place : {"Base", "Red Tables", "Far Well"}) EXPECT_THAT(words, HasSubstr(place));
  EXPECT_THAT(words, HasSubstr("diesel "));
  const TripLine line = trip_line(*planned.course.timeline);
  const std::vector<Rect> driven = boxes_filled(pieces[0].band, 0);
  ASSERT_EQ(driven.size(), line.drives.size());
  for (std::size_t i = 0; i < driven.size(); ++i) {
    const drawing::Scale& hours = pieces[0].days.across.scale;
    EXPECT_NEAR(hours.number(driven[i].x), line.drives[i].from, 0.01);
    EXPECT_NEAR(hours.number(driven[i].right()), line.drives[i].to, 0.01);
  }
}

TEST(TimeChart, ShadesNightsThroughAll) {
  const PlanRun planned = travel(staying(3));
  const TripLine line = trip_line(*planned.course.timeline);
  const auto pieces = pieces_of(planned);
  for (const Block& strip : pieces.at(0).strips) {
    const std::vector<Rect> nights = boxes_filled(strip, night_grey);
    ASSERT_EQ(nights.size(), line.nights.size());
    for (std::size_t i = 0; i < nights.size(); ++i) {
      EXPECT_NEAR(pieces[0].days.across.scale.number(nights[i].x), line.nights[i].from, 0.01);
      EXPECT_NEAR(pieces[0].days.across.scale.number(nights[i].right()), line.nights[i].to, 0.01);
      EXPECT_EQ(nights[i].y, 0);
      EXPECT_EQ(nights[i].bottom(), strip.height_pt);
    }
  }
}

TEST(TimeChart, MarksABreachWhereItHappens) {
  const auto trip = travel(staying(4, "14 L"));
  const auto pieces = pieces_of(trip);
  const Block& strip = strip_of(pieces.at(0), "Drinking water, L");
  const ReadChart chart = read(pieces[0], strip);
  const engine::ReserveDay& day = trip.reserve(3, "drinking_water");
  EXPECT_THAT(words_of(strip.marks), HasSubstr("below margin from day 2"));
  EXPECT_THAT(words_of(strip.marks), HasSubstr("runs out day 4, " + clock(day.short_h)));
  std::vector<Point> feet;
  for (const auto& pole : lines_of(strip.marks, {.width_pt = 0.7})) feet.push_back(pole.back());
  std::ranges::sort(feet, {}, &Point::x);
  ASSERT_THAT(feet, SizeIs(2));
  EXPECT_NEAR(chart.levels.number(feet[0].y), 8, 0.3);
  EXPECT_NEAR(chart.hours.number(feet[0].x), day_h + trip.reserve(1, "drinking_water").breach_h,
              0.01);
  EXPECT_NEAR(chart.levels.number(feet[1].y), 0, 0.3);
  EXPECT_NEAR(chart.hours.number(feet[1].x), 3 * day_h + day.short_h, 0.01);
}

TEST(TimeChart, NeverLosesALineOnTheGrid) {
  PlanText plan = staying(4);
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  plan.cold = {
      "{name: chest, volume: 40 L, set_point: 2 °C, rated: {draw: 10 W, ambient: 32 °C, inside: 4 "
      "°C}, on: bank}"};
  plan.margins.emplace_back("cold: 5 °C");
  const PlanRun planned = travel(plan);
  const auto pieces = pieces_of(planned);
  const Block& strip = strip_of(pieces.at(0), "Cold in chest, °C");
  const auto levels = lines_of(strip.marks, plan_line());
  const auto halos = lines_of(strip.marks, halo());
  ASSERT_THAT(levels, Not(IsEmpty()));
  ASSERT_EQ(halos.size(), levels.size());
  EXPECT_LT(support::distance(read(pieces[0], strip).point(50, 2), levels), near_pt);
  // Over whatever else is drawn lie first the halo and then the line.
  std::ptrdiff_t grid = -1;
  std::ptrdiff_t white = -1;
  std::ptrdiff_t black = -1;
  for (std::size_t i = 0; i < strip.marks.size(); ++i) {
    const std::vector<Mark> one{strip.marks[i]};
    const auto at = static_cast<std::ptrdiff_t>(i);
    if (!lines_of(one, faint_grid()).empty() || !lines_of(one, zone_hatch()).empty()) grid = at;
    if (!lines_of(one, halo()).empty()) white = at;
    if (!lines_of(one, plan_line()).empty()) black = at;
  }
  EXPECT_GE(grid, 0);
  EXPECT_LT(grid, white);
  EXPECT_LT(white, black);
}

TEST(TimeChart, HatchesAboveTheWarmestThatColdMayBe) {
  PlanText plan = staying(4);
  plan.cold = {"{name: chest, volume: 40 L, ice: 1 kg, heat_leak: 3 W/K}"};
  plan.margins.emplace_back("cold: 5 °C");
  const auto pieces = pieces_of(travel(plan));
  const Block& strip = strip_of(pieces.at(0), "Cold in chest, °C");
  const ReadChart chart = read(pieces[0], strip);
  const auto zone = lines_of(strip.marks, zone_hatch());
  ASSERT_THAT(zone, Not(IsEmpty()));
  for (const auto& line : zone) {
    for (const Point point : line) EXPECT_GE(chart.levels.number(point.y), 5 - 0.1);
  }
}

TEST(TimeChart, SaysNothingOfAMarginWhereThereIsNone) {
  const auto pieces = pieces_of(travel(staying(3)));
  const Block& food = strip_of(pieces.at(0), "Food, meals");
  EXPECT_THAT(lines_of(food.marks, margin_line()), IsEmpty());
  EXPECT_THAT(lines_of(food.marks, zone_hatch()), IsEmpty());
}

TEST(TimeChart, CutsALongTripIntoPiecesOfWideEnoughDays) {
  PlanText plan = staying(100);
  plan.containers = {"{name: tank, holds: 500 L, filled: 500 L, for: drinking}"};
  const auto pieces = pieces_of(travel(plan));
  ASSERT_GE(pieces.size(), 3U);
  int days = 0;
  for (const PieceOfChart& piece : pieces) {
    days += piece.days.piece.count;
    const drawing::Scale& hours = piece.days.across.scale;
    EXPECT_GE(hours.at_pt(day_h) - hours.at_pt(0), 11);
    EXPECT_THAT(support::faults(typesetter(), piece.band, 520), IsEmpty());
    for (const Block& strip : piece.strips) {
      EXPECT_THAT(support::faults(typesetter(), strip, 520), IsEmpty());
    }
  }
  EXPECT_EQ(days, 100);
}

RC_GTEST_PROP(TimeChartProperty, DrawsTheLevelsOfTheRun, ()) {
  const PlanRun planned = travel(support::random_plan(support::rapidcheck_pick()));
  const auto system = *rc::gen::element(units::System::metric, units::System::us);
  const Levels levels = answers::levels(planned);
  const std::vector<std::size_t> order = life_first(planned);
  for (const PieceOfChart& piece : pieces_of(planned, system)) {
    for (std::size_t i = 0; i < order.size(); ++i) {
      const engine::ReserveInfo& info = planned.course.reserves[order[i]];
      const ReadChart chart = read(piece, piece.strips[i]);
      const auto lines = lines_of(piece.strips[i].marks, plan_line());
      for (const Level& level : levels.reserves[order[i]]) {
        if (!piece.days.across.has(level.hour)) continue;
        const Point at = chart.point(level.hour, display_number(info, level.level, system));
        RC_ASSERT(support::distance(at, lines) < near_pt);
      }
    }
  }
}

/// The area between the margin and the foot of a frame, or its top, in square points.
double zone_area(const ReadChart& chart, const std::vector<Point>& margin, bool above) {
  double sum = 0;
  const auto depth = [&](double y) {
    const double from = above ? y : chart.frame.y;
    const double to = above ? chart.frame.bottom() : y;
    return std::clamp(to - from, 0.0, chart.frame.height);
  };
  constexpr int slices = 20;  // of each straight piece, some of which leave the frame
  for (std::size_t i = 1; i < margin.size(); ++i) {
    const double width = (margin[i].x - margin[i - 1].x) / slices;
    for (int s = 0; s < slices; ++s) {
      sum += width * depth(std::lerp(margin[i - 1].y, margin[i].y, (s + 0.5) / slices));
    }
  }
  return sum;
}

RC_GTEST_PROP(TimeChartProperty, HatchesWhereTheMarginIs, ()) {
  const PlanRun planned = travel(support::random_plan(support::rapidcheck_pick()));
  const Levels levels = answers::levels(planned);
  const std::vector<std::size_t> order = life_first(planned);
  const auto pieces = pieces_of(planned);
  RC_PRE(pieces.size() == 1U);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const engine::ReserveInfo& info = planned.course.reserves[order[i]];
    const bool above = info.sense == engine::Sense::keep_above;
    const ReadChart chart = read(pieces[0], pieces[0].strips[i]);
    std::vector<Point> margin;
    for (const Level& level : levels.reserves[order[i]]) {
      const double shown = display_number(info, level.margin, units::System::metric);
      margin.push_back(chart.point(level.hour, shown));
    }
    double area = 0;
    for (const auto& line : lines_of(pieces[0].strips[i].marks, zone_hatch())) {
      area +=
          std::hypot(line[1].x - line[0].x, line[1].y - line[0].y) * zone_apart_pt / std::sqrt(2.0);
      // No part of it on the safe side of the margin.
      for (const double share : {0.1, 0.5, 0.9}) {
        const Point at{.x = std::lerp(line[0].x, line[1].x, share),
                       .y = std::lerp(line[0].y, line[1].y, share)};
        const auto next = std::ranges::lower_bound(margin, at.x, {}, &Point::x);
        RC_ASSERT(next != margin.end());
        const Point before = next == margin.begin() ? *next : *std::prev(next);
        const double highest = std::min(before.y, next->y);
        const double lowest = std::max(before.y, next->y);
        const bool beyond = above ? at.y > highest - near_pt : at.y < lowest + near_pt;
        RC_ASSERT(beyond);
      }
    }
    // As much as there is of it, but for the lines at its edges.
    const double expected = zone_area(chart, margin, above);
    RC_ASSERT(std::abs(area - expected) < 40 + 0.12 * expected);
  }
}

}  // namespace
}  // namespace drystage::report::time_chart_test
