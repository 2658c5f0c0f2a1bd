// What may be counted on of supplies that lie on the way, for the ways out and for leaving a place:
// by hand, of one who drinks 1 L an hour.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "answers/onward/leaving.h"
#include "answers/onward/way_out.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using support::PlanText;

// A least level is found to a tenth of a millilitre, and never too low.
constexpr double fine = 1e-4;
constexpr double tiny = 1e-6;
// Without a margin a millilitre must be left.
constexpr double all_but_dry = 1e-3;

constexpr int soak = 1;
constexpr int well = 2;

/// At eight from Base, which has water, an hour to Soak, and three hours to Well.
PlanText by_soak(const std::string& at_soak, const std::string& at_well = "drinking_water: {}") {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "24 L/day")};
  plan.containers = {"{name: can, holds: 900 L, filled: 600 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  plan.driving = "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\"}";
  plan.places = {PlanText::place("Base", "air", "drinking_water: {}"),
                 PlanText::place("Soak", "air", at_soak), PlanText::place("Well", "air", at_well)};
  plan.itinerary = {"{at: Base}",
                    "drive: {to: Soak, distance: 50 km, surfaces: sealed, speed: 50 km/h}",
                    "drive: {to: Well, distance: 150 km, surfaces: sealed, speed: 50 km/h}"};
  return plan;
}

/// The same after two hours to Half on a Monday, and some nights there.
PlanText after_half(int nights, const std::string& at_soak,
                    const std::string& at_well = "drinking_water: {}") {
  PlanText plan = by_soak(at_soak, at_well);
  plan.places.push_back(PlanText::place("Half", "air"));
  plan.itinerary.insert(plan.itinerary.begin() + 1,
                        {"drive: {to: Half, distance: 100 km, surfaces: sealed, speed: 50 km/h}",
                         "stay: {nights: " + std::to_string(nights) + "}"});
  return plan;
}

WaysOut water(const PlanText& plan, std::size_t day) {
  const support::Trip trip = support::travel(plan);
  const WaysOutTable out = ways_out(trip, morning_needs(trip));
  const auto found =
      std::ranges::find(out.reserves, support::reserve_index(trip.course, "drinking_water"));
  return out.ways(day, static_cast<std::size_t>(found - out.reserves.begin()));
}

std::vector<Leaving> leaving_water(const PlanText& plan) {
  const support::Trip trip = support::travel(plan);
  std::vector<Leaving> out = leavings(trip);
  const int reserve = support::reserve_index(trip.course, "drinking_water");
  std::erase_if(out, [reserve](const Leaving& one) { return one.reserve != reserve; });
  return out;
}

void expect_level(double level, double expected) {
  EXPECT_GE(level, expected - tiny);
  EXPECT_LE(level, expected + fine + tiny);
}

TEST(SuppliesOnTheWay, ThatNobodyHasConfirmedAreNotTaken) {
  PlanText plan = after_half(3, "drinking_water: {confirmed: no}");
  plan.itinerary.insert(plan.itinerary.end() - 1, "resupply: {drinking_water: 20 L}");
  plan.margins = {"drinking_water: 5 L"};
  // From midnight to eight, an hour to Soak and three hours on: nothing of the 20 L is in it. On
  // the last of these mornings no stay is left, so that on at once is as planned.
  for (const std::size_t day : {1U, 3U}) {
    SCOPED_TRACE(day);
    const WayOut at_once = water(plan, day).at_once;
    EXPECT_EQ(at_once.place, well);
    expect_level(at_once.least, 8 + 1 + 3 + 5);
    expect_level(at_once.bare, 8 + 1 + 3 + all_but_dry);
  }
}

TEST(SuppliesOnTheWay, ThatNobodyHasConfirmedAreNotTakenWhereNothingIsLeftOutEither) {
  PlanText plan = by_soak("drinking_water: {confirmed: no}");
  plan.margins = {"drinking_water: 5 L"};
  plan.places.push_back(PlanText::place("Half", "air"));
  // Ten hours on the first day, two on the second.
  plan.itinerary.insert(plan.itinerary.begin() + 1,
                        "drive: {to: Half, distance: 600 km, surfaces: sealed, speed: 50 km/h}");
  plan.itinerary.insert(plan.itinerary.end() - 1, "resupply: {drinking_water: 20 L}");
  const WayOut at_once = water(plan, 1).at_once;
  EXPECT_EQ(at_once.place, well);
  expect_level(at_once.least, 8 + 2 + 1 + 3 + 5);
  expect_level(at_once.bare, 8 + 2 + 1 + 3 + all_but_dry);
}

TEST(SuppliesOnTheWay, BeyondOneThatStaysShutAreNotGoneOnTo) {
  PlanText plan =
      after_half(20, "", "drinking_water: {shut: [{from: 2027-03-02, to: 2027-03-18}]}");
  plan.places.push_back(PlanText::place("Far", "air", "drinking_water: {}"));
  plan.itinerary.emplace_back(
      "drive: {to: Far, distance: 150 km, surfaces: sealed, speed: 50 km/h}");
  const WaysOut ways = water(plan, 1);
  // As planned Well is open, three weeks later.
  EXPECT_EQ(ways.as_planned.place, well);
  EXPECT_TRUE(std::isfinite(ways.as_planned.least));
  // At once it is not within two weeks. Far has some all the time, but nobody is sent there.
  EXPECT_EQ(ways.at_once.place, well);
  EXPECT_TRUE(std::isinf(ways.at_once.least));
  EXPECT_TRUE(std::isinf(ways.at_once.bare));
  EXPECT_FALSE(ways.at_once.fits);
}

TEST(SuppliesOnTheWay, DrivenThroughAreLeftWithWhatTheNextOneIsReachedWith) {
  const std::vector<Leaving> all = leaving_water(by_soak("drinking_water: {}"));
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].until_place, soak);
  expect_level(all[0].must_have, 1);
  EXPECT_EQ(all[1].place, soak);
  EXPECT_EQ(all[1].until_place, well);
  expect_level(all[1].must_have, 3);
}

TEST(SuppliesOnTheWay, WithALimitGiveOnLeavingAllThatThereIs) {
  PlanText plan = by_soak("drinking_water: {most: 2 L}");
  plan.itinerary.insert(plan.itinerary.end() - 1, "resupply: {drinking_water: 500 mL}");
  const std::vector<Leaving> all = leaving_water(plan);
  ASSERT_EQ(all.size(), 2U);
  // An hour to Soak, three on, and 2 L of that from there.
  expect_level(all[0].must_have, 1 + 3 - 2);
  EXPECT_EQ(all[0].until_place, well);
  EXPECT_EQ(all[1].place, soak);
  expect_level(all[1].must_have, 3);
}

TEST(SuppliesOnTheWay, ThatAreShutAreNoneToLeave) {
  PlanText plan =
      by_soak("drinking_water: {most: 2 L, shut: [{from: 2027-03-01, to: 2027-03-01}]}");
  plan.itinerary.insert(plan.itinerary.end() - 1, "resupply: {drinking_water: 1 L}");
  const std::vector<Leaving> all = leaving_water(plan);
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0].place, 0);
  expect_level(all[0].must_have, 1 + 3);
}

}  // namespace
}  // namespace drystage::answers
