// Supplies that give at most so much: shared by two vehicles, and met on the way back. By hand: all
// drive on sealed roads at 100 km/h and burn 10 L in 100 km.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "answers/onward/needs.h"
#include "answers/onward/turn_back.h"
#include "answers/onward/way_out.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

constexpr double fine = 1e-4;
constexpr double tiny = 1e-6;

std::string lorry(const std::string& name, double filled_l) {
  return "{name: " + name +
         ", fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 400 L, filled: " +
         std::to_string(filled_l) + " L}], observed: [{surface: sealed, uses: 10 L/100km}]}";
}

std::string leg(const std::string& to, int km) {
  return "drive: {to: " + to + ", distance: " + std::to_string(km) +
         " km, surfaces: sealed, speed: 100 km/h}";
}

PlanText on_the_road(std::vector<std::string> vehicles) {
  PlanText plan;
  plan.driving = "{most_per_day: 16 h, daylight_only: no, depart: \"06:00\"}";
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  plan.vehicles = std::move(vehicles);
  return plan;
}

/// 100 km to Y, which gives so much, and 600 km on from there: 70 L in all.
PlanText past_y(double a_l, double b_l, const std::string& at_y, const std::string& order) {
  PlanText plan = on_the_road({lorry("a", a_l), lorry("b", b_l)});
  plan.places = {PlanText::place("Base", "air"), PlanText::place("Y", "air", at_y),
                 PlanText::place("Z", "air")};
  plan.itinerary = {"{at: Base}", leg("Y", 100), "resupply: {diesel: " + order + "}",
                    leg("Z", 600)};
  return plan;
}

double must_have(const PlanText& plan, const std::string& reserve) {
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  const auto at = std::ranges::find(needs.reserves, support::reserve_index(trip.course, reserve));
  return needs.need(0, static_cast<std::size_t>(at - needs.reserves.begin())).must_have;
}

void expect_level(double level, double expected) {
  EXPECT_GE(level, expected - tiny);
  EXPECT_LE(level, expected + fine + tiny);
}

TEST(LimitedSupply, SharedByTwoIsNotCountedTwice) {
  for (const double b_l : {60.0, 200.0}) {
    const PlanText plan = past_y(45, b_l, "diesel: {most: 60 L}", "{a: 30 L, b: 30 L}");
    expect_level(must_have(plan, "fuel:a"), 40);
    expect_level(must_have(plan, "fuel:b"), 40);
  }
  // With just so much both arrive with nothing left.
  const Trip trip = travel(past_y(40, 40, "diesel: {most: 60 L}", "{a: 30 L, b: 30 L}"));
  EXPECT_TRUE(trip.verdict.holds);
  EXPECT_NEAR(trip.outlook("fuel:a").lowest, 0, 1e-6);
  EXPECT_NEAR(trip.outlook("fuel:b").lowest, 0, 1e-6);
}

TEST(LimitedSupply, LeavesEachTheSamePartOfWhatThePlanDoesNotTake) {
  const PlanText plan = past_y(60, 60, "diesel: {most: 60 L}", "{a: 30 L, b: 10 L}");
  expect_level(must_have(plan, "fuel:a"), 70 - 40);
  expect_level(must_have(plan, "fuel:b"), 70 - 20);
}

TEST(LimitedSupply, FillsTheOneThatComesFirst) {
  // The first has room for 50 L when it gets there, the second for the ten that are left.
  PlanText plan = past_y(360, 390, "diesel: {most: 60 L}", "fill");
  expect_level(must_have(plan, "fuel:a"), 70 - 50);
  expect_level(must_have(plan, "fuel:b"), 70 - 10);
}

TEST(LimitedSupply, OfOneVehicleIsAllItsOwn) {
  PlanText plan = past_y(45, 60, "diesel: {most: 60 L}", "{a: 30 L}");
  expect_level(must_have(plan, "fuel:a"), 10);
  expect_level(must_have(plan, "fuel:b"), 70);
}

TEST(LimitedSupply, IsDividedForTheWaysOutAndForLeavingToo) {
  PlanText plan = past_y(60, 60, "diesel: {most: 60 L}", "{a: 30 L, b: 30 L}");
  plan.itinerary.insert(plan.itinerary.begin() + 1, "stay: {nights: 2}");
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  const WaysOutTable out = ways_out(trip, needs);
  for (std::size_t i = 0; i < out.reserves.size(); ++i) {
    const auto& info = trip.course.reserves[static_cast<std::size_t>(out.reserves[i])];
    if (info.commodity != plan::Commodity::diesel) continue;
    expect_level(out.ways(1, i).as_planned.least, 40);
    expect_level(out.ways(1, i).at_once.least, 40);
  }
}

/// Out from Base, which has diesel, by a roadhouse after 300 km to Far after 600: 100 L carried.
PlanText out_and_no_further(const std::string& at_roadhouse, int vehicles = 1) {
  std::vector<std::string> all{lorry("a", 100)};
  if (vehicles > 1) all.push_back(lorry("b", 100));
  PlanText plan = on_the_road(all);
  plan.places = {PlanText::place("Base", "air", "diesel: {}"),
                 PlanText::place("Roadhouse", "air", at_roadhouse), PlanText::place("Far", "air")};
  plan.itinerary = {"{at: Base}", leg("Roadhouse", 300), leg("Far", 600)};
  return plan;
}

SupplyStretch first_of(const PlanText& plan, const std::string& reserve) {
  const Trip trip = travel(plan);
  const TurnBack answer = turn_back_points(trip);
  const auto found = std::ranges::find(
      answer.stretches, support::reserve_index(trip.course, reserve), &SupplyStretch::reserve);
  EXPECT_NE(found, answer.stretches.end());
  return *found;
}

double done_km(const SupplyStretch& stretch) {
  return stretch.last->done_km + (stretch.last->at.from == 1 ? 300 : 0);
}

TEST(LimitedSupply, IsTakenOnTheWayBack) {
  // 100 L are 1000 km, out and back: turned at 500 km; each litre more is five.
  const SupplyStretch without = first_of(out_and_no_further(""), "fuel:a");
  ASSERT_TRUE(without.last);
  EXPECT_NEAR(done_km(without), 500, 2);
  const SupplyStretch some = first_of(out_and_no_further("diesel: {most: 5 L}"), "fuel:a");
  ASSERT_TRUE(some.last);
  EXPECT_NEAR(done_km(some), 525, 2);
  // With 400 L it is as good as a supply without end: 70 L are the way from it and back to it.
  const SupplyStretch much = first_of(out_and_no_further("diesel: {most: 400 L}"), "fuel:a");
  ASSERT_TRUE(much.last);
  EXPECT_NEAR(done_km(much), 300 + 350, 2);
}

TEST(LimitedSupply, OnTheWayBackIsDivided) {
  const PlanText plan = out_and_no_further("diesel: {most: 10 L}", 2);
  for (const char* reserve : {"fuel:a", "fuel:b"}) {
    const SupplyStretch stretch = first_of(plan, reserve);
    ASSERT_TRUE(stretch.last) << reserve;
    EXPECT_NEAR(done_km(stretch), 525, 2) << reserve;
  }
}

TEST(LimitedSupply, OnTheWayBackIsNotTakenWhereItIsShutOrUnsure) {
  for (const char* at_roadhouse :
       {"diesel: {most: 400 L, confirmed: no}", "diesel: {most: 400 L, open: [fri]}"}) {
    const SupplyStretch stretch = first_of(out_and_no_further(at_roadhouse), "fuel:a");
    ASSERT_TRUE(stretch.last) << at_roadhouse;
    EXPECT_NEAR(done_km(stretch), 500, 2) << at_roadhouse;
  }
}

TEST(LimitedSupply, LowersWhatTheWayBackTakes) {
  PlanText plan = out_and_no_further("diesel: {most: 20 L}");
  plan.itinerary.emplace_back("stay: {nights: 1}");
  plan.itinerary.push_back(leg("Base", 900));
  const Trip trip = travel(plan);
  const Needs needs = morning_needs(trip);
  const WaysOutTable out = ways_out(trip, needs);
  const auto found = std::ranges::find(out.reserves, support::reserve_index(trip.course, "fuel:a"));
  const WaysOut& ways = out.ways(1, static_cast<std::size_t>(found - out.reserves.begin()));
  // 60 L to the roadhouse, and 30 on from there, of which it gives 20.
  ASSERT_TRUE(ways.back);
  expect_level(ways.back->least, 70);
}

}  // namespace
}  // namespace drystage::answers
