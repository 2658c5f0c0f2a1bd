// What has broken, and what that means for what was on it.
#include "engine/damage.h"

#include <gtest/gtest.h>

#include "engine/reserves/generator.h"
#include "support/plan_text.h"

namespace drystage {
namespace {

using engine::carrier;
using engine::Damage;
using engine::feeding_bank;
using engine::works;
using support::PlanText;

std::string vehicle(const std::string& name, const std::string& fuel) {
  return "{name: " + name + ", fuel: " + fuel + ", mass: {empty: 2000 kg}, tanks: [{name: " + name +
         " tank, holds: 60 L, filled: 60 L}]}";
}

/// The truck and the van burn diesel, the buggy petrol. Banks are in the van and in the buggy.
plan::Plan convoy() {
  PlanText text;
  text.vehicles = {vehicle("truck", "diesel"), vehicle("buggy", "petrol"),
                   vehicle("van", "diesel")};
  text.batteries = {"{name: first, kind: agm, capacity: 100 Ah, in: van}",
                    "{name: second, kind: agm, capacity: 100 Ah, in: buggy}"};
  text.charging = {
      "{name: alternator, current: 20 A, from: truck, on: second}",
      "{name: panel, solar: 100 W, on: first}",
      "{name: generator, generator: 800 W, fuel: petrol, uses: 0.5 L/h, runs: 2 h/day, "
      "from: buggy, on: first}",
      "{name: lead, mains: 10 A, on: second}"};
  return text.plan();
}

constexpr int truck = 0;
constexpr int buggy = 1;
constexpr int van = 2;
enum ChargerIndex : std::size_t { alternator, panel, generator, lead };

TEST(Carrier, IsTheVehicleItselfUntilItIsLeftBehind) {
  const plan::Plan plan = convoy();
  EXPECT_EQ(carrier(plan, {}, van), van);
  EXPECT_EQ(carrier(plan, {.vehicles = {buggy}}, van), van);
}

TEST(Carrier, IsThenOneOfTheSameFuelAndElseTheFirst) {
  const plan::Plan plan = convoy();
  EXPECT_EQ(carrier(plan, {.vehicles = {truck}}, truck), van);
  EXPECT_EQ(carrier(plan, {.vehicles = {buggy}}, buggy), truck);
}

TEST(Carrier, IsLeftBehindInItsTurn) {
  const plan::Plan plan = convoy();
  EXPECT_EQ(carrier(plan, {.vehicles = {truck, van}}, truck), buggy);
  EXPECT_EQ(carrier(plan, {.vehicles = {van, truck}}, truck), buggy);
  EXPECT_EQ(carrier(plan, {.vehicles = {van, truck}}, van), buggy);
}

TEST(FeedingBank, IsAnotherThatDidNotStayBehind) {
  const plan::Plan plan = convoy();
  EXPECT_EQ(feeding_bank(plan, {}, 0), 0);
  EXPECT_EQ(feeding_bank(plan, {.vehicles = {truck}}, 0), 0);
  EXPECT_EQ(feeding_bank(plan, {.vehicles = {van}}, 0), 1);
  EXPECT_EQ(feeding_bank(plan, {.vehicles = {van}}, 1), 1);
  EXPECT_EQ(feeding_bank(plan, {.vehicles = {buggy}}, 1), 0);
  // Where none is left, what it fed stays where it was put last.
  EXPECT_EQ(feeding_bank(plan, {.vehicles = {van, buggy}}, 0), 1);
}

TEST(Charger, WorksUntilItOrItsBankOrWhatDrivesItIsGone) {
  const plan::Plan plan = convoy();
  for (const std::size_t c : {alternator, panel, generator, lead}) {
    EXPECT_TRUE(works(plan, {}, c)) << c;
    EXPECT_FALSE(works(plan, {.chargers = {static_cast<int>(c)}}, c)) << c;
  }
  EXPECT_FALSE(works(plan, {.vehicles = {truck}}, alternator));
  EXPECT_FALSE(works(plan, {.vehicles = {buggy}}, alternator));
  EXPECT_TRUE(works(plan, {.vehicles = {van}}, alternator));
  EXPECT_FALSE(works(plan, {.vehicles = {van}}, panel));
  EXPECT_TRUE(works(plan, {.vehicles = {buggy}}, panel));
  // The truck, which takes the generator over, has no petrol.
  EXPECT_FALSE(works(plan, {.vehicles = {buggy}}, generator));
  EXPECT_TRUE(works(plan, {.vehicles = {truck}}, generator));
}

TEST(Generator, RestsOnMainsWhileAChargerTakesIt) {
  const plan::Plan plan = convoy();
  const auto left = [&](engine::Damage damage) {
    engine::CourseBase course;
    course.damage = std::move(damage);
    return engine::reserves::generators(plan, course);
  };
  EXPECT_TRUE(left({}).at(0).rests_on_mains);
  EXPECT_FALSE(left({.chargers = {lead}}).at(0).rests_on_mains);
  EXPECT_TRUE(left({.chargers = {generator}}).empty());
}

}  // namespace
}  // namespace drystage
