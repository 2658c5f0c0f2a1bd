// Consumables: what uses them up, out of which store, and what is left of what is lost.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <memory>
#include <string>

#include "engine/engine.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::consumables_test {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

constexpr double exact = 1e-9;
constexpr const char* stuff = "consumable:stuff";

/// Two people of three meals a day: a night at Base, 200 km to Far in four hours, a night there.
PlanText two_days() {
  PlanText text;
  text.people = {PlanText::person("Ada", "4 L/day"), PlanText::person("Bo", "4 L/day")};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]}"};
  text.containers = {"{name: can, holds: 200 L, filled: 200 L}"};
  text.places = {PlanText::place("Base", "air"),
                 PlanText::place("Far", "air", "consumables: {stuff: {most: 3 kg}}")};
  text.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: Far, distance: 200 km, surfaces: sealed, speed: 50 km/h}",
                    "stay: {nights: 1}"};
  return text;
}

/// 2 kg and 5 kg of it, in a bottle of 1 kg and one of 3 kg.
std::string stuff_used(const std::string& use, const std::string& more = "") {
  return "{name: stuff, unit: kg, stores: [{name: first, holds: 2 kg, filled: 2 kg, empty_mass: 1 "
         "kg}, {name: second, holds: 5 kg, filled: 5 kg, empty_mass: 3 kg}], use: {" +
         use + "}" + more + "}";
}

PlanText plan_of(const std::string& use, const std::string& more = "") {
  PlanText text = two_days();
  text.consumables = {stuff_used(use, more)};
  return text;
}

double used(const std::string& use, std::size_t day) {
  return travel(plan_of(use)).reserve(day, stuff).used;
}

TEST(Consumables, AreUsedByPersonAndDay) {
  EXPECT_NEAR(used("per_person_day: 100 g", 0), 2 * 0.1, exact);
}

TEST(Consumables, AreUsedByTheMealOfEachPerson) {
  EXPECT_NEAR(used("per_meal: 50 g", 0), 2 * 3 * 0.05, exact);
}

TEST(Consumables, AreUsedByTheDayWhoeverIsThere) {
  EXPECT_NEAR(used("per_day: 300 g", 0), 0.3, exact);
}

TEST(Consumables, AreUsedByTheRoad) {
  EXPECT_NEAR(used("per_100km: 400 g", 0), 0, exact);
  EXPECT_NEAR(used("per_100km: 400 g", 1), 2 * 0.4, exact);
}

TEST(Consumables, AreUsedByTheHourDriven) {
  EXPECT_NEAR(used("per_engine_hour: 100 g", 1), 4 * 0.1, exact);
}

TEST(Consumables, AreUsedByAllOfTheseTogether) {
  EXPECT_NEAR(used("per_person_day: 100 g, per_meal: 50 g, per_day: 300 g, per_100km: 400 g, "
                   "per_engine_hour: 100 g",
                   1),
              0.2 + 0.3 + 0.3 + 0.8 + 0.4, exact);
}

TEST(Consumables, ComeOutOfTheirStoresInOrder) {
  const Trip trip = travel(plan_of("per_day: 2.5 kg"));
  EXPECT_NEAR(trip.store(0, "first").end, 0, exact);
  EXPECT_NEAR(trip.store(0, "second").end, 4.5, exact);
}

TEST(Consumables, RunOutAtTheirHour) {
  // 7 kg at 4 kg a day: at 18:00 of the second day, 1 kg too early.
  const Trip trip = travel(plan_of("per_day: 4 kg"));
  EXPECT_NEAR(trip.reserve(1, stuff).short_of, 1, exact);
  EXPECT_NEAR(trip.reserve(1, stuff).short_h, 18, exact);
  EXPECT_FALSE(trip.verdict.holds);
}

TEST(Consumables, HaveAMarginInDaysOfStayingPut) {
  // 7 kg less two days of 2 kg leave 3 kg: one day and a half.
  const Trip trip = travel(plan_of("per_day: 2 kg", ", margin: 2 days"));
  EXPECT_NEAR(trip.reserve(1, stuff).margin, 4, exact);
  EXPECT_NEAR(trip.reserve(1, stuff).breach_h, 12, exact);
}

TEST(Consumables, HaveAMarginInKilometresAndTheHoursThatThoseTake) {
  // 100 km take 1 kg, and two hours of 0.5 kg.
  const Trip trip = travel(plan_of("per_100km: 1 kg, per_engine_hour: 500 g", ", margin: 100 km"));
  EXPECT_NEAR(trip.reserve(1, stuff).margin, 2, exact);
  EXPECT_NEAR(trip.reserve(1, stuff).used, 4, exact);
}

TEST(Consumables, HaveAMarginInShareOfAllTheirStores) {
  const Trip trip = travel(plan_of("per_day: 1 kg", ", margin: 20 %"));
  EXPECT_NEAR(trip.reserve(1, stuff).margin, 0.2 * 7, exact);
}

TEST(Consumables, WeighWithTheirStores) {
  PlanText bare = two_days();
  bare.places[1] = PlanText::place("Far", "air");
  const double without_kg = travel(bare).record.heaviest[0].kg;
  EXPECT_NEAR(travel(plan_of("per_day: 2 kg")).record.heaviest[0].kg, without_kg + 7 + 1 + 3, 1e-6);
  PlanText text = bare;
  text.consumables = {
      "{name: oil, unit: bottles, unit_mass: 0.9 kg, stores: [{name: crate, holds: 10, filled: 8 "
      "bottles, empty_mass: 2 kg}], use: {per_100km: 0.5}}"};
  EXPECT_NEAR(travel(text).record.heaviest[0].kg, without_kg + 8 * 0.9 + 2, 1e-6);
}

TEST(Consumables, AreTakenOnWhereTheyAreHad) {
  PlanText text = plan_of("per_day: 2 kg");
  text.itinerary.insert(text.itinerary.end() - 1, "resupply: {consumables: {stuff: fill}}");
  // There is room for all 3 kg that the place gives.
  EXPECT_NEAR(travel(text).sum(&engine::ReserveDay::gained, stuff), 3, exact);
  text.itinerary[3] = "resupply: {consumables: {stuff: 1.5 kg}}";
  EXPECT_NEAR(travel(text).sum(&engine::ReserveDay::gained, stuff), 1.5, exact);
}

TEST(Consumables, AreTakenForWhatIsUsedUntilTheNextAndTheMargin) {
  PlanText text = plan_of("per_day: 4 kg", ", margin: 20 %");
  text.itinerary.insert(text.itinerary.end() - 1, "resupply: {consumables: {stuff: to next}}");
  const Trip trip = travel(text);
  EXPECT_NEAR(trip.reserve(trip.days() - 1, stuff).end, 0.2 * 7, 1e-6);
}

TEST(Consumables, AreLostWithTheirStore) {
  const plan::Plan plan = plan_of("per_day: 1 kg").plan();
  const auto timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(plan));
  engine::Course course = engine::compile(plan, timeline);
  engine::Engine::damage(course, plan, {.stores = {{.consumable = 0, .store = 1}}});
  engine::Record record = engine::blank_record(course);
  engine::Engine::Standing standing = engine::Engine::begin(course, record);
  engine::Engine::lose_excess(course, standing);
  const int reserve = support::reserve_index(course, stuff);
  EXPECT_NEAR(standing.run.reserve_level(reserve), 2, exact);
  engine::Engine::set_level(course, standing, reserve, 1.25);
  EXPECT_NEAR(standing.run.reserve_level(reserve), 1.25, exact);
}

RC_GTEST_PROP(ConsumablesProperty, WhatWeighsNothingChangesNothingElse, ()) {
  PlanText text = support::random_plan(support::rapidcheck_pick());
  const Trip without = travel(text);
  text.consumables.emplace_back(
      "{name: x, unit: pieces, stores: [{name: box, holds: 9, filled: 9}], use: {per_day: 1}}");
  const Trip with = travel(text);
  for (std::size_t day = 0; day < without.days(); ++day) {
    for (std::size_t r = 0; r < without.course.reserves.size(); ++r) {
      RC_ASSERT(with.record.reserve(day, r).end == without.record.reserve(day, r).end);
      RC_ASSERT(with.record.reserve(day, r).slack == without.record.reserve(day, r).slack);
    }
  }
}

}  // namespace
}  // namespace drystage::consumables_test
