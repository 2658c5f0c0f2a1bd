// With how much a place must be left: said wherever last evening's figure is not enough.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "report/card/evening_figures.h"
#include "report/card/rules.h"
#include "support/card_answer.h"
#include "support/needs_answer.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using report::leave_rules;
using report::LeaveRule;
using support::card_answer;
using support::PlanText;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::MatchesRegex;
using ::testing::Not;
using ::testing::SizeIs;

std::vector<LeaveRule> rules(const report::CardAnswer& answer) {
  return leave_rules(answer, units::System::metric);
}

/// Three places, then five more days: a sure well at Red Tables that the plan takes nothing from.
PlanText by_a_well(const std::string& well) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", well);
  plan.places[2] = PlanText::place("Far Well", "air", "diesel: {}");
  return plan;
}

TEST(LeaveRules, SayWhereMoreMustBeOnBoardThanTheEveningBefore) {
  const auto list = rules(card_answer(by_a_well("drinking_water: {}")));
  ASSERT_THAT(list, SizeIs(1));
  // From eight on day 4 to the end of day 6 at four litres a day are 10.7, and one is the margin.
  EXPECT_EQ(list[0].day, 3);
  EXPECT_NEAR(list[0].hour, 8, 1e-9);
  EXPECT_EQ(list[0].headline, "LEAVE Red Tables, 08:00, WITH AT LEAST 12 L of drinking water.");
}

TEST(LeaveRules, AreNotNeededWhereTheFigureOnlyFalls) {
  EXPECT_THAT(rules(card_answer(support::three_places())), IsEmpty());
}

TEST(LeaveRules, NameTheFuelAndTheVehicle) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", "diesel: {}");
  plan.itinerary[3] = "drive: {to: Far Well, distance: 400 km, surfaces: gravel}";
  const auto list = rules(card_answer(plan));
  ASSERT_THAT(list, SizeIs(1));
  EXPECT_THAT(
      list[0].headline,
      MatchesRegex("LEAVE Red Tables, 08:00, WITH AT LEAST [0-9]+ L of diesel \\(truck\\)\\..*"));
}

TEST(LeaveRules, SayWhatMustBeConfirmedBeforeAPlaceIsLeft) {
  // Twenty litres for seven days at four: water at Red Tables is leaned on.
  PlanText plan = support::three_places();
  plan.containers = {"{name: can, holds: 120 L, filled: 10 L, for: drinking}"};
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {confirmed: no}");
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
  const auto answer = card_answer(plan);
  const auto list = rules(answer);
  ASSERT_FALSE(list.empty());
  EXPECT_EQ(list[0].day, 0);
  EXPECT_THAT(list[0].headline,
              HasSubstr("DO NOT LEAVE UNLESS drinking water at Red Tables IS CONFIRMED."));
  EXPECT_THAT(report::below_must_words(answer),
              HasSubstr("If it is not there, you carry too little: drinking water ("));
}

TEST(LeaveRules, SayWhatMustBeConfirmedBeforeSettingOutWhereNothingSureIsPassed) {
  PlanText plan = support::three_places();
  plan.containers = {"{name: can, holds: 120 L, filled: 10 L, for: drinking}"};
  plan.places[0] = PlanText::place("Base", "air", "diesel: {}");
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {confirmed: no}");
  plan.places[2] = PlanText::place("Far Well", "air", "diesel: {}");
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
  const auto list = rules(card_answer(plan));
  ASSERT_FALSE(list.empty());
  EXPECT_EQ(list[0].day, 0);
  EXPECT_EQ(list[0].hour, 0);
  EXPECT_EQ(list[0].headline, "DO NOT SET OUT UNLESS drinking water at Red Tables IS CONFIRMED.");
}

TEST(LeaveRules, AreSilentOfWhatIsConfirmedWhereThePlanHasEnough) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {confirmed: no}");
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {drinking_water: fill}");
  const auto answer = card_answer(plan);
  for (const LeaveRule& rule : rules(answer)) {
    EXPECT_THAT(rule.headline, Not(HasSubstr("CONFIRMED")));
  }
  EXPECT_EQ(report::below_must_words(answer), "");
}

/// A reader who goes by the figures alone: where that of the evening after a place is higher than
/// that of the evening before it, a line said so there.
RC_GTEST_PROP(LeaveRules, TellEveryRiseThatASupplyMakes, ()) {
  const report::CardAnswer answer = card_answer(support::random_plan(support::rapidcheck_pick()));
  const auto list = rules(answer);
  const auto& needs = answer.needs.needs;
  for (const answers::Leaving& leaving : answer.leavings) {
    const auto i = static_cast<std::size_t>(std::ranges::find(needs.reserves, leaving.reserve) -
                                            needs.reserves.begin());
    const auto after = static_cast<std::size_t>(leaving.leaves.day) + 1;
    const bool last_of_day =
        std::ranges::none_of(answer.leavings, [&](const answers::Leaving& other) {
          return other.reserve == leaving.reserve && other.leaves.day == leaving.leaves.day &&
                 other.leaves.hour > leaving.leaves.hour;
        });
    if (after >= answer.needs.planned.record.days() || !last_of_day) continue;
    // Where more is had again before midnight, the figure of that evening is of a later stretch.
    if (leaving.until_place >= 0 && leaving.until_place != needs.need(after, i).until_place)
      continue;
    // Nor is it of the way that was left for where the night is spent at the supply ahead.
    const auto& day = answer.needs.planned.course.timeline->days[after - 1];
    if (leaving.until_place >= 0 && engine::place_at(day.schedule.to) == leaving.until_place)
      continue;
    const double before = needs.need(static_cast<std::size_t>(leaving.arrives_day), i).must_have;
    if (needs.need(after, i).must_have <= before + 0.01) continue;
    RC_ASSERT(std::ranges::any_of(list, [&](const LeaveRule& rule) {
      return rule.day == leaving.leaves.day && rule.hour == leaving.leaves.hour;
    }));
  }
}

}  // namespace
}  // namespace drystage
