// The least where the same comes of many levels: what is dry stays dry, and what is filled up is
// full. By hand.
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "answers/onward/needs.h"
#include "answers/onward/way_out.h"
#include "support/trip.h"

namespace drystage::answers::needs_of_level_ground_test {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

Need water(const PlanText& plan) {
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  const auto at =
      std::ranges::find(needs.reserves, support::reserve_index(trip.course, "drinking_water"));
  return needs.need(0, static_cast<std::size_t>(at - needs.reserves.begin()));
}

void expect_level(double level, double expected) {
  EXPECT_GE(level, expected - 1e-6);
  EXPECT_LE(level, expected + 1e-4 + 1e-6);
}

/// Nine days at 5 L, with a tank of utility water that may be drunk.
PlanText nine_days(double filled_l, const std::string& margin = "") {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "5 L/day")};
  plan.containers = {
      fmt::format("{{name: can, holds: 60 L, filled: {} L, for: drinking}}", filled_l),
      "{name: tank, holds: 100 L, filled: 100 L, for: utility}"};
  if (!margin.empty()) plan.margins = {"drinking_water: " + margin};
  plan.itinerary = {"{at: Base}", "stay: {nights: 9}"};
  return plan;
}

/// The need of utility water on the first morning of five days of cooking with 2 L a day.
Need to_cook_with(const std::vector<std::string>& utility) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  plan.containers.insert(plan.containers.end(), utility.begin(), utility.end());
  plan.utility_use = {"cooking: 2 L/day"};
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  const auto at =
      std::ranges::find(needs.reserves, support::reserve_index(trip.course, "utility_water"));
  return needs.need(0, static_cast<std::size_t>(at - needs.reserves.begin()));
}

TEST(NeedsOfLevelGround, CountNoBrackishWaterForThePot) {
  const std::string bad = "{name: pan, holds: 30 L, filled: 30 L, for: utility, quality: brackish}";
  EXPECT_EQ(to_cook_with({bad}).must_have, engine::without_limit);
  // 5 of 10 L can be cooked with; 5 more are wanted, and no less of the brackish water is there.
  const Need mixed = to_cook_with({"{name: tank, holds: 20 L, filled: 5 L, for: utility}", bad});
  EXPECT_TRUE(mixed.lacks());
  expect_level(mixed.must_have, 40);
  expect_level(to_cook_with({"{name: tank, holds: 20 L, filled: 20 L, for: utility}"}).must_have,
               10);
}

TEST(NeedsOfLevelGround, AreTheSameHoweverMuchIsAboard) {
  // Utility water stands in for what is wanted and not there: it is wanted all the same.
  for (const double filled_l : {0.0, 5.0, 10.0, 20.0, 40.0, 60.0}) {
    const Need need = water(nine_days(filled_l));
    expect_level(need.must_have, 45);
    EXPECT_EQ(need.lacks(), filled_l < 45) << filled_l;
  }
}

TEST(NeedsOfLevelGround, GrowByTheMarginAndByNoMore) {
  for (const double filled_l : {0.0, 20.0, 60.0}) {
    expect_level(water(nine_days(filled_l, "7 L")).must_have, 45 + 7);
  }
}

TEST(NeedsOfLevelGround, AreTheSameWithNothingToHoldIt) {
  PlanText plan = nine_days(0);
  plan.containers.erase(plan.containers.begin());
  expect_level(water(plan).must_have, 45);
}

TEST(NeedsOfLevelGround, AreForTheWayToAStopThatFillsUp) {
  // 4 L an hour. However much there is at ten on the first day, the can is full then, and what is
  // left at the end is the same: 5 L.
  PlanText plan;
  plan.people = {PlanText::person("Ada", "96 L/day")};
  plan.containers = {"{name: can, holds: 829 L, filled: 829 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  plan.driving = "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\"}";
  plan.places.push_back(PlanText::place("Well", "air", "drinking_water: {most: 829 L}"));
  plan.itinerary = {"{at: Base}",
                    "drive: {to: Well, distance: 100 km, surfaces: sealed, speed: 50 km/h}",
                    "resupply: {drinking_water: fill}", "stay: {nights: 9}"};
  expect_level(water(plan).must_have, 40);
}

TEST(NeedsOfLevelGround, WithoutAMarginAreWhatIsUsedOnTheWaysOutToo) {
  PlanText plan = nine_days(60);
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  plan.driving = "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\"}";
  plan.places.push_back(PlanText::place("There", "air"));
  plan.itinerary = {"{at: Base}", "stay: {nights: 3}",
                    "drive: {to: There, distance: 100 km, surfaces: sealed, speed: 50 km/h}"};
  const Trip trip = travel(plan);
  const WaysOutTable out = ways_out(trip, morning_needs(trip));
  const auto found =
      std::ranges::find(out.reserves, support::reserve_index(trip.course, "drinking_water"));
  const WaysOut& ways = out.ways(1, static_cast<std::size_t>(found - out.reserves.begin()));
  expect_level(ways.as_planned.least, 15);
  EXPECT_LE(ways.at_once.bare, ways.at_once.least + 1e-9);
  EXPECT_GT(ways.at_once.bare, 4.9);
}

}  // namespace
}  // namespace drystage::answers::needs_of_level_ground_test
