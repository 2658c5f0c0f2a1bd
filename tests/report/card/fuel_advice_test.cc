// What to do first when fuel is low.
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

TEST(FuelAdvice, TakesOffWhatCannotBeDrawnFromTheTanks) {
  PlanText plan = support::three_places();
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L, unusable: 3.21 L}]}",
      "{name: car, fuel: petrol, mass: {empty: 1500 kg}, tanks: [{name: tank, holds: 50 L, filled: "
      "50 L}]}"};
  const std::string steps = steps_for(first_steps_of(plan), "Fuel");
  EXPECT_THAT(steps,
              HasSubstr("If your gauge shows all fuel, take off 3.3\u00a0L (tank of truck)."));
  EXPECT_THAT(steps, HasSubstr("Never mix fuels: diesel into truck, petrol into car."));
  EXPECT_THAT(steps, HasSubstr("Nobody goes on alone"));
}

}  // namespace
}  // namespace drystage
