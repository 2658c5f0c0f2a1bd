// Charts of reserves: read as a reader would, they say what the run says.
#include "report/charts/level_chart.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "drawing/page.h"
#include "report/charts/picture.h"
#include "report/text/words.h"
#include "support/charts.h"
#include "support/needs_answer.h"
#include "support/overlaps.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::report::level_chart_test {
namespace {

using answers::Levels;
using answers::Needs;
using answers::PlanRun;
using drawing::Block;
using drawing::Mark;
using drawing::Point;
using drawing::Text;
using drawing::Typesetter;
using support::distance;
using support::lines_of;
using support::need_of;
using support::PlanText;
using support::read_chart;
using support::ReadChart;
using support::reserve_index;
using support::travel;
using support::words_of;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;
using ::testing::StartsWith;

constexpr double day_h = 24;
constexpr double near_pt = 0.1;
const double a4_pt = drawing::a4.column_pt();
const double letter_pt = drawing::letter.column_pt();
constexpr double endless = std::numeric_limits<double>::infinity();

const Typesetter& typesetter() {
  static const Typesetter one;
  return one;
}

std::vector<Block> charts(const PlanRun& planned, const Needs* needs = nullptr,
                          double width_pt = a4_pt, units::System system = units::System::metric) {
  return level_charts(typesetter(), planned, answers::levels(planned), needs, width_pt, system);
}

std::string title(const Block& block) { return std::get<Text>(block.marks.front()).words; }

const Block& chart_of(const std::vector<Block>& blocks, const std::string& start) {
  const auto found = std::ranges::find_if(
      blocks, [&start](const Block& block) { return title(block).starts_with(start); });
  if (found == blocks.end()) throw std::out_of_range("there is no chart of " + start);
  return *found;
}

/// Reserves in the order in which they are to be shown.
std::vector<std::size_t> order_of(const PlanRun& planned) {
  std::vector<std::size_t> out;
  for (const bool life : {true, false}) {
    for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
      if (planned.course.reserves[r].life_supporting == life) out.push_back(r);
    }
  }
  return out;
}

/// Middles of the dots within the frame, or on it, from left to right.
std::vector<Point> dots(const Block& block, const ReadChart& chart) {
  std::vector<Point> out;
  for (const Mark& mark : block.marks) {
    const auto* shape = std::get_if<drawing::Shape>(&mark);
    if (shape == nullptr || !shape->fill_grey || shape->points.size() < 8) continue;
    Point middle;
    for (const Point& point : shape->points) {
      middle.x += point.x / static_cast<double>(shape->points.size());
      middle.y += point.y / static_cast<double>(shape->points.size());
    }
    // That of the key stands above it.
    if (middle.y > chart.frame.y - 1) out.push_back(middle);
  }
  std::ranges::sort(out, {}, &Point::x);
  return out;
}

/// Days (from 1) over which a sign stands, read by where it is.
std::vector<int> days_with(const std::string& sign, const Block& block) {
  const ReadChart chart = read_chart(typesetter(), block);
  std::vector<int> out;
  for (const Mark& mark : block.marks) {
    const auto* text = std::get_if<Text>(&mark);
    if (text == nullptr || text->words != sign) continue;
    const drawing::Rect ink = ink_box(typesetter(), *text);
    // Those of the key stand higher.
    if (chart.frame.y - ink.bottom() > 1) continue;
    const double hour = chart.hours.number(ink.x + ink.width / 2);
    out.push_back(static_cast<int>(std::floor(hour / day_h)) + 1);
  }
  std::ranges::sort(out);
  return out;
}

/// A trip of so many days on 4 L a day out of one can.
PlanText staying(int nights, const std::string& filled = "60 L") {
  PlanText plan;
  plan.margins = {"drinking_water: 8 L"};
  plan.containers = {"{name: can, holds: 60 L, filled: " + filled + ", for: drinking}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(nights) + "}"};
  return plan;
}

TEST(LevelChart, HasOneForEachReserveThoseThatLifeHangsOnFirst) {
  PlanText plan = support::three_places();
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  plan.cold = {"{name: chest, volume: 40 L, ice: 1 kg, heat_leak: 3 W/K}"};
  const PlanRun planned = travel(plan);
  std::vector<std::string> titles;
  for (const Block& block : charts(planned)) titles.push_back(title(block));
  ASSERT_THAT(titles, SizeIs(planned.course.reserves.size()));
  EXPECT_THAT(titles[0], StartsWith("Drinking water, L"));
  EXPECT_THAT(titles[1], StartsWith("Fuel of truck, L"));
  EXPECT_THAT(titles, ::testing::Contains("Cold in chest, °C"));
  EXPECT_THAT(titles, ::testing::Contains("Bank, Ah"));
}

TEST(LevelChart, DrawsTheStraightLineOfASteadyUse) {
  // 4 L a day while awake: at each midnight 4 L less than at the one before.
  const PlanRun planned = travel(staying(5));
  const std::vector<Block> blocks = charts(planned);
  const Block& block = chart_of(blocks, "Drinking water");
  const ReadChart chart = read_chart(typesetter(), block);
  const auto plan = lines_of(block.marks, plan_line());
  for (int midnight = 0; midnight <= 5; ++midnight) {
    const Point expected = chart.point(day_h * midnight, 60.0 - 4 * midnight);
    EXPECT_LT(distance(expected, plan), near_pt) << midnight;
  }
  const auto margin = lines_of(block.marks, margin_line());
  EXPECT_LT(distance(chart.point(12, 8), margin), near_pt);
  EXPECT_LT(distance(chart.point(120, 8), margin), near_pt);
}

TEST(LevelChart, ShowsFromNothingToWhatCanBeHeld) {
  const std::vector<Block> blocks = charts(travel(staying(5, "30 L")));
  const ReadChart chart = read_chart(typesetter(), chart_of(blocks, "Drinking water"));
  EXPECT_NEAR(chart.levels.number(chart.frame.bottom()), 0, 0.01);
  EXPECT_GT(chart.levels.number(chart.frame.y), 60);
  EXPECT_LT(chart.levels.number(chart.frame.y), 70);
}

TEST(LevelChart, HasFineLinesTwoMillimetresApartOrSo) {
  const std::vector<Block> blocks = charts(travel(staying(5)));
  const Block& block = chart_of(blocks, "Drinking water");
  const ReadChart chart = read_chart(typesetter(), block);
  std::vector<double> level;
  for (const drawing::Stroke& stroke : {fine_grid(), strong_grid()}) {
    for (const auto& line : lines_of(block.marks, stroke)) {
      if (line.front().y == line.back().y) level.push_back(line.front().y);
    }
  }
  std::ranges::sort(level);
  ASSERT_GT(level.size(), 8U);
  for (std::size_t i = 1; i < level.size(); ++i) {
    EXPECT_GE(level[i] - level[i - 1], 1.8 * drawing::points_per_mm);
    EXPECT_LE(level[i] - level[i - 1], 4.6 * drawing::points_per_mm);
  }
  EXPECT_GT(chart.frame.height, 30 * drawing::points_per_mm);
}

TEST(LevelChart, DrawsALineAtEachMidnight) {
  const std::vector<Block> blocks = charts(travel(staying(5)));
  const Block& block = chart_of(blocks, "Drinking water");
  const ReadChart chart = read_chart(typesetter(), block);
  const auto strong = lines_of(block.marks, strong_grid());
  for (int midnight = 1; midnight < 5; ++midnight) {
    EXPECT_LT(distance(chart.point(day_h * midnight, 31), strong), near_pt);
  }
}

TEST(LevelChart, DrawsARefillStraightUp) {
  PlanText plan = staying(2);
  plan.places = {PlanText::place("Base", "air", "drinking_water: {}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 3}", "resupply: {drinking_water: fill}",
                    "stay: {nights: 2}"};
  const auto trip = travel(plan);
  const auto refills = trip.told(engine::EventKind::refill);
  ASSERT_THAT(refills, SizeIs(1));
  const double hour = support::trip_hour(refills[0]);
  const std::vector<Block> blocks = charts(trip);
  const Block& block = chart_of(blocks, "Drinking water");
  const ReadChart chart = read_chart(typesetter(), block);
  const Point low = chart.point(hour, 60 - refills[0].amount);
  const Point high = chart.point(hour, 60);
  int steps = 0;
  for (const auto& line : lines_of(block.marks, plan_line())) {
    for (std::size_t i = 1; i < line.size(); ++i) {
      if (line[i].y >= line[i - 1].y - 1) continue;
      ++steps;
      EXPECT_NEAR(line[i - 1].x, line[i].x, 1e-6);
      EXPECT_NEAR(line[i].x, low.x, near_pt);
      EXPECT_NEAR(line[i - 1].y, low.y, near_pt);
      EXPECT_NEAR(line[i].y, high.y, near_pt);
    }
  }
  EXPECT_EQ(steps, 1);
}

TEST(LevelChart, MarksDaysBelowTheMarginAndDaysOnWhichItRunsOut) {
  // 14 L: below 8 L on the second day, and of the 16 L that four days take two are lacking.
  const auto trip = travel(staying(4, "14 L"));
  const std::vector<Block> blocks = charts(trip);
  const Block& block = chart_of(blocks, "Drinking water");
  EXPECT_THAT(days_with("!", block), ElementsAre(2, 3));
  EXPECT_THAT(days_with("!!", block), ElementsAre(4));
  EXPECT_THAT(words_of(block.marks), HasSubstr("below its margin"));
  EXPECT_THAT(words_of(block.marks), HasSubstr("runs out"));
  EXPECT_THAT(words_of(chart_of(blocks, "Food").marks), Not(HasSubstr("!")));
}

TEST(LevelChart, SaysNothingOfAMarginWhereThereIsNone) {
  const std::vector<Block> blocks = charts(travel(staying(3)));
  EXPECT_THAT(words_of(chart_of(blocks, "Drinking water").marks), HasSubstr("margin"));
  const Block& food = chart_of(blocks, "Food");
  EXPECT_THAT(words_of(food.marks), Not(HasSubstr("margin")));
  EXPECT_THAT(lines_of(food.marks, margin_line()), IsEmpty());
}

TEST(LevelChart, SaysNothingOfWhatMustBeOnBoardWithoutNeeds) {
  for (const Block& block : charts(travel(staying(3)))) {
    EXPECT_THAT(words_of(block.marks), Not(HasSubstr("must")));
    EXPECT_THAT(lines_of(block.marks, must_line()), IsEmpty());
  }
}

TEST(LevelChart, PutsADotWhereWhatMustBeOnBoardIs) {
  NeedsAnswer answer = support::plain_needs(staying(4));
  const double must[] = {40, 31.5, 22, 9};
  for (std::size_t day = 0; day < 4; ++day) {
    need_of(answer, day, "drinking_water").must_have = must[day];
  }
  const std::vector<Block> blocks = charts(answer.planned, &answer.needs);
  const Block& block = chart_of(blocks, "Drinking water");
  const ReadChart chart = read_chart(typesetter(), block);
  const std::vector<Point> at = dots(block, chart);
  ASSERT_THAT(at, SizeIs(4));
  for (std::size_t day = 0; day < 4; ++day) {
    EXPECT_NEAR(chart.hours.number(at[day].x), day_h * static_cast<double>(day), 0.1);
    EXPECT_NEAR(chart.levels.number(at[day].y), must[day], 0.1);
  }
}

TEST(LevelChart, TellsInWordsWhatIsAboveTheChart) {
  NeedsAnswer answer = support::plain_needs(staying(4));
  for (const std::size_t day : {1U, 2U}) {
    need_of(answer, day, "drinking_water").must_have = 70.2 + static_cast<double>(day);
    need_of(answer, day, "drinking_water").fits = false;
  }
  need_of(answer, 3, "drinking_water").must_have = endless;
  need_of(answer, 3, "drinking_water").fits = false;
  const std::vector<Block> blocks = charts(answer.planned, &answer.needs);
  const Block& block = chart_of(blocks, "Drinking water");
  EXPECT_THAT(dots(block, read_chart(typesetter(), block)), SizeIs(1));
  EXPECT_THAT(words_of(block.marks),
              HasSubstr("Mornings of days 2 and 3: must have up to 73 L, more than the 60 L that "
                        "can be held."));
  EXPECT_THAT(words_of(block.marks), HasSubstr("Morning of day 4: no amount is enough."));
  EXPECT_THAT(words_of(block.marks), HasSubstr("must have lies above the chart"));
}

TEST(LevelChart, MarksMorningsOnWhichThePlanHasTooLittle) {
  NeedsAnswer answer = support::plain_needs(staying(4));
  const auto has_sign = [&answer] {
    const std::vector<Block> blocks = charts(answer.planned, &answer.needs);
    const std::string words = words_of(chart_of(blocks, "Drinking water").marks);
    return words.find("less than it must have") != std::string::npos;
  };
  EXPECT_FALSE(has_sign());
  need_of(answer, 2, "drinking_water").must_have = 20.5;
  EXPECT_TRUE(has_sign());
}

TEST(LevelChart, CutsALongTripIntoChartsOfWideEnoughDays) {
  PlanText plan = staying(100);
  plan.people = {PlanText::person("Ada", "2 L/day")};
  plan.containers = {"{name: tank, holds: 300 L, filled: 300 L, for: drinking}"};
  const PlanRun planned = travel(plan);
  for (const double width_pt : {a4_pt, letter_pt}) {
    const std::vector<Block> blocks = charts(planned, nullptr, width_pt);
    const std::size_t pieces = blocks.size() / planned.course.reserves.size();
    EXPECT_EQ(blocks.size() % planned.course.reserves.size(), 0U);
    EXPECT_GE(pieces, 100 * 4 * drawing::points_per_mm / width_pt);
    const auto last = title(blocks[pieces - 1]);
    EXPECT_THAT(title(blocks[0]), StartsWith("Drinking water, L, days 1 to "));
    EXPECT_THAT(last, HasSubstr(" to 100"));
    for (const Block& block : blocks) {
      const ReadChart chart = read_chart(typesetter(), block);
      EXPECT_GE(chart.hours.at_pt(day_h) - chart.hours.at_pt(0), 4 * drawing::points_per_mm);
      EXPECT_THAT(support::faults(typesetter(), block, width_pt), IsEmpty());
    }
  }
}

TEST(LevelChart, ShowsOtherUnits) {
  const PlanRun planned = travel(staying(3));
  const std::vector<Block> blocks = charts(planned, nullptr, a4_pt, units::System::us);
  const Block& block = chart_of(blocks, "Drinking water, US gal");
  const ReadChart chart = read_chart(typesetter(), block);
  // 60 L are 15.850 US gallons of 3.785411784 L (NIST SP 811).
  EXPECT_LT(distance(chart.point(0, 60 / 3.785411784), lines_of(block.marks, plan_line())),
            near_pt);
}

TEST(LevelChart, HasRoomForLongAndForeignNames) {
  PlanText plan = support::three_places();
  const std::string name =
      "الخزان الخلفي الكبير 後部の大きな燃料タンク wagon of the north " + std::string(26, 'x');
  for (std::string& vehicle : plan.vehicles) vehicle.replace(vehicle.find("truck"), 5, name);
  for (const double width_pt : {a4_pt, letter_pt}) {
    for (const Block& block : charts(travel(plan), nullptr, width_pt)) {
      EXPECT_THAT(support::faults(typesetter(), block, width_pt), IsEmpty());
    }
  }
}

/// How far the levels and margins of a reserve are from the lines of its charts.
void check_lines(const PlanRun& planned, const std::vector<answers::Level>& levels,
                 std::size_t reserve, const Block& block, units::System system) {
  const engine::ReserveInfo& info = planned.course.reserves[reserve];
  const ReadChart chart = read_chart(typesetter(), block);
  const auto plan = lines_of(block.marks, plan_line());
  const auto margin = lines_of(block.marks, margin_line());
  for (const answers::Level& level : levels) {
    const Point at = chart.point(level.hour, display_number(info, level.level, system));
    // What stands in another piece of the trip.
    if (at.x < chart.frame.x || at.x > chart.frame.right()) continue;
    RC_ASSERT(distance(at, plan) < near_pt);
    const Point limit = chart.point(level.hour, display_number(info, level.margin, system));
    if (margin.empty() || limit.y < chart.frame.y) continue;
    RC_ASSERT(distance(limit, margin) < near_pt);
  }
  // And nothing is drawn where no level is: every corner is one, but at the edges of a piece.
  for (const auto& line : plan) {
    // That of the key stands above the frame.
    if (line.front().y < chart.frame.y - 1) continue;
    for (const Point& corner : line) {
      if (corner.x < chart.frame.x + 1 || corner.x > chart.frame.right() - 1) continue;
      const bool known = std::ranges::any_of(levels, [&](const answers::Level& level) {
        const Point at = chart.point(level.hour, display_number(info, level.level, system));
        return std::hypot(at.x - corner.x, at.y - corner.y) < near_pt;
      });
      RC_ASSERT(known);
    }
  }
}

RC_GTEST_PROP(LevelChartProperty, SaysWhatTheRunSays, ()) {
  const PlanRun planned = travel(support::random_plan(support::rapidcheck_pick()));
  const auto system = *rc::gen::element(units::System::metric, units::System::us);
  const double width_pt = *rc::gen::element(a4_pt, letter_pt);
  const Levels levels = answers::levels(planned);
  const std::vector<Block> blocks = charts(planned, nullptr, width_pt, system);
  const std::vector<std::size_t> order = order_of(planned);
  RC_ASSERT(blocks.size() % order.size() == 0U);
  const std::size_t pieces = blocks.size() / order.size();
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const std::size_t reserve = order[i / pieces];
    check_lines(planned, levels.reserves[reserve], reserve, blocks[i], system);
  }
}

RC_GTEST_PROP(LevelChartProperty, OverlapsNothingAndStaysInItsBlock, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const PlanRun planned = travel(support::random_plan(pick));
  const Needs needs = support::random_needs(planned, pick);
  const auto system =
      *rc::gen::element(units::System::metric, units::System::us, units::System::imperial);
  const double width_pt = *rc::gen::element(a4_pt, letter_pt);
  for (const Block& block : charts(planned, &needs, width_pt, system)) {
    for (const std::string& fault : support::faults(typesetter(), block, width_pt)) {
      RC_FAIL(fault);
    }
  }
}

RC_GTEST_PROP(LevelChartProperty, MarksTheDaysThatTheRecordMarks, ()) {
  const PlanRun planned = travel(support::random_plan(support::rapidcheck_pick()));
  const std::vector<Block> blocks = charts(planned);
  const std::vector<std::size_t> order = order_of(planned);
  RC_ASSERT(blocks.size() == order.size());
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    std::vector<int> low;
    std::vector<int> dry;
    for (std::size_t day = 0; day < planned.record.days(); ++day) {
      const engine::ReserveDay& row = planned.record.reserve(day, order[i]);
      if (row.short_of > 0) {
        dry.push_back(static_cast<int>(day) + 1);
      } else if (row.breach_h >= 0) {
        low.push_back(static_cast<int>(day) + 1);
      }
    }
    RC_ASSERT(days_with("!", blocks[i]) == low);
    RC_ASSERT(days_with("!!", blocks[i]) == dry);
  }
}

RC_GTEST_PROP(LevelChartProperty, HasADotForEachMorningThatCanBeMet, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const PlanRun planned = travel(support::random_plan(pick));
  const Needs needs = support::random_needs(planned, pick);
  const std::vector<Block> blocks = charts(planned, &needs);
  const std::vector<std::size_t> order = order_of(planned);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const auto own = std::ranges::find(needs.reserves, static_cast<int>(order[i]));
    if (own == needs.reserves.end()) continue;
    const auto index = static_cast<std::size_t>(own - needs.reserves.begin());
    const ReadChart chart = read_chart(typesetter(), blocks[i]);
    const engine::ReserveInfo& info = planned.course.reserves[order[i]];
    std::vector<double> must;
    for (std::size_t day = 0; day < planned.record.days(); ++day) {
      const answers::Need& need = needs.need(day, index);
      if (!need.fits) continue;
      must.push_back(display_number(info, need.must_have, units::System::metric));
    }
    const std::vector<Point> at = dots(blocks[i], chart);
    RC_ASSERT(at.size() == must.size());
    for (std::size_t d = 0; d < at.size(); ++d) {
      RC_ASSERT(std::abs(chart.levels.at_pt(must[d]) - at[d].y) < near_pt);
    }
  }
}

}  // namespace
}  // namespace drystage::report::level_chart_test
