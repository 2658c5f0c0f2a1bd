// The lines of sets that were found by running: what counted things are of, and how they read.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "report/size/report.h"
#include "support/answer.h"
#include "support/size_of.h"
#include "support/trip.h"

namespace drystage {
namespace {

using answers::SizedLine;
using report::SizeAnswer;
using support::found;
using support::line_of;
using support::PlanText;
using support::unwrapped;
using ::testing::HasSubstr;
using ::testing::Not;

/// One person who drinks 4 L a day for ten days, with four cans of 10 L of which so much is full.
PlanText four_tens(const std::string& filled) {
  PlanText plan;
  for (int can = 1; can <= 4; ++can) {
    plan.containers.push_back(
        "{name: can " + std::to_string(can) +
        ", holds: 10 L, for: drinking, empty_mass: 0.7 kg, filled: " + filled + "}");
  }
  plan.itinerary = {"{at: Base}", "stay: {nights: 10}"};
  return plan;
}

std::string words_of(const PlanText& plan, const std::string& sections) {
  SizeAnswer answer;
  answer.planned = support::travel(support::with_sections(plan, sections));
  answer.sizing = answers::size_plan(answer.planned, {});
  return unwrapped(report::size_text(answer, {}));
}

constexpr const char* tens = "size: {containers: {drinking: [10 L]}}";
constexpr const char* asks_for_twenties =
    "size: {containers: {drinking: [20 L]}, keep: [can 1, can 2]}";

TEST(SizeLines, SayWhatCansAreOfAndHowMuchEachHolds) {
  const answers::Sizing sizing = support::size_of(four_tens("10 L"), tens);
  const SizedLine& line = line_of(found(sizing), "10 L container of drinking water");
  EXPECT_EQ(line.of, "drinking water");
  EXPECT_EQ(line.each, 10);
  EXPECT_EQ(line.unit, "L");
  EXPECT_EQ(line.plan_detail, "");
  EXPECT_EQ(line.detail, "");
}

TEST(SizeLines, SayWhoseFuelItIsButNotInWhoseCarItGoes) {
  PlanText plan = four_tens("10 L");
  plan.vehicles = {
      "{name: van, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: t, holds: 60 L, filled: "
      "60 L}, {name: jerry, holds: 20 L, filled: 20 L, empty_mass: 4 kg}]}",
      "{name: car, fuel: petrol, mass: {empty: 1500 kg}, tanks: [{name: u, holds: 60 L, filled: "
      "60 L}]}"};
  const answers::Sizing sizing = support::size_of(
      plan,
      "size: {fuel_cans: {van: [20 L]}, containers: {drinking: [20 L, {holds: 10 L, in: "
      "van}]}}");
  int counted = 0;
  for (const SizedLine& line : found(sizing).lines) {
    if (line.many.empty()) {
      EXPECT_EQ(line.of, "") << line.one;
      EXPECT_EQ(line.each, 0) << line.one;
      continue;
    }
    ++counted;
    EXPECT_EQ(line.unit, "L");
    EXPECT_THAT(line.one, HasSubstr(line.of));
    EXPECT_THAT((std::vector<std::string>{"drinking water", "diesel for van"}),
                ::testing::Contains(line.of));
  }
  EXPECT_GE(counted, 2);
}

TEST(SizeLines, CountFoodInDays) {
  PlanText plan = four_tens("10 L");
  plan.margins = {"food: 1 day"};
  plan.food = {"{item: oats (rolled) of home, kept: dry, mass: 20 kg, meals: 60}"};
  const answers::Sizing sizing =
      support::size_of(plan, "size: {food: {oats (rolled) of home: {per_day: 3 meals}}}");
  const auto& lines = found(sizing).lines;
  const auto line = std::ranges::find(lines, "oats (rolled) of home", &SizedLine::of);
  ASSERT_NE(line, lines.end());
  EXPECT_EQ(line->each, 1);
  EXPECT_EQ(line->unit, "days");
}

TEST(SizeLines, SayWhenThePlansCansAreNotFull) {
  const answers::Sizing sizing = support::size_of(four_tens("5 L"), tens);
  const SizedLine& line = line_of(found(sizing), "10 L container of drinking water");
  EXPECT_EQ(line.plan_amount, line.amount);
  EXPECT_EQ(line.plan_detail, "with 20 L");
  EXPECT_EQ(line.detail, "full");
  const std::string words = words_of(four_tens("5 L"), tens);
  EXPECT_THAT(words, HasSubstr("in place of 4 with 20 L, 20 kg more"));
  EXPECT_THAT(words, Not(HasSubstr("as the plan has it")));
  EXPECT_THAT(words_of(four_tens("10 L"), tens), HasSubstr("as the plan has it"));
}

TEST(SizeLines, CompareOtherCansOfTheSameStuffTogether) {
  // 40 L in all: two cans stay, and of the two others one of 20 L takes the place.
  const std::string words = words_of(four_tens("10 L"), asks_for_twenties);
  EXPECT_THAT(words, HasSubstr("kept as they are 22 can 1 (10 L full, 11 kg), can 2 (10 L full, "
                               "11 kg)"));
  EXPECT_THAT(words, HasSubstr("together: 20 L of drinking water, as in the plan, "));
  EXPECT_THAT(words, Not(HasSubstr("too few")));
}

}  // namespace
}  // namespace drystage
