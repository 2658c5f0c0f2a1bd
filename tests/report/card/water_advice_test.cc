// What to do first when water is low.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/card/advice.h"
#include "support/advice.h"
#include "support/needs_answer.h"

namespace drystage {
namespace {

using support::first_steps_of;
using support::PlanText;
using support::steps_for;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

TEST(WaterAdvice, NeverCutsDrinkingAndNeverDigsAtNoon) {
  const std::string steps = steps_for(first_steps_of(support::three_places()), "Drinking water");
  EXPECT_THAT(steps, AllOf(HasSubstr("Never cut drinking."), HasSubstr("never at noon"),
                           HasSubstr("Raise the alarm")));
}

TEST(WaterAdvice, SaysHowMuchAllDrinkInADayRoundedUp) {
  PlanText plan = support::three_places();
  plan.people = {PlanText::person("Ada", "4.11 L/day"), PlanText::person("Ben", "3.5 L/day")};
  EXPECT_THAT(steps_for(first_steps_of(plan), "Drinking water"),
              HasSubstr("up to 7.7\u00a0L a day"));
  // 7.61 L are 2.0104 US gal.
  EXPECT_THAT(steps_for(first_steps_of(plan, units::System::us), "Drinking water"),
              HasSubstr("up to 2.1\u00a0US\u00a0gal a day"));
}

TEST(WaterAdvice, LetsUtilityWaterBeDrunkOnlyWhereItIsPotable) {
  PlanText plan = support::three_places();
  plan.utility_use = {"cooking: 1 L/day"};
  plan.containers.emplace_back("{name: clean tank, holds: 50 L, filled: 50 L, for: utility}");
  std::string steps = steps_for(first_steps_of(plan), "Drinking water");
  EXPECT_THAT(steps, AllOf(HasSubstr("may be drunk only if all of it is potable"),
                           HasSubstr(": clean tank."), Not(HasSubstr("BRACKISH, DO NOT DRINK"))));
  plan.containers.emplace_back(
      "{name: bad can, holds: 20 L, filled: 20 L, for: utility, quality: brackish}");
  steps = steps_for(first_steps_of(plan), "Drinking water");
  EXPECT_THAT(steps,
              AllOf(HasSubstr(": clean tank."), HasSubstr("BRACKISH, DO NOT DRINK: bad can.")));
}

TEST(WaterAdvice, SaysFromWhenAContainerIsBrackish) {
  PlanText plan = support::three_places();
  plan.utility_use = {"cooking: 5 L/day"};
  plan.containers.emplace_back("{name: tank, holds: 50 L, filled: 50 L, for: utility}");
  plan.places[1] = PlanText::place("Red Tables", "air", "utility_water: {quality: brackish}");
  plan.itinerary.insert(plan.itinerary.begin() + 3, "resupply: {utility_water: fill}");
  const std::string steps = steps_for(first_steps_of(plan), "Drinking water");
  EXPECT_THAT(steps, HasSubstr("BRACKISH, DO NOT DRINK: tank (brackish from day 4)."));
  EXPECT_THAT(steps, Not(HasSubstr("may be drunk only")));
}

TEST(WaterAdvice, ListsWhatUtilityWaterGoesFor) {
  PlanText plan = support::three_places();
  plan.people = {PlanText::person("Ada", "4 L/day"), PlanText::person("Ben", "4 L/day")};
  plan.utility_use = {"dishes: 1 L/day", "shower: {volume: 6 L, every: 3 days}",
                      "dog: {volume: 3 L, every: 1 day, for: party}"};
  plan.containers.emplace_back("{name: tank, holds: 90 L, filled: 90 L, for: utility}");
  EXPECT_THAT(
      steps_for(first_steps_of(plan), "Utility water"),
      HasSubstr("Planned for a day: shower 4.0\u00a0L, dog 3.0\u00a0L, dishes 2.0\u00a0L."));
}

}  // namespace
}  // namespace drystage
