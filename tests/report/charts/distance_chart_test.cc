// Fuel and drinking water along the way: what the run says, where it says it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/schedule.h"
#include "report/charts/picture.h"
#include "report/charts/run_parts.h"
#include "report/text/words.h"
#include "support/charts.h"
#include "support/laid_out.h"
#include "support/needs_answer.h"
#include "support/overlaps.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::report::distance_chart_test {
namespace {

using answers::PlanRun;
using drawing::Block;
using drawing::Point;
using support::lines_of;
using support::PlanText;
using support::ReadChart;
using support::travel;
using support::words_of;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

constexpr double near_pt = 0.1;

const drawing::Typesetter& typesetter() {
  static const drawing::Typesetter one;
  return one;
}

std::vector<Block> chart_of(const PlanRun& planned, units::System system = units::System::metric) {
  return distance_chart(typesetter(), planned, trip_line(*planned.course.timeline),
                        answers::levels(planned), system);
}

const Block& strip_of(const std::vector<Block>& blocks, const std::string& title) {
  const auto found = std::ranges::find_if(blocks, [&title](const Block& block) {
    return words_of(block.marks).find(title) != std::string::npos;
  });
  if (found == blocks.end()) throw std::out_of_range("there is no strip of " + title);
  return *found;
}

TEST(DistanceChart, HasWaterAndFuelAlone) {
  const std::vector<Block> blocks = chart_of(travel(support::three_places()));
  ASSERT_THAT(blocks, SizeIs(4));
  EXPECT_THAT(words_of(blocks[0].marks), HasSubstr("Red Tables"));
  EXPECT_THAT(words_of(blocks[1].marks), HasSubstr("Drinking water, L"));
  EXPECT_THAT(words_of(blocks[2].marks), HasSubstr("Fuel of truck, L"));
  EXPECT_THAT(words_of(blocks[3].marks), HasSubstr("km driven"));
}

TEST(DistanceChart, IsNothingWhereNobodyDrives) {
  EXPECT_THAT(chart_of(travel(PlanText{})), IsEmpty());
}

TEST(DistanceChart, ArrivesWithTheFuelOfTheRecord) {
  const auto trip = travel(support::three_places());
  const std::vector<Block> blocks = chart_of(trip);
  const Block& strip = strip_of(blocks, "Fuel of truck, L");
  const ReadChart chart = support::read_strip(typesetter(), strip, 0, 315);
  const auto lines = lines_of(strip.marks, plan_line());
  ASSERT_THAT(lines, SizeIs(1));
  EXPECT_NEAR(chart.levels.number(lines[0].front().y), trip.reserve(0, "fuel:truck").start, 0.1);
  EXPECT_NEAR(chart.levels.number(lines[0].back().y),
              trip.reserve(trip.days() - 1, "fuel:truck").end, 0.1);
  EXPECT_NEAR(lines[0].back().x, chart.frame.right(), near_pt);
  // In Red Tables, after 200 km, with what the first day leaves.
  EXPECT_LT(support::distance(chart.point(200, trip.reserve(0, "fuel:truck").end), lines), near_pt);
}

TEST(DistanceChart, FallsStraightDownWhereNobodyDrives) {
  const auto trip = travel(support::three_places());
  const std::vector<Block> blocks = chart_of(trip);
  const Block& strip = strip_of(blocks, "Drinking water, L");
  const ReadChart chart = support::read_strip(typesetter(), strip, 0, 315);
  const auto lines = lines_of(strip.marks, plan_line());
  // Two whole days in Red Tables.
  for (const std::size_t day : {1U, 2U}) {
    const engine::ReserveDay& row = trip.reserve(day, "drinking_water");
    EXPECT_LT(support::distance(chart.point(200, row.start), lines), near_pt);
    EXPECT_LT(support::distance(chart.point(200, row.end), lines), near_pt);
  }
}

TEST(DistanceChart, ShowsMiles) {
  const std::vector<Block> blocks = chart_of(travel(support::three_places()), units::System::us);
  EXPECT_THAT(words_of(blocks.back().marks), HasSubstr("mi driven"));
  EXPECT_THAT(words_of(blocks.back().marks), HasSubstr("150"));
  EXPECT_THAT(words_of(blocks.back().marks), Not(HasSubstr("250")));
}

RC_GTEST_PROP(DistanceChartProperty, DrawsTheLevelsOfTheRun, ()) {
  const plan::Plan plan = support::random_plan(support::rapidcheck_pick()).plan();
  const PlanRun planned = travel(plan);
  const engine::Schedule schedule = engine::lay_out(plan);
  const double total_km = support::total_km(schedule.segments);
  RC_PRE(total_km > 0);
  const answers::Levels levels = answers::levels(planned);
  const std::vector<Block> blocks = chart_of(planned);
  std::size_t next = 1;
  for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = planned.course.reserves[r];
    if (info.id.family != engine::Family::fuel &&
        info.id.family != engine::Family::drinking_water) {
      continue;
    }
    const Block& strip = blocks.at(next++);
    const ReadChart chart = support::read_strip(typesetter(), strip, 0, total_km);
    const auto lines = lines_of(strip.marks, plan_line());
    for (const answers::Level& level : levels.reserves[r]) {
      const double km = support::driven_by_km(schedule, level.hour);
      const double shown = display_number(info, level.level, units::System::metric);
      RC_ASSERT(support::distance(chart.point(km, shown), lines) < near_pt);
    }
  }
  RC_ASSERT(next + 1 == blocks.size());
}

}  // namespace
}  // namespace drystage::report::distance_chart_test
