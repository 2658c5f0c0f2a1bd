// The weather of named days, laid over the normals.
#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

PlanText five_days() {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "")};
  plan.climate = {PlanText::climate_of("air", 28, 14, "30 %", "5 kWh/m2/day")};
  plan.containers = {"{name: can, holds: 90 L, filled: 90 L, for: drinking}"};
  return plan;
}

TEST(NamedDays, ReplaceTheNormalsOnTheirDatesOnly) {
  PlanText plan = five_days();
  plan.weather = {"{from: 2027-03-02, to: 2027-03-03, max: 41 °C, min: 25 °C}"};
  const Trip trip = travel(plan);
  const auto& days = trip.course.timeline->conditions.days;
  for (const std::size_t d : {0U, 3U, 4U}) EXPECT_EQ(days[d].max_c, 28) << d;
  for (const std::size_t d : {1U, 2U}) {
    EXPECT_EQ(days[d].max_c, 41) << d;
    EXPECT_EQ(days[d].min_c, 25) << d;
    EXPECT_GT(trip.reserve(d, "drinking_water").used, trip.reserve(0, "drinking_water").used) << d;
  }
}

TEST(NamedDays, KeepTheNormalOfWhatTheyDoNotName) {
  PlanText plan = five_days();
  plan.weather = {"{on: 2027-03-02, max: 33 °C}"};
  const auto trip = travel(plan);
  EXPECT_EQ(trip.course.timeline->conditions.days[1].min_c, 14);
}

TEST(NamedDays, AMaximumBelowTheNormalMinimumDoesNotTurnTheDayUpsideDown) {
  PlanText plan = five_days();
  plan.weather = {"{on: 2027-03-02, max: 6 °C}"};
  const Trip trip = travel(plan);
  const engine::DayConditions& day = trip.course.timeline->conditions.days[1];
  EXPECT_EQ(day.max_c, 6);
  EXPECT_LE(day.min_c, day.max_c);
}

}  // namespace
}  // namespace drystage
