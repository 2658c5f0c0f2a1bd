// Things are stamped with the moment at which they happen, not with the step in which they do.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <map>

#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Event;
using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;
using support::trip_hour;

/// Hours since the start at which the margin of a reserve is first broken; endless if never.
double breach_h(const Trip& trip, const std::string& reserve) {
  for (std::size_t day = 0; day < trip.days(); ++day) {
    const double hour = trip.reserve(day, reserve).breach_h;
    if (hour >= 0) return 24.0 * static_cast<double>(day) + hour;
  }
  return engine::without_limit;
}

/// Hours since the start at which a reserve first runs out; endless if never.
double out_h(const Trip& trip, const std::string& reserve) {
  const int index = support::reserve_index(trip.course, reserve);
  for (const Event& event : trip.told(EventKind::short_of)) {
    if (event.subject == index) return trip_hour(event);
  }
  return engine::without_limit;
}

TEST(RunningOut, OfWaterIsAtTheMinuteAtWhichTheLastIsDrunk) {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "3.9 L/day")};
  plan.containers = {"{name: can, holds: 10 L, filled: 10 L}"};
  plan.margins = {"drinking_water: 1 L"};
  const Trip trip = travel(plan);
  EXPECT_NEAR(out_h(trip, "drinking_water"), 10 / 3.9 * 24, 1e-9);
  EXPECT_NEAR(breach_h(trip, "drinking_water"), 9 / 3.9 * 24, 1e-9);
}

TEST(RunningOut, OfFuelIsAtTheKilometreAtWhichTheTankIsEmpty) {
  PlanText plan;
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 3000 kg}, tanks: [{name: tank, holds: 8 L, "
      "filled: 8 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  plan.margins = {"fuel: 3 L"};
  plan.places.push_back(PlanText::place("There", "air"));
  plan.itinerary = {"{at: Base}",
                    "drive: {to: There, distance: 200 km, surfaces: sealed, speed: 70 km/h}"};
  const Trip trip = travel(plan);
  EXPECT_NEAR(out_h(trip, "fuel:truck"), 8 + 80.0 / 70, 1e-6);
  EXPECT_NEAR(breach_h(trip, "fuel:truck"), 8 + 50.0 / 70, 1e-6);
}

TEST(RunningOut, OfFoodIsAtTheLastMeal) {
  PlanText plan;
  plan.food = {"{item: stores, kept: dry, meals: 10}"};
  plan.margins = {"food: 2 meals"};
  const Trip trip = travel(plan);
  EXPECT_NEAR(out_h(trip, "food"), 80, 1e-9);  // 3 meals a day
  EXPECT_NEAR(breach_h(trip, "food"), 64, 1e-9);
}

TEST(RunningOut, OfAVitalLoadIsAtTheMinuteAtWhichTheBankIsEmpty) {
  PlanText plan;
  plan.climate = {PlanText::steady_climate("air", 25)};
  plan.batteries = {"{name: bank, kind: lfp, capacity: 100 Ah, peukert: 1, cut_off: 0 %}"};
  plan.loads = {"{name: breathing aid, draw: 4.3 A, never_shed: yes}"};
  const auto danger = travel(plan).told(EventKind::vital_unserved);
  ASSERT_FALSE(danger.empty());
  EXPECT_NEAR(trip_hour(danger.front()), 100 / 4.3, 1e-6);
}

TEST(AMargin, OfColdIsBrokenAtTheMinuteAtWhichTheCabinetIsTooWarm) {
  PlanText plan;
  plan.climate = {PlanText::steady_climate("air", 30)};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, filled: 40 %, cut_off: 40 %}"};
  plan.cold = {
      "{name: chest, volume: 45 L, set_point: 4 °C, heat_leak: 1 W/K, rated: {draw: 10 W, "
      "ambient: 32 °C, inside: 4 °C}, lid: {openings: 0, warm: 0 L/day}}"};
  plan.food = {"{item: water, kept: chilled, mass: 40 kg, water: 100 %, meals: 900, kind: eggs}"};
  plan.people = {PlanText::person("Ada", "0 L/day")};
  // T = Ta + (T0 - Ta) exp(-UA t / C); hardly anything is eaten until then.
  const double to_5c_h = std::log(26.0 / 25.0) * (40 * 4.19 + 4.5) / 3.6;
  EXPECT_NEAR(breach_h(travel(plan), "cold:chest"), to_5c_h, 0.02);
}

TEST(FoodThatSpoils, IsEatenUpToItsHourAndThenLost) {
  PlanText plan;
  plan.food = {"{item: stew, kept: dry, mass: 4 kg, meals: 9, keeps: {for: 0.9 days, at: 20 °C}}"};
  const Trip trip = travel(plan);
  const auto spoiled = trip.told(EventKind::spoiled);
  ASSERT_EQ(spoiled.size(), 1U);
  EXPECT_NEAR(trip_hour(spoiled.front()), 21.6, 1e-9);
  EXPECT_NEAR(spoiled.front().amount, 9 - 21.6 / 24 * 3, 1e-9);
  EXPECT_NEAR(out_h(trip, "food"), 21.6, 1e-9);
  EXPECT_NEAR(breach_h(trip, "food"), 21.6, 1e-9);
}

TEST(FoodThatSpoils, BreaksTheMarginAtThatHour) {
  PlanText plan;
  plan.food = {"{item: stew, kept: dry, mass: 4 kg, meals: 9, keeps: {for: 0.9 days, at: 20 °C}}",
               "{item: rice, kept: dry, meals: 10}"};
  plan.margins = {"food: 12 meals"};
  EXPECT_NEAR(breach_h(travel(plan), "food"), 21.6, 1e-9);
}

RC_GTEST_PROP(EventTimes, AreInTheOrderInWhichThingsHappen, ()) {
  const Trip trip = travel(support::random_plan(support::rapidcheck_pick()));
  double last_h = 0;
  for (const Event& event : trip.record.events) {
    RC_ASSERT(trip_hour(event) >= last_h - 1e-9);
    RC_ASSERT(event.hour >= 0);
    RC_ASSERT(event.hour <= 24 + 1e-9);
    last_h = trip_hour(event);
  }
  for (std::size_t r = 0; r < trip.record.reserves; ++r) {
    const std::string& name = trip.course.reserves[r].name;
    RC_ASSERT(breach_h(trip, name) <= out_h(trip, name) + 1e-9);
    for (std::size_t day = 0; day < trip.days(); ++day) {
      const ReserveDay& row = trip.record.reserve(day, r);
      RC_ASSERT(row.breach_h <= 24 + 1e-9);
      // A margin is broken before the moment at which it is broken the most.
      if (row.breach_h >= 0 && row.slack < -1e-9) RC_ASSERT(row.breach_h <= row.tight_h + 1e-9);
    }
  }
}

RC_GTEST_PROP(EventTimes, NoFoodIsLostTwiceOrAfterItWasEaten, ()) {
  const Trip trip = travel(support::random_plan(support::rapidcheck_pick()));
  std::map<int, double> lost;
  for (const EventKind kind : {EventKind::spoiled, EventKind::thrown_away}) {
    for (const Event& event : trip.told(kind)) {
      RC_ASSERT(event.amount > 0);
      lost[event.subject] += event.amount;
    }
  }
  for (const auto& [store, meals] : lost) {
    double booked = 0;
    for (std::size_t day = 0; day < trip.days(); ++day) {
      booked += trip.record.store(day, static_cast<std::size_t>(store)).lost;
    }
    RC_ASSERT(std::abs(booked - meals) < 1e-6);
  }
}

}  // namespace
}  // namespace drystage
