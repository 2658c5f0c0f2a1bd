// What to do first when a reading is too low.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "report/card/advice.h"
#include "report/text/words.h"
#include "support/advice.h"
#include "support/card_answer.h"
#include "support/needs_answer.h"
#include "support/random_plan.h"

namespace drystage {
namespace {

using report::Advice;
using report::CardAnswer;
using support::first_steps_of;
using support::PlanText;
using support::steps_for;
using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr units::System metric = units::System::metric;

std::vector<std::string> titles(const std::vector<Advice>& all) {
  std::vector<std::string> out;
  for (const Advice& advice : all) out.push_back(advice.title);
  return out;
}

TEST(FirstSteps, AreForEveryReserveOfWhichAnythingIsNeeded) {
  PlanText plan = support::three_places();
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  plan.loads = {"{name: lights, energy: 60 Wh/day, on: bank}"};
  plan.utility_use = {"cooking: 1 L/day"};
  plan.containers.emplace_back("{name: tank, holds: 50 L, filled: 50 L, for: utility}");
  plan.cold = {"{name: box, volume: 30 L, ice: 6 kg, heat_leak: 0.5 W/K}"};
  EXPECT_THAT(titles(first_steps_of(plan)),
              ElementsAre("If a reading is below must have", "Drinking water", "Fuel",
                          "Utility water", "Bank", "Food", "Fridge too warm", "Heat illness"));
}

TEST(FirstSteps, OfAReserveThatNothingIsNeededOfAreLeftOut) {
  PlanText plan;  // nothing is driven
  plan.containers = {"{name: can, holds: 120 L, filled: 60 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  EXPECT_THAT(titles(first_steps_of(plan)), ElementsAre("If a reading is below must have",
                                                        "Drinking water", "Food", "Heat illness"));
}

RC_GTEST_PROP(FirstSteps, AreForEveryNeedOfAnyPlan, ()) {
  const CardAnswer answer = support::card_answer(support::random_plan(support::rapidcheck_pick()));
  const std::vector<Advice> all = report::first_steps(answer, metric);
  const std::vector<std::string> is = titles(all);
  const auto& needs = answer.needs.needs;
  for (std::size_t i = 0; i < needs.reserves.size(); ++i) {
    const auto& info =
        answer.needs.planned.course.reserves[static_cast<std::size_t>(needs.reserves[i])];
    double most = 0;
    for (std::size_t day = 0; day < answer.needs.planned.record.days(); ++day) {
      most = std::max(most, needs.need(day, i).must_have);
    }
    if (most < 1e-6) continue;
    // Of what no life depends on there is nothing to say.
    if (info.id.family == engine::Family::consumable && !info.life_supporting) continue;
    const std::string_view family = engine::family_name(info.id.family);
    const std::string title = family == "drinking_water"  ? "Drinking water"
                              : family == "utility_water" ? "Utility water"
                              : family == "fuel"          ? "Fuel"
                              : family == "food"          ? "Food"
                                                 : report::capital(report::reserve_words(info));
    RC_ASSERT(std::ranges::count(is, title) == 1);
  }
  for (const Advice& advice : all) RC_ASSERT(!advice.steps.empty());
}

TEST(FirstSteps, BeginWithStoppingAndEndWithRaisingTheAlarm) {
  const std::string steps =
      steps_for(first_steps_of(support::three_places()), "If a reading is below must have");
  EXPECT_LT(steps.find("Stop where it is safe"), steps.find("Do not go on as planned"));
  EXPECT_LT(steps.find("Do not go on as planned"), steps.find("turn back in the morning"));
  EXPECT_LT(steps.find("turn back in the morning"), steps.find("Neither tonight?"));
  EXPECT_LT(steps.find("Neither tonight?"), steps.find("raise the alarm"));
  EXPECT_THAT(steps, HasSubstr("Stay with the vehicle"));
}

TEST(FirstSteps, SendNobodyOnOrBackWithoutTheFigureOfTheEvening) {
  for (const Advice& advice : first_steps_of(support::three_places())) {
    for (const std::string& step : advice.steps) {
      EXPECT_THAT(step, Not(HasSubstr("still possible"))) << advice.title;
      const bool sends = step.find("turn back in") != std::string::npos ||
                         step.find("go on in") != std::string::npos;
      if (!sends) continue;
      EXPECT_THAT(step, AllOf(HasSubstr("At least what stands under \"back\""),
                              HasSubstr("At least what stands under \"on at once\"")));
    }
  }
  EXPECT_THAT(
      steps_for(first_steps_of(support::three_places()), "If a reading is below must have"),
      AllOf(HasSubstr("If you will still have enough then: wait, and go then."),
            HasSubstr("your camp in \"The way out\""), HasSubstr("its figure of every reserve")));
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
  for (const Advice& advice : first_steps_of(plan)) {
    for (const std::string& step : advice.steps) out += step + "\n";
  }
  return out;
}

TEST(FirstSteps, FitTheWeatherOfThePlan) {
  const std::string hot = all_steps_at(35, 16);
  EXPECT_THAT(hot, AllOf(HasSubstr("never at noon"), HasSubstr("make shade"),
                         HasSubstr("It may wet clothes"), Not(HasSubstr("freez")),
                         Not(HasSubstr("keep warm")), Not(HasSubstr("hivering"))));
  const std::string cold = all_steps_at(6, -8);
  EXPECT_THAT(cold, AllOf(HasSubstr("Never cut drinking"), HasSubstr("Keep water from freezing"),
                          HasSubstr("keep warm, dry"), HasSubstr("diesel may wax"),
                          HasSubstr("takes no charge"), HasSubstr("Raise the alarm")));
  // Wet clothes come off in the cold, and nothing is to be wetted there.
  EXPECT_THAT(cold, AllOf(Not(HasSubstr("shade")), Not(HasSubstr("noon")),
                          Not(HasSubstr("may wet clothes")), HasSubstr("wet clothes off"),
                          Not(HasSubstr("HEAT STROKE"))));
  EXPECT_THAT(all_steps_at(6, -8, "agm"),
              AllOf(HasSubstr("freezes when it is run down"), Not(HasSubstr("takes no charge"))));
  const std::string both = all_steps_at(30, 2);
  EXPECT_THAT(both, AllOf(HasSubstr("never at noon"), HasSubstr("Keep water from freezing"),
                          HasSubstr("make shade, keep warm"), Not(HasSubstr("may wet clothes")),
                          HasSubstr("wet clothes off"), HasSubstr("HEAT STROKE")));
}

}  // namespace
}  // namespace drystage
