// What a plan says and nothing heeds: each has its line and its hint.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/remarks.h"
#include "plan_text.h"
#include "support/plan_text.h"
#include "support/trip.h"

namespace drystage::plan {
namespace {

using support::PlanText;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

/// The warnings about a plan that reads, and about its calendar.
std::vector<Diagnostic> questions(const PlanText& plan) {
  ReadPlan reading = read_text(plan.text());
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
  if (!reading.plan) return {};
  const auto remarks = engine::remarks(*reading.plan, engine::lay_timeline(*reading.plan));
  auto& found = reading.diagnostics;
  found.insert(found.end(), remarks.begin(), remarks.end());
  std::erase_if(found, [](const Diagnostic& d) { return d.what.starts_with("no margin"); });
  for (const Diagnostic& d : found) EXPECT_GT(d.mark.line, 0) << d.what;
  return found;
}

auto says(const char* what, const char* hint) {
  return AllOf(Field(&Diagnostic::what, HasSubstr(what)),
               Field(&Diagnostic::hint, HasSubstr(hint)));
}

TEST(Ignored, IsAMisspeltBuiltInActivity) {
  PlanText plan;
  plan.activities = {"Camp: {low: 9 h}"};
  EXPECT_THAT(questions(plan),
              ElementsAre(says("nothing uses the activity \"Camp\"", "did you mean \"camp\"?")));
  plan.activities = {"on the road: {low: 9 h}"};
  EXPECT_THAT(questions(plan), ElementsAre(says("nothing uses", "did you mean \"on_the_road\"?")));
  plan.activities = {"camp: {low: 9 h}", "on_the_road: {low: 8 h}"};
  EXPECT_THAT(questions(plan), IsEmpty());
}

TEST(Ignored, IsAnActivityThatNothingUses) {
  PlanText plan;
  plan.activities = {"survey: {low: 9 h}"};
  EXPECT_THAT(questions(plan), ElementsAre(says("nothing uses the activity \"survey\"", "")));
  plan.itinerary = {"{at: Base}", "stay: {nights: 2, activity: survey}"};
  EXPECT_THAT(questions(plan), IsEmpty());
}

TEST(Ignored, IsTheFirstOfTwoWeathersOfOneDay) {
  PlanText plan;
  plan.weather = {"{from: 2027-03-01, to: 2027-03-03, max: 30 °C, wind: 3 m/s}",
                  "{on: 2027-03-02, max: 35 °C}"};
  EXPECT_THAT(questions(plan),
              ElementsAre(says("max of 2027-03-02 is given twice: what stands last is used",
                               "the other entry is on line")));
  plan.weather[1] = "{on: 2027-03-02, min: 10 °C}";
  EXPECT_THAT(questions(plan), IsEmpty());
  plan.weather[1] = "{on: 2027-03-04, max: 35 °C}";
  EXPECT_THAT(questions(plan), IsEmpty());
}

TEST(Ignored, IsNoWeatherOfADayThatSaysNothing) {
  PlanText plan;
  plan.weather = {"{on: 2027-03-02}"};
  const Diagnostic error = only_error(read_text(plan.text()));
  EXPECT_THAT(error.what, HasSubstr("says nothing"));
}

PlanText with_supply(const std::string& supply) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 40 L, filled: 30 L, for: drinking}"};
  plan.places = {PlanText::place("Base", "air", "drinking_water: {" + supply + "}")};
  return plan;
}

TEST(Ignored, IsAShutDateInTheWrongYear) {
  for (const char* dates : {"shut: [2026-03-02]", "shut: [2028-03-01]", "open_dates: [2026-03-02]",
                            "shut: [{from: 2026-02-20, to: 2026-03-01}]", "shut: [2031-09-01]"}) {
    EXPECT_THAT(questions(with_supply(dates)),
                Contains(says("is in no year of the trip, at \"Base\"", "is the year right?")))
        << dates;
  }
  for (const char* dates : {"shut: [2027-03-02]", "shut: [2027-12-25]", "shut: [2026-12-25]",
                            "shut: [2026-03-02, 2027-03-02]"}) {
    EXPECT_THAT(questions(with_supply(dates)), IsEmpty()) << dates;
  }
}

TEST(Ignored, IsAResupplyOnADayOnWhichTheShopIsShut) {
  PlanText plan = with_supply("shut: [2027-03-02]");
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {drinking_water: fill}",
                    "stay: {nights: 1}"};
  EXPECT_THAT(questions(plan),
              ElementsAre(says("\"Base\" is shut for drinking water on Tue 2027-03-02",
                               "nothing of it will be taken")));
  plan.itinerary.push_back("resupply: {drinking_water: fill}");  // waited for
  EXPECT_THAT(questions(plan), IsEmpty());
  plan.itinerary.pop_back();
  plan.itinerary[1] = "stay: {nights: 2}";
  EXPECT_THAT(questions(plan), IsEmpty());
}

TEST(Names, ThatLookAlikeAreQuestioned) {
  PlanText plan;
  const auto can = [](const std::string& name) {
    return "{name: \"" + name + "\", holds: 20 L, filled: 20 L}";
  };
  for (const char* other : {"can\u200B 1", "Can 1", "can l", "c\u0430n 1"}) {
    plan.containers = {can("can 1"), can(other)};
    EXPECT_THAT(questions(plan),
                ElementsAre(says("two containers have names that look alike", "are they two?")))
        << other;
  }
  plan.containers = {can("can 1"), can("can 2")};
  EXPECT_THAT(questions(plan), IsEmpty());
}

}  // namespace
}  // namespace drystage::plan
