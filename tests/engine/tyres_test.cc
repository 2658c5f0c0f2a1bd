// Spare wheels and repairs: how many punctures are to be expected, what must be there for them,
// where all is mended, and what becomes of one.
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "engine/engine.h"
#include "engine/surfaces.h"
#include "support/trip.h"

namespace drystage::tyres_test {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

constexpr const char* spares = "tyres:truck";
constexpr double exact = 1e-9;

std::string truck(const std::string& tyres) {
  return "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 900 L, "
         "filled: 900 L}]" +
         (tyres.empty() ? "" : ", tyres: {" + tyres + "}") + "}";
}

/// A night at Base, two drives of 500 km on gravel and a night after each; all within the day.
PlanText two_drives(const std::string& tyres, const std::string& supplies_of_red = "") {
  PlanText text;
  text.driving = "{most_per_day: 12 h, daylight_only: no}";
  text.vehicles = {truck(tyres)};
  text.containers = {"{name: can, holds: 200 L, filled: 200 L}"};
  text.places = {PlanText::place("Base", "air"), PlanText::place("Red", "air", supplies_of_red),
                 PlanText::place("Blue", "air")};
  const auto drive = [](const char* to) {
    return fmt::format("drive: {{to: {}, distance: 500 km, surfaces: gravel, speed: 50 km/h}}", to);
  };
  text.itinerary = {"{at: Base}",        "stay: {nights: 1}", drive("Red"),
                    "stay: {nights: 1}", drive("Blue"),       "stay: {nights: 2}"};
  return text;
}

/// One puncture in 1000 km of gravel, and none that is beyond repair.
constexpr const char* one_in_1000 = ", beyond_repair: 0 %, punctures: {gravel: 1}";

double must_have(const Trip& trip, std::size_t day) { return trip.reserve(day, spares).margin; }

// By hand: 1 puncture in 1000 km. For 95 %, of a mean of 1 three must be there (0.981; of two
// 0.920), of 0.5 two (0.986; of one 0.910), of nothing none.
TEST(Spares, WhatMustBeThereFallsAsTheWayGetsShorter) {
  const Trip trip = travel(two_drives(std::string("spare_wheels: 2, repairs: 2") + one_in_1000));
  ASSERT_EQ(trip.days(), 4U);
  EXPECT_NEAR(must_have(trip, 0), 3, exact);
  EXPECT_NEAR(must_have(trip, 1), 3, exact);
  EXPECT_NEAR(must_have(trip, 2), 2, exact);
  EXPECT_NEAR(must_have(trip, 3), 0, exact);
  EXPECT_TRUE(trip.verdict.holds);
  for (std::size_t day = 0; day < trip.days(); ++day) {
    EXPECT_NEAR(trip.reserve(day, spares).end, 4, exact);
    EXPECT_NEAR(trip.reserve(day, spares).used, 0, exact);
  }
}

TEST(Spares, TooFewBreakTheMarginBeforeTheFirstDrive) {
  const Trip trip = travel(two_drives(std::string("spare_wheels: 2") + one_in_1000));
  ASSERT_FALSE(trip.verdict.holds);
  const answers::Breach& breach = trip.verdict.breaches.front();
  EXPECT_EQ(trip.course.reserves[static_cast<std::size_t>(breach.reserve)].name, spares);
  EXPECT_EQ(breach.harm, answers::Harm::margin);
  EXPECT_EQ(breach.day, 0);
  EXPECT_NEAR(breach.at_worst, 1, exact);
}

// 90 % are reached with two (0.920), 99 % with four (0.996).
TEST(Spares, TheChanceIsTheMarginByFamilyAndByVehicle) {
  PlanText text = two_drives(std::string("spare_wheels: 4") + one_in_1000);
  text.margins = {"tyres: 90 %"};
  EXPECT_NEAR(must_have(travel(text), 0), 2, exact);
  text.margins = {"tyres: 90 %", "\"tyres:truck\": 99 %"};
  EXPECT_NEAR(must_have(travel(text), 0), 4, exact);
}

TEST(Spares, ThereIsNothingToBeHadForWhereTheyAreMendedOnTheWay) {
  const std::string tyres = std::string("spare_wheels: 2, repairs: 2") + one_in_1000;
  const Trip trip = travel(two_drives(tyres, "tyres: {}"));
  EXPECT_NEAR(must_have(trip, 0), 2, exact);
  EXPECT_NEAR(must_have(trip, 1), 2, exact);
  EXPECT_NEAR(must_have(trip, 2), 2, exact);
  // Nobody counts on what is shut or not confirmed.
  for (const char* not_there : {"tyres: {confirmed: no}",
                                "tyres: {shut: [{from: 2027-03-01, to: "
                                "2027-03-30}]}"}) {
    EXPECT_NEAR(must_have(travel(two_drives(tyres, not_there)), 0), 3, exact) << not_there;
  }
}

TEST(Spares, AreMendedWhereThatIsDone) {
  PlanText text = two_drives(std::string("spare_wheels: 2, repairs: 2") + one_in_1000, "tyres: {}");
  text.itinerary.insert(text.itinerary.begin() + 3, "stay: {nights: 1}");
  const plan::Plan plan = support::read_plan(
      text.text() + "readings: [{day: 2, hour: \"09:00\", spare_wheels: 0, repairs: 1}]\n");
  const Trip trip = travel(plan);
  EXPECT_NEAR(trip.reserve(1, spares).left, 1, exact);
  EXPECT_NEAR(trip.reserve(1, spares).end, 4, exact);
  EXPECT_NEAR(trip.reserve(2, spares).lowest, 4, exact);
}

// --- how many are to be expected ---

// By hand: each surface's own rate times its km, over 1000.
TEST(Spares, PuncturesAreToBeExpectedBySurface) {
  const PlanText text = two_drives("spare_wheels: 2, beyond_repair: 30 %");
  const plan::TyreKit kit = text.plan().vehicles[0].tyres.value();
  const auto all = [&kit](plan::Surface surface, double km) {
    const models::Punctures made = engine::reserves::punctures_on(kit, surface, km);
    EXPECT_NEAR(made.cuts, 0.3 * (made.holes + made.cuts), exact);
    return made.holes + made.cuts;
  };
  EXPECT_NEAR(all(plan::Surface::sealed, 5000), 0.02 * 5, exact);
  EXPECT_NEAR(all(plan::Surface::gravel, 500), 0.4 * 0.5, exact);
  EXPECT_NEAR(all(plan::Surface::rock, 80), 2 * 0.08, exact);
}

TEST(Spares, AFigureOfOnesOwnWinsOnItsSurfaceAlone) {
  const plan::TyreKit kit =
      two_drives("spare_wheels: 2, punctures: {soft_sand: 0.7}").plan().vehicles[0].tyres.value();
  const auto all = [&kit](plan::Surface surface) {
    const models::Punctures made = engine::reserves::punctures_on(kit, surface, 1000);
    return made.holes + made.cuts;
  };
  EXPECT_NEAR(all(plan::Surface::soft_sand), 0.7, exact);
  EXPECT_NEAR(all(plan::Surface::sand),
              engine::surface_figures(plan::Surface::sand).punctures_1000_km, exact);
}

// 0.25 of the mean of 1 are cuts: with no wheel they are not survived with 95 %, whatever repairs
// there are; with one they are with e^-0.25 (1 + 0.25) = 0.974.
TEST(Spares, RepairsDoNotStandForAWheel) {
  const std::string rate = ", punctures: {gravel: 1}";
  EXPECT_FALSE(travel(two_drives("spare_wheels: 0, repairs: 40" + rate)).verdict.holds);
  EXPECT_TRUE(travel(two_drives("spare_wheels: 1, repairs: 40" + rate)).verdict.holds);
}

// --- what they weigh, and that nothing else depends on them ---

TEST(Spares, SpareWheelsWeighWhatThePlanSays) {
  const auto truck_kg = [](const std::string& tyres) {
    return travel(two_drives(tyres)).record.heaviest[0].kg;
  };
  const double without_kg = truck_kg("");
  EXPECT_NEAR(truck_kg("spare_wheels: 2") - without_kg, 2 * 35, exact);
  EXPECT_NEAR(truck_kg("spare_wheels: 3, wheel_mass: 20 kg") - without_kg, 3 * 20, exact);
  EXPECT_NEAR(truck_kg("spare_wheels: 3, repairs: 9, wheel_mass: 0 kg") - without_kg, 0, exact);
}

TEST(Spares, WhoSaysNothingOfThemIsNotJudgedByThem) {
  EXPECT_EQ(engine::find_reserve(travel(two_drives("")).course,
                                 {.family = engine::Family::tyres, .of = 0}),
            -1);
}

TEST(Spares, ChangeNothingElseIfTheyWeighNothing) {
  const Trip without = travel(two_drives(""));
  const Trip with = travel(two_drives("spare_wheels: 3, repairs: 5, wheel_mass: 0 kg"));
  ASSERT_EQ(with.record.reserves, without.record.reserves + 1);
  for (std::size_t day = 0; day < without.days(); ++day) {
    for (std::size_t r = 0; r < without.record.reserves; ++r) {
      EXPECT_EQ(with.record.reserve(day, r).end, without.record.reserve(day, r).end);
      EXPECT_EQ(with.record.reserve(day, r).slack, without.record.reserve(day, r).slack);
    }
  }
}

// --- punctures ---

/// Where a trip stands on the first drive, and after so many punctures there.
engine::Engine::Standing punctured(const Trip& trip, engine::Course& course, engine::Record& record,
                                   int times) {
  engine::Engine::Standing now = engine::Engine::begin(course, record);
  const auto drives = [](const engine::TimeStep& step) { return step.drive >= 0; };
  const auto& steps = course.timeline->steps;
  engine::Engine::go_on(
      course, now, static_cast<std::size_t>(std::ranges::find_if(steps, drives) - steps.begin()));
  engine::Engine::damage(course, trip.plan, {.punctured = {{.vehicle = 0, .times = times}}});
  engine::Engine::lose_excess(course, now);
  return now;
}

TEST(Spares, APunctureTakesAWheelFirstAndThenARepair) {
  const Trip trip = travel(two_drives(std::string("spare_wheels: 1, repairs: 2") + one_in_1000));
  engine::Course course = trip.course;
  engine::Record record = engine::blank_record(course);
  const engine::Engine::Standing now = punctured(trip, course, record, 2);
  const int reserve = support::reserve_index(course, spares);
  EXPECT_NEAR(now.run.reserve_level(reserve), 1, exact);
  EXPECT_NEAR(now.run.level(support::store_index(course, "spare wheels of truck")), 0, exact);
  EXPECT_NEAR(now.run.level(support::store_index(course, "repairs of truck")), 1, exact);
}

TEST(Spares, APunctureWithNothingLeftIsWantedAndNotThere) {
  const Trip trip = travel(two_drives(std::string("spare_wheels: 1") + one_in_1000));
  engine::Course course = trip.course;
  engine::Record record = engine::blank_record(course);
  engine::Engine::Standing now = punctured(trip, course, record, 3);
  engine::Engine::go_on(course, now, course.timeline->steps.size());
  const auto r = static_cast<std::size_t>(support::reserve_index(course, spares));
  EXPECT_NEAR(record.reserve(1, r).lost, 1, exact);
  EXPECT_NEAR(record.reserve(1, r).short_of, 2, exact);
  EXPECT_NEAR(record.reserve(2, r).short_of, 0, exact);
}

}  // namespace
}  // namespace drystage::tyres_test
