// What to do first when food is low, or when it is too warm in a cabinet.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/card/advice.h"
#include "support/advice.h"
#include "support/needs_answer.h"

namespace drystage {
namespace {

using report::Advice;
using support::first_steps_of;
using support::PlanText;
using support::steps_for;
using ::testing::HasSubstr;

TEST(FoodAdvice, EatsFirstWhatSpoilsFirst) {
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
  const std::vector<Advice> all = first_steps_of(plan);
  EXPECT_THAT(steps_for(all, "Food"), HasSubstr("fish, cheese, meat, rice."));
  EXPECT_THAT(steps_for(all, "Fridge too warm"), HasSubstr("In chest: meat, cheese, fish."));
}

TEST(FoodAdvice, TakesTheTemperatureOfTheClockDown) {
  PlanText plan = support::three_places();
  plan.cold = {"{name: box, volume: 30 L, ice: 6 kg, heat_leak: 0.5 W/K}"};
  const std::string title = "Fridge too warm";
  EXPECT_THAT(steps_for(first_steps_of(plan), title), HasSubstr("Above 5 °C: eat within 2 hours"));
  EXPECT_THAT(steps_for(first_steps_of(plan, units::System::us), title), HasSubstr("Above 41 °F"));
}

}  // namespace
}  // namespace drystage
