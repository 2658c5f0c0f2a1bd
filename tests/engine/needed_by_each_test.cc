// What stops take on: by each of two vehicles, before anything is used, and where no amount
// settles.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "support/trip.h"

namespace drystage::engine {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

std::string lorry(const std::string& name, double filled_l) {
  return "{name: " + name +
         ", fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 400 L, filled: " +
         std::to_string(filled_l) + " L}], observed: [{surface: sealed, uses: 10 L/100km}]}";
}

/// From Base, with a pump, 300 km to There: 30 L, and 10 L to be left.
PlanText two_lorries(const std::string& pump, const std::string& order) {
  PlanText plan;
  plan.margins = {"fuel: 10 L"};
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  plan.vehicles = {lorry("a", 0), lorry("b", 0)};
  plan.places = {PlanText::place("Base", "air", pump), PlanText::place("There", "air")};
  plan.itinerary = {"{at: Base}", "resupply: {diesel: " + order + "}",
                    "drive: {to: There, distance: 300 km, surfaces: sealed, speed: 50 km/h}"};
  return plan;
}

double taken_by(const Trip& trip, int vehicle) {
  double sum = 0;
  for (std::size_t o = 0; o < trip.course.orders.size(); ++o) {
    if (trip.course.orders[o].order.vehicle == vehicle) sum += trip.record.order_taken[o];
  }
  return sum;
}

TEST(ToNext, IsWhatEachVehicleNeedsWhereOneOrderIsForTwo) {
  for (const char* order : {"to next", "{a: to next, b: to next}"}) {
    const Trip trip = travel(two_lorries("diesel: {}", order));
    EXPECT_NEAR(taken_by(trip, 0), 40, 1e-6) << order;
    EXPECT_NEAR(taken_by(trip, 1), 40, 1e-6) << order;
    EXPECT_TRUE(trip.verdict.holds) << order;
  }
}

TEST(ToNext, OfALimitedPumpIsWhatTheFirstLeaves) {
  const Trip trip = travel(two_lorries("diesel: {most: 60 L}", "to next"));
  EXPECT_NEAR(taken_by(trip, 0), 40, 1e-6);
  EXPECT_NEAR(taken_by(trip, 1), 20, 1e-6);
  EXPECT_FALSE(trip.verdict.holds);
}

/// Not even the little that rounding needs.
TEST(ToNext, IsNothingWhereNobodyNeedsAny) {
  PlanText plan = two_lorries("food: {}", "0 L");
  plan.vehicles[0].insert(plan.vehicles[0].size() - 1, ", own: food");
  plan.people = {
      "{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: female, rides_in: b, "
      "observed: {drinking: 4 L/day, meals: 3}}"};
  plan.food.clear();
  plan.itinerary[1] = "resupply: {food: to next}";
  const Trip trip = travel(plan);
  ASSERT_EQ(trip.course.orders.size(), 2U);
  double most = 0;
  for (std::size_t o = 0; o < 2; ++o) {
    const double taken = trip.record.order_taken[o];
    EXPECT_TRUE(taken == 0 || taken > 1) << taken;
    most = std::max(most, taken);
  }
  EXPECT_GT(most, 1);
}

TEST(AnAmount, IsDividedAmongVehiclesThatTakeOneAfterAnother) {
  const Trip trip = travel(two_lorries("diesel: {}", "60 L"));
  EXPECT_NEAR(taken_by(trip, 0), 60, 1e-9);
  EXPECT_NEAR(taken_by(trip, 1), 0, 1e-9);
}

/// Ada drinks 5 L a day for nine days, from a can and then from a tank of utility water.
PlanText with_tank(double can_l, double tank_l) {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "5 L/day")};
  plan.containers = {
      "{name: can, holds: 60 L, filled: " + std::to_string(can_l) + " L, for: drinking}",
      "{name: tank, holds: 100 L, filled: " + std::to_string(tank_l) + " L, for: utility}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 9}"};
  return plan;
}

TEST(ToNext, OfDrinkingWaterDoesNotCountOnUtilityWater) {
  PlanText plan = with_tank(0, 100);
  plan.places = {PlanText::place("Base", "air", "drinking_water: {most: 30 L}"),
                 PlanText::place("Well", "air", "drinking_water: {}")};
  plan.vehicles = {lorry("a", 100)};
  plan.itinerary = {"{at: Base}",
                    "resupply: {drinking_water: 30 L}",
                    "stay: {nights: 9}",
                    "drive: {to: Well, distance: 50 km, surfaces: sealed, speed: 50 km/h}",
                    "resupply: {drinking_water: to next}",
                    "stay: {nights: 4}"};
  const Trip trip = travel(plan);
  // Dry after six days: what is drunk of the tank was wanted from the can.
  EXPECT_NEAR(trip.sum(&ReserveDay::stood_in, "drinking_water"), 5 * (9 + 9.0 / 24) - 30, 1e-6);
  // Four days and 15 hours from there.
  EXPECT_NEAR(trip.record.order_taken.back(), 5 * (4 + 15.0 / 24 - 1), 5.1);
  EXPECT_NEAR(trip.reserve(trip.days() - 1, "drinking_water").end, 0, 1e-5);
}

TEST(ToNext, OfBrackishWaterSettlesThoughALittleSpoilsWhatWouldBeDrunk) {
  PlanText plan = with_tank(5, 20);
  plan.margins = {"utility_water: 5 L"};
  plan.places = {PlanText::place("Base", "air", "utility_water: {quality: brackish}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}", "resupply: {utility_water: to next}",
                    "stay: {nights: 5}"};
  const Trip trip = travel(plan);
  // Taken, it is not drunk; left, the tank would be drunk dry.
  EXPECT_GE(trip.outlook("utility_water").slack, -1e-9);
  EXPECT_GT(trip.record.order_taken.back(), 0);
}

TEST(AtTheOutset, WhatIsTakenIsOnBoardBeforeAnythingIsUsed) {
  for (const char* takes : {"0 h", "2 h", "2.5 h"}) {
    PlanText plan = with_tank(0, 0);
    plan.places = {PlanText::place("Base", "air", "drinking_water: {}")};
    plan.itinerary = {"{at: Base}",
                      std::string("resupply: {drinking_water: 25 L, takes: ") + takes + "}",
                      "stay: {nights: 5}"};
    const Trip trip = travel(plan);
    const Timeline& timeline = *trip.course.timeline;
    EXPECT_GE(timeline.steps[0].stop, 0);
    EXPECT_DOUBLE_EQ(timeline.steps[0].dt_h, 0);
    EXPECT_NEAR(trip.reserve(0, "drinking_water").lowest, 20, 1e-9) << takes;
    EXPECT_NEAR(trip.sum(&ReserveDay::used, "drinking_water"), 25, 1e-9) << takes;
  }
}

TEST(AtTheOutset, ABatteryBelowItsMarginIsSoBeforeItIsCharged) {
  PlanText plan = with_tank(60, 0);
  plan.climate = {PlanText::steady_climate("air", 25)};
  plan.margins = {"battery: 50 %"};
  plan.places = {PlanText::place("Base", "air", "mains: {}")};
  plan.batteries = {"{name: bank, kind: lfp, capacity: 100 Ah, filled: 48 %}"};
  plan.charging = {"{name: charger, mains: 20 A}"};
  const Trip trip = travel(plan);
  ASSERT_TRUE(trip.verdict.first_breach);
  EXPECT_EQ(trip.verdict.first_breach->day, 0);
  EXPECT_DOUBLE_EQ(trip.verdict.first_breach->hour, 0);
  EXPECT_NEAR(trip.verdict.first_breach->left, 48, 1e-9);
}

}  // namespace
}  // namespace drystage::engine
