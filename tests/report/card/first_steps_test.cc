// What to do first when a reading is too low.
#include "report/card/first_steps.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/card_answer.h"
#include "support/needs_answer.h"
#include "support/random_plan.h"

namespace drystage {
namespace {

using report::Advice;
using report::CardAnswer;
using support::PlanText;
using ::testing::AllOf;
using ::testing::AnyOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr units::System metric = units::System::metric;

std::vector<Advice> steps_of(const PlanText& plan, units::System system = metric) {
  return report::first_steps(support::card_answer(plan), system);
}

std::vector<std::string> titles(const std::vector<Advice>& all) {
  std::vector<std::string> out;
  for (const Advice& advice : all) out.push_back(advice.title);
  return out;
}

/// The steps of what is titled so, one to a line.
std::string steps_for(const std::vector<Advice>& all, const std::string& title) {
  const auto found = std::ranges::find(all, title, &Advice::title);
  if (found == all.end()) return "nothing is titled " + title;
  std::string out;
  for (const std::string& step : found->steps) out += step + "\n";
  return out;
}

TEST(FirstSteps, AreForEveryReserveOfWhichAnythingIsNeeded) {
  PlanText plan = support::three_places();
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  plan.loads = {"{name: lights, energy: 60 Wh/day, on: bank}"};
  plan.utility_use = {"cooking: 1 L/day"};
  plan.containers.emplace_back("{name: tank, holds: 50 L, filled: 50 L, for: utility}");
  plan.cold = {"{name: box, volume: 30 L, ice: 6 kg, heat_leak: 0.5 W/K}"};
  EXPECT_THAT(titles(steps_of(plan)),
              ElementsAre("Whatever is low: first", "Drinking water", "Fuel", "Utility water",
                          "Battery: bank", "Food", "Cold: too warm inside"));
}

TEST(FirstSteps, OfAReserveThatNothingIsNeededOfAreLeftOut) {
  PlanText plan;  // nothing is driven
  plan.containers = {"{name: can, holds: 120 L, filled: 60 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  EXPECT_THAT(titles(steps_of(plan)),
              ElementsAre("Whatever is low: first", "Drinking water", "Food"));
}

RC_GTEST_PROP(FirstSteps, AreForEveryNeedOfAnyPlan, ()) {
  const CardAnswer answer = support::card_answer(support::random_plan(support::rapidcheck_pick()));
  const std::vector<Advice> all = report::first_steps(answer, metric);
  const std::vector<std::string> is = titles(all);
  const auto& needs = answer.needs.needs;
  for (std::size_t i = 0; i < needs.reserves.size(); ++i) {
    const auto& info =
        answer.needs.trial.course.reserves[static_cast<std::size_t>(needs.reserves[i])];
    double most = 0;
    for (std::size_t day = 0; day < answer.needs.trial.record.days(); ++day) {
      most = std::max(most, needs.need(day, i).must_have);
    }
    if (most < 1e-6) continue;
    const std::string family = engine::family(info.name);
    const std::string title = family == "drinking_water"  ? "Drinking water"
                              : family == "utility_water" ? "Utility water"
                              : family == "fuel"          ? "Fuel"
                              : family == "food"          ? "Food"
                                                          : "Battery: " + info.name.substr(8);
    RC_ASSERT(std::ranges::count(is, title) == 1);
  }
  for (const Advice& advice : all) RC_ASSERT(!advice.steps.empty());
}

TEST(FirstSteps, BeginWithStoppingAndEndWithRaisingTheAlarm) {
  const std::string steps = steps_for(steps_of(support::three_places()), "Whatever is low: first");
  EXPECT_LT(steps.find("Stop where it is safe"), steps.find("Do not go on as planned"));
  EXPECT_LT(steps.find("Do not go on as planned"), steps.find("turn back in the morning"));
  EXPECT_LT(steps.find("turn back in the morning"), steps.find("raise the alarm"));
  EXPECT_THAT(steps, HasSubstr("Stay with the vehicle"));
}

TEST(FirstSteps, SendNobodyOnOrBackWithoutTheFigureOfTheEvening) {
  for (const Advice& advice : steps_of(support::three_places())) {
    for (const std::string& step : advice.steps) {
      EXPECT_THAT(step, Not(HasSubstr("still possible"))) << advice.title;
      const bool sends = step.find("turn back in") != std::string::npos ||
                         step.find("go on in") != std::string::npos;
      if (!sends) continue;
      EXPECT_THAT(step, AllOf(HasSubstr("At least what stands under \"back\""),
                              HasSubstr("At least what stands under \"on at once\"")));
    }
  }
  EXPECT_THAT(steps_for(steps_of(support::three_places()), "Whatever is low: first"),
              AllOf(HasSubstr("tonight's row of \"The way out\""), HasSubstr("enough of all")));
}

/// All steps of three places in this weather, with a battery of a kind and bad water on board.
std::string all_steps_at(double max_c, double min_c, const std::string& kind = "lfp") {
  PlanText plan = support::three_places();
  plan.climate = {PlanText::climate_of("air", max_c, min_c, "40 %", "3 kWh/m2/day")};
  plan.batteries = {"{name: bank, kind: " + kind + ", capacity: 100 Ah}"};
  plan.loads = {"{name: lights, energy: 60 Wh/day, on: bank}"};
  plan.containers.emplace_back(
      "{name: bad can, holds: 20 L, filled: 20 L, for: utility, quality: brackish}");
  std::string out;
  for (const Advice& advice : steps_of(plan)) {
    for (const std::string& step : advice.steps) out += step + "\n";
  }
  return out;
}

TEST(FirstSteps, FitTheWeatherOfThePlan) {
  const std::string hot = all_steps_at(35, 16);
  EXPECT_THAT(hot, AllOf(HasSubstr("never at noon"), HasSubstr("make shade"),
                         HasSubstr("it may wet clothes"), Not(HasSubstr("freez")),
                         Not(HasSubstr("keep warm"))));
  const std::string cold = all_steps_at(6, -8);
  EXPECT_THAT(cold, AllOf(HasSubstr("Never cut drinking"), HasSubstr("Keep water from freezing"),
                          HasSubstr("keep warm, dry"), HasSubstr("diesel may wax"),
                          HasSubstr("takes no charge"), HasSubstr("Raise the alarm")));
  EXPECT_THAT(
      cold, AllOf(Not(HasSubstr("shade")), Not(HasSubstr("noon")), Not(HasSubstr("wet clothes"))));
  EXPECT_THAT(all_steps_at(6, -8, "agm"),
              AllOf(HasSubstr("freezes when it is run down"), Not(HasSubstr("takes no charge"))));
  const std::string both = all_steps_at(30, 2);
  EXPECT_THAT(both, AllOf(HasSubstr("never at noon"), HasSubstr("Keep water from freezing"),
                          HasSubstr("make shade, keep warm"), Not(HasSubstr("wet clothes"))));
}

TEST(FirstSteps, NeverCutDrinkingAndNeverDigAtNoon) {
  const std::string steps = steps_for(steps_of(support::three_places()), "Drinking water");
  EXPECT_THAT(steps, AllOf(HasSubstr("Never cut drinking."), HasSubstr("never at noon"),
                           HasSubstr("Raise the alarm")));
}

TEST(FirstSteps, SayHowMuchAllDrinkInADayRoundedUp) {
  PlanText plan = support::three_places();
  plan.people = {PlanText::person("Ada", "4.11 L/day"), PlanText::person("Ben", "3.5 L/day")};
  EXPECT_THAT(steps_for(steps_of(plan), "Drinking water"), HasSubstr("up to 7.7\u00a0L a day"));
  // 7.61 L are 2.0104 US gal.
  EXPECT_THAT(steps_for(steps_of(plan, units::System::us), "Drinking water"),
              HasSubstr("up to 2.1\u00a0US\u00a0gal a day"));
}

TEST(FirstSteps, SayWhereSuppliesAreSure) {
  EXPECT_THAT(steps_for(steps_of(support::three_places()), "Drinking water"),
              HasSubstr("Sure supplies of drinking water: Base (day\u00a01), Far Well"));
  PlanText plan = support::three_places();
  plan.places[0] = PlanText::place("Base", "air");
  plan.places[2] = PlanText::place("Far Well", "air", "drinking_water: {confirmed: no}");
  EXPECT_THAT(steps_for(steps_of(plan), "Drinking water"),
              HasSubstr("No supply of drinking water on this trip is sure."));
}

TEST(FirstSteps, LetUtilityWaterBeDrunkOnlyWhereItIsPotable) {
  PlanText plan = support::three_places();
  plan.utility_use = {"cooking: 1 L/day"};
  plan.containers.emplace_back("{name: clean tank, holds: 50 L, filled: 50 L, for: utility}");
  std::string steps = steps_for(steps_of(plan), "Drinking water");
  EXPECT_THAT(steps, AllOf(HasSubstr("may be drunk only if"), HasSubstr(": clean tank."),
                           Not(HasSubstr("NOT to be drunk"))));
  plan.containers.emplace_back(
      "{name: bad can, holds: 20 L, filled: 20 L, for: utility, quality: brackish}");
  steps = steps_for(steps_of(plan), "Drinking water");
  EXPECT_THAT(steps, AllOf(HasSubstr(": clean tank."), HasSubstr("NOT to be drunk: bad can.")));
}

TEST(FirstSteps, SayFromWhenAContainerIsBrackish) {
  PlanText plan = support::three_places();
  plan.utility_use = {"cooking: 5 L/day"};
  plan.containers.emplace_back("{name: tank, holds: 50 L, filled: 50 L, for: utility}");
  plan.places[1] = PlanText::place("Red Tables", "air", "utility_water: {quality: brackish}");
  plan.itinerary.insert(plan.itinerary.begin() + 3, "resupply: {utility_water: fill}");
  const std::string steps = steps_for(steps_of(plan), "Drinking water");
  EXPECT_THAT(steps, HasSubstr("NOT to be drunk: tank (brackish from day 4)."));
  EXPECT_THAT(steps, Not(HasSubstr("may be drunk only")));
}

TEST(FirstSteps, SwitchLoadsOffInTheOrderOfThePlan) {
  PlanText plan = support::three_places();
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  plan.loads = {"{name: radio, draw: 2 W}", "{name: lights, energy: 60 Wh/day, shed: 2}",
                "{name: fan, energy: 60 Wh/day, shed: 1}",
                "{name: breathing aid, draw: 9 W, never_shed: yes}"};
  plan.cold = {
      "{name: chest, volume: 40 L, set_point: 4 °C, rated: {draw: 10 W, ambient: 32 °C, "
      "inside: 4 °C}}"};
  const std::string steps = steps_for(steps_of(plan), "Battery: bank");
  EXPECT_THAT(
      steps,
      HasSubstr(
          "even where it stands here: fan, lights; then radio; last of all chest (see Cold).\n"));
  EXPECT_THAT(steps, HasSubstr("never what you call for help with"));
  EXPECT_THAT(steps, HasSubstr("breathing aid must go on"));
  EXPECT_EQ(steps.find("breathing aid"), steps.rfind("breathing aid")) << "it is not switched off";
}

TEST(FirstSteps, EatFirstWhatSpoilsFirst) {
  PlanText plan = support::three_places();
  plan.batteries = {"{name: bank, kind: agm, capacity: 300 Ah}"};
  plan.cold = {
      "{name: chest, volume: 60 L, set_point: 4 °C, rated: {draw: 10 W, ambient: 32 °C, "
      "inside: 4 °C}, frozen_below: {barrier: 0.35 W/K}}"};
  plan.food = {
      "{item: rice, kept: dry, mass: 10 kg, meals: 60}",
      "{item: meat, kept: frozen, mass: 4 kg, meals: 8}",
      "{item: cheese, kept: chilled, mass: 4 kg, meals: 8, keeps: {for: 20 days, at: 4 °C}}",
      "{item: fish, kept: chilled, mass: 4 kg, meals: 8, keeps: {for: 2 days, at: 4 °C}}"};
  const std::vector<Advice> all = steps_of(plan);
  EXPECT_THAT(steps_for(all, "Food"), HasSubstr("fish, cheese, meat, rice."));
  EXPECT_THAT(steps_for(all, "Cold: too warm inside"), HasSubstr("In chest: meat, cheese, fish."));
}

TEST(FirstSteps, TakeTheTemperatureOfTheClockDown) {
  PlanText plan = support::three_places();
  plan.cold = {"{name: box, volume: 30 L, ice: 6 kg, heat_leak: 0.5 W/K}"};
  const std::string title = "Cold: too warm inside";
  EXPECT_THAT(steps_for(steps_of(plan), title), HasSubstr("Above 5 °C: eat within 2 hours"));
  EXPECT_THAT(steps_for(steps_of(plan, units::System::us), title), HasSubstr("Above 41 °F"));
}

TEST(FirstSteps, TakeOffWhatCannotBeDrawnFromTheTanks) {
  PlanText plan = support::three_places();
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L, unusable: 3.21 L}]}",
      "{name: car, fuel: petrol, mass: {empty: 1500 kg}, tanks: [{name: tank, holds: 50 L, filled: "
      "50 L}]}"};
  const std::string steps = steps_for(steps_of(plan), "Fuel");
  EXPECT_THAT(steps, HasSubstr("Take off: tank of truck 3.3\u00a0L."));
  EXPECT_THAT(steps, HasSubstr("Never mix fuels: diesel into truck, petrol into car."));
  EXPECT_THAT(steps, HasSubstr("nobody goes on alone"));
}

TEST(FirstSteps, ListWhatUtilityWaterGoesFor) {
  PlanText plan = support::three_places();
  plan.people = {PlanText::person("Ada", "4 L/day"), PlanText::person("Ben", "4 L/day")};
  plan.utility_use = {"dishes: 1 L/day", "shower: {volume: 6 L, every: 3 days}",
                      "dog: {volume: 3 L, every: 1 day, for: party}"};
  plan.containers.emplace_back("{name: tank, holds: 90 L, filled: 90 L, for: utility}");
  EXPECT_THAT(steps_for(steps_of(plan), "Utility water"),
              HasSubstr("all together: shower 4.0\u00a0L, dog 3.0\u00a0L, dishes 2.0\u00a0L."));
}

}  // namespace
}  // namespace drystage
