// What `run` says of a plan, as a picture.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "drawing/page.h"
#include "report/charts/charts.h"
#include "report/run/words.h"
#include "support/answer.h"
#include "support/laid_out.h"
#include "support/needs_answer.h"
#include "support/overlaps.h"
#include "support/random_plan.h"

namespace drystage::report {
namespace {

using support::unwrapped;
using support::words_of;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

std::string words(const RunAnswer& answer) {
  const drawing::Drawing drawing = run_chart(answer, units::System::metric);
  return unwrapped(words_of(drawing.pages.at(0).marks));
}

TEST(RunChart, IsOnePageOfThatWidth) {
  const drawing::Drawing drawing =
      run_chart(support::answer(support::three_places()), units::System::metric);
  ASSERT_THAT(drawing.pages, SizeIs(1));
  EXPECT_DOUBLE_EQ(drawing.pages[0].width_pt, 190 * drawing::points_per_mm);
  EXPECT_EQ(drawing.title, "A test");
}

TEST(RunChart, SaysWhatRunSaysFirst) {
  RunAnswer answer = support::answer(support::three_places());
  EXPECT_THAT(words(answer), HasSubstr("HOLDS: every reserve keeps its margin on all 6 days."));
  EXPECT_THAT(words(answer),
              HasSubstr("A test 1 person, 6 days: Mon 01 Mar 2027 to Sat 06 Mar 2027"));
  support::PlanText plan = support::three_places();
  plan.containers = {"{name: can, holds: 120 L, filled: 10 L, for: drinking}"};
  answer = support::answer(plan);
  EXPECT_THAT(words(answer), HasSubstr(verdict_words(answer.planned, answer.without_unconfirmed,
                                                     units::System::metric)));
  EXPECT_THAT(words(answer), HasSubstr("DOES NOT HOLD: drinking water"));
}

TEST(RunChart, HasAChartForEachReserveWarningsAndTheCautions) {
  RunAnswer answer = support::answer(support::three_places());
  answer.warnings = {"the plan is a test"};
  const std::string text = words(answer);
  for (const char* title : {"Drinking water, L", "Fuel of truck, L", "Food, meals"}) {
    EXPECT_THAT(text, HasSubstr(title));
  }
  EXPECT_THAT(text, HasSubstr("Warning: the plan is a test."));
  EXPECT_THAT(text, HasSubstr("A planning aid, no more."));
  EXPECT_THAT(text, HasSubstr("when to raise the alarm."));
  EXPECT_THAT(text, Not(HasSubstr("must")));
}

TEST(RunChart, TellsWhatDecidesFirst) {
  const std::string text = words(support::answer(support::three_places()));
  const std::size_t decides = text.find("What decides, day by day");
  const std::size_t days = text.find("Day by day");
  const std::size_t way = text.find("Along the way");
  EXPECT_LT(text.find("HOLDS"), decides);
  EXPECT_LT(decides, days);
  EXPECT_LT(days, way);
  EXPECT_NE(way, std::string::npos);
}

TEST(RunChart, HasNothingAlongTheWayWhereNobodyDrives) {
  const std::string text = words(support::answer(support::PlanText{}));
  EXPECT_THAT(text, Not(HasSubstr("Along the way")));
  EXPECT_THAT(text, Not(HasSubstr("Straight down")));
}

TEST(RunChart, OfEveryShippedPlanIsNoLongerThanTwoSheets) {
  static const drawing::Typesetter typesetter;
  for (const plan::Plan& plan : support::all_scenarios()) {
    const drawing::Drawing drawing = run_chart(support::answer(plan), units::System::metric);
    ASSERT_THAT(drawing.pages, SizeIs(1));
    // Of more than a dozen reserves, one more.
    const double sheets = plan.consumables.size() > 2 ? 3 : 2;
    EXPECT_LT(drawing.pages[0].height_pt, sheets * drawing::a4.height_pt) << plan.trip.title;
    EXPECT_THAT(support::faults(typesetter, drawing.pages[0]), ::testing::IsEmpty());
  }
}

RC_GTEST_PROP(RunChartProperty, OverlapsNothing, ()) {
  static const drawing::Typesetter typesetter;
  const RunAnswer answer = support::answer(support::random_plan(support::rapidcheck_pick()));
  for (const drawing::Page& page : run_chart(answer, units::System::metric).pages) {
    for (const std::string& fault : support::faults(typesetter, page)) RC_FAIL(fault);
  }
}

}  // namespace
}  // namespace drystage::report
