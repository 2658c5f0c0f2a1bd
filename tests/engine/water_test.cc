// Two pools that never mix by themselves.
#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

PlanText two_pools(const std::string& quality) {
  PlanText plan;
  plan.containers = {
      "{name: can, holds: 10 L, filled: 10 L, for: drinking}",
      "{name: tank, holds: 50 L, filled: 50 L, for: utility, quality: " + quality + "}"};
  return plan;
}

TEST(Water, PotableUtilityWaterIsDrunkWhenTheDrinkingWaterIsGoneAndTheReportSaysSo) {
  const Trip trip = travel(two_pools("potable"));
  EXPECT_NEAR(trip.sum(&ReserveDay::used, "drinking_water"), 10, 1e-9);
  EXPECT_NEAR(trip.sum(&ReserveDay::used, "utility_water"), 10, 1e-9);
  EXPECT_EQ(trip.sum(&ReserveDay::short_of, "drinking_water"), 0);
  const auto drunk = trip.told(EventKind::utility_drunk);
  ASSERT_EQ(drunk.size(), 1U);
  EXPECT_NEAR(support::trip_hour(drunk.front()), 60, 1e-9);
}

TEST(Water, BrackishUtilityWaterIsNeverDrunk) {
  const Trip trip = travel(two_pools("brackish"));
  EXPECT_EQ(trip.sum(&ReserveDay::used, "utility_water"), 0);
  EXPECT_NEAR(trip.sum(&ReserveDay::short_of, "drinking_water"), 10, 1e-9);
  EXPECT_EQ(trip.told(EventKind::only_brackish).size(), 1U);
  EXPECT_TRUE(trip.told(EventKind::utility_drunk).empty());
}

TEST(Water, OneBrackishContainerDoesNotHideThePotableOnes) {
  PlanText plan = two_pools("potable");
  plan.containers[1] = "{name: drum, holds: 20 L, filled: 9 L, for: utility, quality: brackish}";
  plan.containers.emplace_back("{name: tank, holds: 6 L, filled: 6 L, for: utility}");
  plan.containers.emplace_back("{name: jug, holds: 3 L, filled: 3 L, for: utility}");
  const Trip trip = travel(plan);
  EXPECT_NEAR(trip.sum(&ReserveDay::used, "utility_water"), 9, 1e-9);
  EXPECT_NEAR(trip.store(trip.days() - 1, "drum").end, 9, 1e-12);
  // Which cans, and when each is begun: 10 L last 60 h, and 16 L 96 h.
  const auto drunk = trip.told(EventKind::utility_drunk);
  ASSERT_EQ(drunk.size(), 2U);
  EXPECT_EQ(drunk[0].subject, support::store_index(trip.course, "tank"));
  EXPECT_NEAR(support::trip_hour(drunk[0]), 60, 1e-9);
  EXPECT_EQ(drunk[1].subject, support::store_index(trip.course, "jug"));
  EXPECT_NEAR(support::trip_hour(drunk[1]), 96, 1e-9);
  EXPECT_NEAR(trip.sum(&ReserveDay::short_of, "drinking_water"), 1, 1e-9);
  const auto left = trip.told(EventKind::only_brackish);
  ASSERT_EQ(left.size(), 1U);
  EXPECT_NEAR(left[0].amount, 9, 1e-9);
}

/// Utility water of both sorts, the potable one first in the order of the plan.
PlanText cook_and_wash(const std::string& cooking) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}",
                     "{name: tank, holds: 20 L, filled: 6 L, for: utility}",
                     "{name: drum, holds: 20 L, filled: 12 L, for: utility, quality: brackish}"};
  plan.utility_use = {"cooking: " + cooking, "washing: 2 L/day"};
  return plan;
}

TEST(Water, CookingTakesNoBrackishWaterAndSaysSoWhereNothingElseIsLeft) {
  const Trip trip = travel(cook_and_wash("2 L/day"));
  // Five days: the tank lasts for three of cooking, the drum for six of washing.
  EXPECT_NEAR(trip.store(2, "tank").end, 0, 1e-9);
  EXPECT_NEAR(trip.store(2, "drum").end, 6, 1e-9);
  EXPECT_NEAR(trip.sum(&ReserveDay::short_of, "utility_water"), 4, 1e-9);
  const auto dry = trip.told(EventKind::short_of);
  ASSERT_EQ(dry.size(), 1U);
  EXPECT_NEAR(support::trip_hour(dry[0]), 72, 1e-9);
  const auto told = trip.told(EventKind::potable_short);
  ASSERT_EQ(told.size(), 2U);  // once a day
  EXPECT_NEAR(support::trip_hour(told[0]), 72, 1e-9);
  EXPECT_NEAR(told[0].amount, 6, 0.1);
}

TEST(Water, WashingTakesBrackishWaterFirst) {
  const Trip trip = travel(cook_and_wash("0 L/day"));
  EXPECT_NEAR(trip.store(4, "tank").end, 6, 1e-9);
  EXPECT_NEAR(trip.store(4, "drum").end, 2, 1e-9);
}

TEST(Water, APlanMaySayThatAUseTakesBrackishWater) {
  const Trip trip = travel(cook_and_wash("{volume: 1 L, potable: no}"));
  EXPECT_EQ(trip.sum(&ReserveDay::short_of, "utility_water"), 0);
  EXPECT_NEAR(trip.store(3, "drum").end, 0, 1e-9);
  EXPECT_TRUE(trip.told(EventKind::potable_short).empty());
}

TEST(Water, EveryUseButWashingAsksForPotableWater) {
  PlanText plan = cook_and_wash("1 L/day");
  plan.utility_use = {"cooking: 1 L/day",
                      "dishes: 1 L/day",
                      "tea: 1 L/day",
                      "Washing: 1 L/day",
                      "dogs: {volume: 1 L}",
                      "shower: {volume: 1 L}",
                      "mud: {volume: 1 L, potable: no}"};
  std::string potable;
  for (const plan::UtilityUse& use : plan.plan().water.utility_uses) {
    if (use.potable) potable += use.name + " ";
  }
  EXPECT_EQ(potable, "cooking tea dogs ");
}

TEST(Water, DrinkingWaterIsNeverUsedForWashing) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  plan.utility_use = {"washing: 5 L/day"};
  const Trip trip = travel(plan);
  EXPECT_NEAR(trip.sum(&ReserveDay::used, "drinking_water"), 20, 1e-9);
  EXPECT_NEAR(trip.sum(&ReserveDay::short_of, "utility_water"), 25, 1e-6);
}

TEST(Water, AContainerOpenedLastIsLast) {
  PlanText plan;
  plan.containers = {"{name: spare, holds: 10 L, filled: 10 L, for: drinking, opened: last}",
                     "{name: can, holds: 10 L, filled: 10 L, for: drinking}"};
  const Trip trip = travel(plan);
  EXPECT_NEAR(trip.store(1, "spare").end, 10, 1e-12);
  EXPECT_NEAR(trip.store(1, "can").end, 2, 1e-9);
  EXPECT_NEAR(trip.store(2, "can").end, 0, 1e-12);
  EXPECT_NEAR(trip.store(2, "spare").end, 8, 1e-9);
}

/// Two stops at a well; the drinking can is left alone by both.
PlanText at_the_well(const std::string& cleaned) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 10 L, filled: 10 L, for: drinking}",
                     "{name: tank, holds: 50 L, filled: 0 L, for: utility}"};
  plan.utility_use = {"washing: 20 L/day"};
  plan.places = {PlanText::place("Base", "air", "utility_water: {quality: brackish, most: 20 L}"),
                 PlanText::place("Town", "air", "utility_water: {}")};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  plan.itinerary = {"{at: Base}",
                    "resupply: {utility_water: fill}",
                    "stay: {nights: 2}",
                    "drive: {to: Town, distance: 1 km, surfaces: sealed}",
                    "resupply: {utility_water: fill, cleaned: " + cleaned + "}",
                    "stay: {nights: 2}"};
  return plan;
}

TEST(Water, BrackishMakesAContainerUtilityOnlyUntilItIsEmptiedAndCleaned) {
  const Trip dirty = travel(at_the_well("no"));
  ASSERT_EQ(dirty.told(EventKind::brackish_in).size(), 1U);
  EXPECT_TRUE(dirty.told(EventKind::utility_drunk).empty());
  EXPECT_GT(dirty.sum(&ReserveDay::short_of, "drinking_water"), 0);
  // Cleaned when empty, the same tank's potable water may be drunk.
  const Trip clean = travel(at_the_well("yes"));
  EXPECT_EQ(clean.told(EventKind::utility_drunk).size(), 1U);
  EXPECT_EQ(clean.sum(&ReserveDay::short_of, "drinking_water"), 0);
}

TEST(Water, CleaningDoesNothingForAContainerThatIsNotEmpty) {
  PlanText plan = at_the_well("yes");
  plan.utility_use = {"washing: 1 L/day"};
  const Trip trip = travel(plan);
  EXPECT_TRUE(trip.told(EventKind::utility_drunk).empty());
  EXPECT_GT(trip.sum(&ReserveDay::short_of, "drinking_water"), 0);
}

}  // namespace
}  // namespace drystage
