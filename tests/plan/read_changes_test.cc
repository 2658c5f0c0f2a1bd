// Changes on the way against the same written by hand.
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "plan/read.h"
#include "support/plan_text.h"

namespace drystage::plan::read_changes_test {
namespace {

support::PlanText trip() {
  support::PlanText text;
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]}"};
  text.containers = {"{name: can, holds: 20 L, filled: 20 L, for: drinking}"};
  text.places = {support::PlanText::place("Base", "air", "diesel: {}, drinking_water: {}"),
                 support::PlanText::place("Mid", "air", "drinking_water: {}"),
                 support::PlanText::place("Far", "air")};
  text.itinerary = {
      "{at: Base}",
      "drive: {to: Mid, distance: 100 km, surfaces: {sealed: 60 km, gravel: 40 km}}",
      "resupply: {drinking_water: fill}",
      "stay: {nights: 2}",
      "drive: {to: Far, distance: 80 km, surfaces: track, climb: 200 m, descent: 50 m}",
      "stay: {nights: 3}",
      "drive: {to: Base, distance: 170 km, surfaces: gravel}"};
  return text;
}

Plan changed(const std::string& change, const std::string& more = {}) {
  return support::read_plan(trip().text() + more + "\nchanges: [" + change + "]\n");
}

// Every item as text, so that what differs is seen.
std::vector<std::string> told(const Plan& plan) {
  std::vector<std::string> out;
  for (const ItineraryItem& item : plan.itinerary) {
    if (const auto* here = std::get_if<At>(&item)) out.push_back(fmt::format("at {}", here->place));
    if (const auto* stay = std::get_if<Stay>(&item)) {
      out.push_back(fmt::format("stay {}", stay->nights));
    }
    if (const auto* stop = std::get_if<Resupply>(&item)) {
      out.push_back(fmt::format("{} orders", stop->orders.size()));
    }
    if (const auto* drive = std::get_if<Drive>(&item)) {
      std::string text = fmt::format("to {}, {} km, up {}, down {}:", drive->to, drive->distance_km,
                                     drive->climb_m.value_or(-1), drive->descent_m.value_or(-1));
      for (const SurfacePart& part : drive->surfaces) {
        text += fmt::format(" {} km of {}", part.distance_km, static_cast<int>(part.surface));
      }
      out.push_back(text);
    }
  }
  return out;
}

void expect_itinerary(const Plan& plan, const std::vector<std::string>& as) {
  support::PlanText other = trip();
  other.itinerary = as;
  EXPECT_EQ(told(plan), told(other.plan()));
}

TEST(Changes, MakeAStayLongerOrLeaveItOut) {
  std::vector<std::string> items = trip().itinerary;
  items[5] = "stay: {nights: 1}";
  expect_itinerary(changed("{day: 4, stay: Far, nights: 1}"), items);
  items[5] = "stay: {nights: 9}";
  expect_itinerary(changed("{day: 4, stay: Far, nights: 9}"), items);
  EXPECT_EQ(std::get<Stay>(changed("{day: 4, stay: Far, nights: 0}").itinerary[5]).nights, 0);
}

TEST(Changes, OfAShutRoadLeadBackByTheWayThatWasComeAndToItsStops) {
  std::vector<std::string> items = trip().itinerary;
  items.resize(4);
  items.emplace_back(
      "drive: {to: Base, distance: 100 km, surfaces: [{surface: gravel, distance: 40 km}, "
      "{surface: sealed, distance: 60 km}]}");
  expect_itinerary(changed("{day: 3, shut: Far}"), items);
  // Further on, by the stop at Mid.
  items = trip().itinerary;
  items.resize(6);
  items.emplace_back(
      "drive: {to: Mid, distance: 80 km, surfaces: track, climb: 50 m, descent: 200 m}");
  items.emplace_back("resupply: {drinking_water: fill}");
  items.emplace_back(
      "drive: {to: Base, distance: 100 km, surfaces: [{surface: gravel, distance: 40 km}, "
      "{surface: sealed, distance: 60 km}]}");
  expect_itinerary(changed("{day: 6, shut: Base}"), items);
}

TEST(Changes, OfAShutRoadLeadByTheShortestOtherRoad) {
  const std::string roads =
      "\nroads:\n  - {from: Far, to: Mid, distance: 130 km, surfaces: {gravel: 100 km, sand: 30 "
      "km}, "
      "climb: 30 m, descent: 10 m}\n  - {from: Mid, to: Far, distance: 140 km, surfaces: gravel}\n";
  const Plan plan = changed("{day: 3, shut: Far}", roads);
  const auto& drive = std::get<Drive>(plan.itinerary[4]);
  EXPECT_EQ(drive.distance_km, 130);
  EXPECT_EQ(drive.surfaces.front().surface, Surface::sand);
  EXPECT_EQ(drive.climb_m, 10);
  EXPECT_EQ(drive.descent_m, 30);
  EXPECT_FALSE(drive.off_itinerary);
  EXPECT_EQ(plan.itinerary.size(), trip().itinerary.size());
}

TEST(Changes, ShutSuppliesFromTheirDayOn) {
  const Plan all = changed("{day: 3, no_supply: Base}");
  for (const Supply& supply : all.places[0].supplies) {
    ASSERT_EQ(supply.shut_dates.size(), 1U);
    EXPECT_EQ(supply.shut_dates[0].from, Date(2027, 3, 3));
    EXPECT_GT(supply.shut_dates[0].to, Date(2100, 1, 1));
  }
  const Plan one = changed("{day: 3, no_supply: Base, of: diesel}");
  EXPECT_EQ(
      one.places[0].supplies[0].shut_dates.size() + one.places[0].supplies[1].shut_dates.size(),
      1U);
  EXPECT_TRUE(one.places[1].supplies[0].shut_dates.empty());
}

TEST(Changes, KeepWhatTheEngineMustKnow) {
  const Plan plan = changed("{day: 2, wait: 3 days}, {day: 4, lost: [can, truck/tank]}");
  ASSERT_EQ(plan.changes.size(), 2U);
  EXPECT_EQ(plan.changes[0].day, 1);
  EXPECT_EQ(plan.changes[0].wait_days, 3);
  EXPECT_EQ(plan.changes[1].containers, std::vector<int>{0});
  EXPECT_EQ(plan.changes[1].tanks, (std::vector<TankReference>{{0, 0}}));
}

}  // namespace
}  // namespace drystage::plan::read_changes_test
