// Going on at once, where who comes early finds shut what is open as planned. By hand: 10 L in 100
// km on sealed roads and 40 L on gravel, 50 km/h, a trip that begins on a Monday.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "answers/onward/way_out.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

void expect_level(double level, double expected) {
  EXPECT_GE(level, expected - 1e-6);
  EXPECT_LE(level, expected + 1e-4 + 1e-6);
}

std::string leg(const std::string& to, int km, const std::string& surface = "sealed") {
  return "drive: {to: " + to + ", distance: " + std::to_string(km) + " km, surfaces: " + surface +
         ", speed: 50 km/h}";
}

/// To X on Monday, and to Y after a night or more.
PlanText by_x(const std::string& at_y) {
  PlanText plan;
  plan.driving = "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\"}";
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 400 L, "
      "filled: 300 L}], observed: [{surface: sealed, uses: 10 L/100km}, {surface: gravel, uses: 40 "
      "L/100km}]}"};
  plan.places = {PlanText::place("Base", "air"), PlanText::place("X", "air"),
                 PlanText::place("Y", "air", at_y), PlanText::place("Z", "air", "diesel: {}"),
                 PlanText::place("End", "air")};
  return plan;
}

/// The fuel that it takes from the morning of day 2.
WaysOut fuel(const PlanText& plan, std::size_t day = 1) {
  const Trip trip = travel(plan);
  const WaysOutTable out = ways_out(trip, morning_needs(trip));
  const auto found =
      std::ranges::find(out.reserves, support::reserve_index(trip.course, "fuel:truck"));
  return out.ways(day, static_cast<std::size_t>(found - out.reserves.begin()));
}

TEST(OnAtOnce, HoldsTheMarginOfTheTwoDrivesAfterASupplyThatIsWaitedFor) {
  PlanText plan = by_x("diesel: {open: [wed]}");
  plan.margins = {"fuel: 100 km"};
  plan.itinerary = {"{at: Base}",        leg("X", 100),
                    "stay: {nights: 1}", leg("Y", 100),
                    "stay: {nights: 1}", "resupply: {diesel: fill}",
                    leg("Z", 100),       leg("End", 100, "gravel")};
  const WaysOut ways = fuel(plan);
  // 10 L to Y; there, waiting, the second drive ahead is on gravel, 40 L in 100 km.
  expect_level(ways.as_planned.least, 10 + 40);
  expect_level(ways.at_once.least, 10 + 40);
}

TEST(OnAtOnce, SaysWhatIsShutForWhoComesEarly) {
  PlanText plan = by_x("diesel: {most: 20 L, open: [wed]}");
  plan.itinerary = {
      "{at: Base}", leg("X", 100), "stay: {nights: 2}", leg("Y", 100), "resupply: {diesel: fill}",
      leg("Z", 300)};
  const WaysOut ways = fuel(plan);
  // 40 L to Z, of which Y gives 20 on Wednesday.
  expect_level(ways.as_planned.least, 40 - 20);
  EXPECT_EQ(ways.as_planned.shut_place, -1);
  expect_level(ways.at_once.least, 40);
  EXPECT_EQ(ways.at_once.shut_place, 2);
  EXPECT_EQ(ways.at_once.shut_day, 1);
}

TEST(OnAtOnce, SaysWhatIsWaitedFor) {
  PlanText plan = by_x("drinking_water: {open: [thu]}");
  plan.people = {PlanText::person("Ada", "24 L/day")};
  plan.itinerary = {"{at: Base}",
                    leg("X", 100),
                    "stay: {nights: 3}",
                    leg("Y", 100),
                    "resupply: {drinking_water: fill}",
                    leg("Z", 300)};
  const Trip trip = travel(plan);
  const WaysOutTable out = ways_out(trip, morning_needs(trip));
  const auto found =
      std::ranges::find(out.reserves, support::reserve_index(trip.course, "drinking_water"));
  const WaysOut& ways = out.ways(1, static_cast<std::size_t>(found - out.reserves.begin()));
  // From Tuesday midnight to Thursday, when the party arrives at ten as planned, and at eight when
  // it has been waiting.
  expect_level(ways.as_planned.least, 48 + 10);
  expect_level(ways.at_once.least, 48 + 8);
  EXPECT_EQ(ways.at_once.shut_place, 2);
  EXPECT_EQ(ways.at_once.shut_day, 1);
}

}  // namespace
}  // namespace drystage::answers
