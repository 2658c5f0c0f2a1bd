#include "report/resume/message.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "answers/base/laid_trip.h"
#include "support/other_plan.h"
#include "support/plan_text.h"
#include "units/day.h"

namespace drystage::report::message_test {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

answers::PlanRun found(plan::Plan plan, int day, double drinking_l) {
  plan.readings.push_back({.day = day - 1, .in_the_evening = true, .drinking_l = drinking_l});
  return support::run_plan(plan);
}

TEST(Message, GoesAsOneTextAndSaysWhatWhoeverWaitsMustKnow) {
  const answers::PlanRun rest = found(support::scenario_plan("desert-crossing"), 6, 80);
  const std::string words = message_words(rest, units::System::metric);
  EXPECT_LE(words.size(), most_message_signs);
  EXPECT_THAT(words, HasSubstr("13 Mar 20:00"));
  EXPECT_THAT(words, HasSubstr("Red Tables 22.200N 36.600W"));
  EXPECT_THAT(words, HasSubstr("water "));
  EXPECT_THAT(words, HasSubstr("Next Hollow Arch 17 Mar."));
  EXPECT_THAT(words, HasSubstr("raise alarm"));
}

TEST(Message, LeavesOutNamesThatATelephoneWouldSendAsLongerText) {
  plan::Plan plan = support::scenario_plan("desert-crossing");
  for (plan::Place& place : plan.places) place.name = "Ñ\u0394 " + std::string(60, 'x');
  const std::string words = message_words(found(plan, 6, 80), units::System::metric);
  EXPECT_LE(words.size(), most_message_signs);
  for (const char c : words) EXPECT_TRUE(c >= ' ' && c <= '~') << words;
  EXPECT_THAT(words, HasSubstr("22.200N"));
}

TEST(Alarm, ComesADayAfterTheEndOrADayBeforeTheWaterIsGone) {
  const plan::Plan plan = support::scenario_plan("desert-crossing-mended");
  const answers::PlanRun plenty = found(plan, 13, 60);
  double end_h = 0;
  for (const engine::TimeStep& step : plenty.course.timeline->steps) {
    if (step.drive >= 0) end_h = day_h * step.day + step.from_h + step.dt_h;
  }
  EXPECT_NEAR(alarm_h(plenty), end_h + day_h, 1e-9);
  const answers::PlanRun little = found(plan, 6, 30);
  const double now_h = answers::last_reading(little).trip_h();
  const double lasts = little.record.reserve(5, 0).endurance;
  EXPECT_LE(alarm_h(little), now_h + day_h * std::max(lasts - 1, lasts / 2) + 1e-9);
  EXPECT_GT(alarm_h(little), now_h);
  // Always while there is water: 2 L last some hours.
  EXPECT_LT(alarm_h(found(plan, 6, 2)), now_h + day_h / 4);
}

}  // namespace
}  // namespace drystage::report::message_test
