// What a place gives on one visit, and when it is on board.
#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

/// Room for 60 L of diesel and for 48 L of water at a place that has 25 L of diesel a visit.
PlanText little_diesel() {
  PlanText plan;
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: main, holds: 100 L, "
      "filled: 40 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  plan.containers = {"{name: can, holds: 60 L, filled: 12 L, for: drinking}"};
  plan.places = {PlanText::place("Base", "air", "diesel: {most: 25 L}, drinking_water: {}"),
                 PlanText::place("There", "air")};
  return plan;
}

double diesel_taken(PlanText plan, std::vector<std::string> itinerary) {
  plan.itinerary = std::move(itinerary);
  return travel(plan).sum(&ReserveDay::gained, "fuel:truck");
}

TEST(Visit, SharesTheMostOfASupplyAmongAllItsResupplies) {
  const PlanText plan = little_diesel();
  EXPECT_NEAR(diesel_taken(plan, {"{at: Base}", "resupply: {diesel: 20 L}", "stay: {nights: 1}",
                                  "resupply: {diesel: fill}", "stay: {nights: 1}"}),
              25, 1e-9);
  EXPECT_NEAR(diesel_taken(plan, {"{at: Base}", "resupply: {diesel: fill}", "stay: {nights: 1}",
                                  "resupply: {drinking_water: fill}", "resupply: {diesel: 9 L}",
                                  "stay: {nights: 1}", "resupply: {diesel: fill}"}),
              25, 1e-9);
}

TEST(Visit, HasTheMostOfASupplyAfreshAfterDrivingAwayAndBack) {
  EXPECT_NEAR(
      diesel_taken(
          little_diesel(),
          {"{at: Base}", "resupply: {diesel: fill}", "stay: {nights: 1}",
           "resupply: {diesel: fill}", "drive: {to: There, distance: 30 km, surfaces: sealed}",
           "drive: {to: Base, distance: 30 km, surfaces: sealed}", "resupply: {diesel: 15 L}",
           "stay: {nights: 1}", "resupply: {diesel: fill}"}),
      25 + 25, 1e-9);
}

TEST(Visit, SharesOnlyWhatIsTheSameCommodity) {
  PlanText plan = little_diesel();
  plan.itinerary = {"{at: Base}", "resupply: {diesel: fill, drinking_water: fill}",
                    "stay: {nights: 1}"};
  EXPECT_NEAR(travel(plan).sum(&ReserveDay::gained, "drinking_water"), 48, 1e-9);
}

TEST(Visit, AFillOfWhatIsFullTakesNothingAndTellsNothing) {
  PlanText plan = little_diesel();
  plan.containers = {"{name: a, holds: 20.3 L, filled: 0.1 L, for: drinking}",
                     "{name: b, holds: 9.7 L, filled: 1.1 L, for: drinking}",
                     "{name: c, holds: 33.3 L, filled: 6.7 L, for: drinking}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {drinking_water: fill}",
                    "resupply: {drinking_water: fill}", "stay: {nights: 1}"};
  EXPECT_EQ(travel(plan).told(EventKind::refill).size(), 1U);
}

/// 12 L on board, and a margin of 30 L.
PlanText dry_at_first() {
  PlanText plan = little_diesel();
  plan.margins = {"drinking_water: 30 L"};
  plan.driving = "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\"}";
  return plan;
}

TEST(Resupply, WhereTheTripBeginsIsOnBoardAtMidnight) {
  PlanText plan = dry_at_first();
  plan.itinerary = {"{at: Base}", "resupply: {drinking_water: fill}", "stay: {nights: 2}"};
  const Trip trip = travel(plan);
  const auto taken = trip.told(EventKind::refill);
  ASSERT_EQ(taken.size(), 1U);
  EXPECT_EQ(taken[0].day, 0);
  EXPECT_EQ(taken[0].hour, 0);
  const ReserveDay& first = trip.reserve(0, "drinking_water");
  EXPECT_NEAR(first.start, 12, 1e-9);
  EXPECT_NEAR(first.gained, 48, 1e-9);
  EXPECT_NEAR(first.end, 60 - 4, 1e-9);
  EXPECT_NEAR(first.lowest, 60 - 4, 1e-9);
  EXPECT_LT(first.breach_h, 0) << first.breach_h;
  EXPECT_TRUE(trip.verdict.holds);
}

TEST(Resupply, AfterANightIsAtTheHourOfDeparture) {
  PlanText plan = dry_at_first();
  plan.driving = "{most_per_day: 10 h, daylight_only: no, depart: \"07:30\"}";
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {drinking_water: fill}",
                    "stay: {nights: 1}"};
  const Trip trip = travel(plan);
  const auto taken = trip.told(EventKind::refill);
  ASSERT_EQ(taken.size(), 1U);
  EXPECT_EQ(taken[0].day, 1);
  EXPECT_NEAR(taken[0].hour, 7.5, 1e-9);
  EXPECT_NEAR(taken[0].amount, 48 + 4 * (24 + 7.5) / 24, 1e-9);
  EXPECT_FALSE(trip.verdict.holds);
}

TEST(Resupply, OfASecondStopOnTheFirstMorningIsAtTheHourOfDepartureToo) {
  PlanText plan = dry_at_first();
  plan.itinerary = {"{at: Base}", "resupply: {drinking_water: fill, takes: 1 h}",
                    "resupply: {drinking_water: fill}", "stay: {nights: 1}"};
  const auto taken = travel(plan).told(EventKind::refill);
  ASSERT_EQ(taken.size(), 2U);
  EXPECT_EQ(taken[0].hour, 0);
  EXPECT_NEAR(taken[1].hour, 8, 1e-9);
}

}  // namespace
}  // namespace drystage
