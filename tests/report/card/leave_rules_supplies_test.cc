// Which supplies a line about leaving a place names, and which not.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/card/rules.h"
#include "support/card_answer.h"
#include "support/needs_answer.h"

namespace drystage {
namespace {

using support::card_answer;
using support::PlanText;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

/// Three places with so much water to begin with, and an order at the second, which has it so.
PlanText with_water(const std::string& filled, const std::string& at_second,
                    const std::string& order) {
  PlanText plan = support::three_places();
  plan.containers = {"{name: can, holds: 120 L, filled: " + filled + ", for: drinking}"};
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {" + at_second + "}");
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {drinking_water: " + order + "}");
  return plan;
}

/// All headlines, a line each.
std::string headlines(const report::CardAnswer& answer) {
  std::string out;
  for (const report::LeaveRule& rule : report::leave_rules(answer, units::System::metric)) {
    out += rule.headline + "\n";
  }
  return out;
}

TEST(LeaveRules, NameNoSupplyBeyondTheNextSureOne) {
  PlanText plan = with_water("10 L", "confirmed: no", "fill");
  plan.places.push_back(PlanText::place("Last Well", "air", "drinking_water: {confirmed: no}"));
  plan.itinerary.emplace_back("drive: {to: Last Well, distance: 90 km, surfaces: gravel}");
  plan.itinerary.emplace_back("resupply: {drinking_water: fill}");
  plan.itinerary.emplace_back("stay: {nights: 1}");
  // Far Well lies between.
  EXPECT_THAT(headlines(card_answer(plan)),
              AllOf(HasSubstr("UNLESS drinking water at Red Tables IS CONFIRMED"),
                    Not(HasSubstr("Last Well"))));
}

TEST(LeaveRules, NameNoSupplyThatIsShutThatDay) {
  // 1 March 2027 is a Monday. Confirmed or not, nothing is to be had.
  const auto answer = card_answer(with_water("10 L", "confirmed: no, open: [tue]", "fill"));
  EXPECT_THAT(headlines(answer), Not(HasSubstr("CONFIRMED")));
}

TEST(LeaveRules, SayWhereMoreMustBeTakenThanCanBeHeld) {
  PlanText plan = support::three_places();
  plan.containers = {"{name: can, holds: 10 L, filled: 10 L, for: drinking}"};
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {}");
  plan.places[2] = PlanText::place("Far Well", "air", "diesel: {}");
  // From eight on day 4 to the end of day 6 at four litres a day are 10.7, and one is the margin.
  EXPECT_THAT(
      headlines(card_answer(plan)),
      HasSubstr("From Red Tables, 08:00, YOU CANNOT CARRY ENOUGH: it takes 12 L of drinking "
                "water."));
}

TEST(LeaveRules, OrderNoMoreThanCanBeHeldWhereASupplyAheadIsNotConfirmed) {
  PlanText plan = with_water("10 L", "confirmed: no", "fill");
  plan.containers = {"{name: can, holds: 10 L, filled: 10 L, for: drinking}"};
  const std::string words = headlines(card_answer(plan));
  EXPECT_THAT(words, HasSubstr("From Base, 08:00, YOU CANNOT CARRY ENOUGH: it takes "));
  EXPECT_THAT(words, HasSubstr("L of drinking water. DO NOT LEAVE UNLESS drinking water at Red "
                               "Tables IS CONFIRMED."));
  EXPECT_THAT(words, Not(HasSubstr("AT LEAST")));
}

TEST(LeaveRules, LayNothingToAnUnconfirmedSupplyThatIsNotEnoughItself) {
  // With it, too, water runs out before Far Well: that is the verdict's to say.
  const auto answer = card_answer(with_water("5 L", "confirmed: no", "1 L"));
  ASSERT_FALSE(answer.needs.planned.verdict.holds);
  EXPECT_EQ(report::below_must_words(answer), "");
}

}  // namespace
}  // namespace drystage
