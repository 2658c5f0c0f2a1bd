// What to do first when a battery is low.
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
using ::testing::HasSubstr;

TEST(BatteryAdvice, SwitchesLoadsOffInTheOrderOfThePlan) {
  PlanText plan = support::three_places();
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  plan.loads = {"{name: radio, draw: 2 W}", "{name: lights, energy: 60 Wh/day, shed: 2}",
                "{name: fan, energy: 60 Wh/day, shed: 1}",
                "{name: breathing aid, draw: 9 W, never_shed: yes}"};
  plan.cold = {
      "{name: chest, volume: 40 L, set_point: 4 °C, rated: {draw: 10 W, ambient: 32 °C, "
      "inside: 4 °C}}"};
  const std::string steps = steps_for(first_steps_of(plan), "Bank");
  EXPECT_THAT(steps,
              HasSubstr("even if it is listed: fan, lights; then radio; last of all chest.\n"));
  EXPECT_THAT(steps, HasSubstr("never what you call for help with"));
  EXPECT_THAT(steps, HasSubstr("Breathing aid must go on"));
  EXPECT_EQ(steps.find("reathing aid"), steps.rfind("reathing aid")) << "it is not switched off";
}

}  // namespace
}  // namespace drystage
