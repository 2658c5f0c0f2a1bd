// Mends and what vehicles may carry; filling what is there; and one line for the same thing twice.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "answers/offers/mend.h"
#include "plan/limits.h"
#include "support/answer.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;
using support::unwrapped;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr double container_kg = 10 + 0.7;  // ten litres and what they are in

/// Five days at 4 L and a margin of 10 L from 23 L: 7 L too few. Nights that cannot be left out.
PlanText thirsty(const std::string& holds) {
  PlanText plan;
  plan.margins = {"drinking_water: 10 L"};
  plan.containers = {"{name: can, holds: " + holds + ", filled: 23 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  plan.itinerary = {"{at: Base}",        "stay: {nights: 1}", "stay: {nights: 1}",
                    "stay: {nights: 1}", "stay: {nights: 1}", "stay: {nights: 1}"};
  return plan;
}

/// The plan with a limit this much above the most that the truck weighs.
plan::Plan with_room(const PlanText& text, double room_kg) {
  plan::Plan plan = text.plan();
  plan.vehicles[0].limit_kg = travel(plan).record.heaviest[0].kg + room_kg;
  return plan;
}

std::vector<std::string> changes(const plan::Plan& plan) {
  std::vector<std::string> out;
  const auto mend = smallest_mend(travel(plan));
  if (!mend) return out;
  EXPECT_TRUE(mend->verdict.reserves_hold());
  for (const Change& change : mend->changes) out.push_back(engine::words(change.name));
  return out;
}

TEST(MendWithinALimit, IsACanWhenTheVehicleMayCarryIt) {
  EXPECT_THAT(changes(with_room(thirsty("23 L"), container_kg + 0.01)),
              ElementsAre("one more 10 L container of drinking water"));
}

TEST(MendWithinALimit, IsNoneThatMakesMoreThingsThanAPlanMayHave) {
  PlanText text = thirsty("23 L");
  // With the can, the tank and the stores these are one fewer than may be.
  for (std::size_t i = 3; i + 1 < plan::most_to_carry; ++i) {
    text.containers.push_back("{name: bottle " + std::to_string(i) +
                              ", holds: 1 L, filled: 0 L, for: utility}");
  }
  EXPECT_THAT(changes(text.plan()), ElementsAre("one more 10 L container of drinking water"));
  text.containers.push_back("{name: bottle, holds: 1 L, filled: 0 L, for: utility}");
  EXPECT_THAT(changes(text.plan()), ElementsAre());
}

TEST(MendWithinALimit, IsNoneWhenTheLimitIsJustTooLowForOneMoreCan) {
  EXPECT_THAT(changes(with_room(thirsty("23 L"), container_kg - 0.01)), ElementsAre());
}

TEST(MendWithinALimit, IsAnotherOneWhenTheLimitIsJustTooLowForOneMoreCan) {
  PlanText plan = thirsty("31 L");  // eight litres more fit into what there is
  EXPECT_THAT(changes(with_room(plan, container_kg - 0.01)),
              ElementsAre("starting with every drinking container full (8 L more)"));
  EXPECT_THAT(changes(with_room(plan, 7.99)), ElementsAre());
}

TEST(MendWithinALimit, IsNoneWhereTheRearAxleWouldBearTooMuch) {
  // Everything lies halfway between the axles: half of a can more goes on each.
  plan::Plan plan = thirsty("23 L").plan();
  plan::Vehicle& truck = plan.vehicles[0];
  truck.chassis.wheelbase_m = 3;
  truck.tickets.push_back({.front_kg = 1300, .rear_kg = 1200});
  const auto with_room_behind = [&](double room_kg) {
    truck.limits.rear_kg = 1e5;
    truck.limits.rear_kg = travel(plan).record.heaviest[1].kg + room_kg;
    return plan;
  };
  EXPECT_THAT(changes(with_room_behind(container_kg / 2 + 0.01)),
              ElementsAre("one more 10 L container of drinking water"));
  EXPECT_THAT(changes(with_room_behind(container_kg / 2 - 0.01)), ElementsAre());
}

TEST(MendWithinALimit, IsNothingHeavierForAVehicleThatIsOverItAlready) {
  EXPECT_THAT(changes(with_room(thirsty("60 L"), -50)), ElementsAre());
  EXPECT_THAT(changes(thirsty("60 L").plan()), Not(ElementsAre()));
}

TEST(MendWithinALimit, IsStillWhatAddsNothingForAVehicleThatIsOverItAlready) {
  PlanText plan = thirsty("60 L");
  plan.itinerary = {"{at: Base}", "stay: {nights: 5}"};
  EXPECT_THAT(changes(with_room(plan, -50)), ElementsAre("two nights fewer at Base"));
}

TEST(MendWithinALimit, CountsWhatIsTakenOnOnTheWay) {
  PlanText plan = thirsty("60 L");
  plan.places.push_back(PlanText::place("Well", "air", "drinking_water: {}"));
  plan.itinerary[1] = "drive: {to: Well, distance: 10 km, surfaces: sealed}";
  // By then a litre or two of water and of diesel are gone, and the can takes 37 L and those.
  EXPECT_THAT(changes(with_room(plan, 37)),
              ElementsAre("filling up with drinking water at Well on day 1"));
  EXPECT_THAT(changes(with_room(plan, 34)),
              ElementsAre("one more 10 L container of drinking water"));
  EXPECT_THAT(changes(with_room(plan, 0)), ElementsAre());
}

TEST(MendWithinALimit, MayLoadTheOtherVehicleThatHasRoom) {
  PlanText plan = thirsty("23 L");
  plan.people.push_back(PlanText::person("Ben", "0 L/day"));
  plan.vehicles.emplace_back(
      "{name: car, fuel: diesel, mass: {empty: 1500 kg}, tanks: [{name: tank, holds: 40 L, "
      "filled: 10 L}], observed: [{surface: sealed, uses: 10 L/100km}]}");
  plan.margins.emplace_back("\"fuel:car\": 12 L");
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  // The car lacks two litres of fuel; that the truck is full to its limit does not matter.
  EXPECT_THAT(changes(with_room(plan, 0)), ElementsAre("one more 20 L can of diesel for car"));
}

TEST(MendThatFills, ComesBeforeACanWhenLessIsNeeded) {
  EXPECT_THAT(changes(thirsty("31 L").plan()),
              ElementsAre("starting with every drinking container full (8 L more)"));
  // Too little room: a can. More room than a can weighs: a can.
  EXPECT_THAT(changes(thirsty("29 L").plan()),
              ElementsAre("one more 10 L container of drinking water"));
  EXPECT_THAT(changes(thirsty("60 L").plan()),
              ElementsAre("one more 10 L container of drinking water"));
}

TEST(MendThatFills, CountsUtilityContainersForUtilityWaterOnly) {
  PlanText plan = thirsty("60 L");
  plan.margins = {"utility_water: 10 L"};
  plan.containers.emplace_back("{name: tub, holds: 20 L, filled: 12 L, for: utility}");
  plan.utility_use = {"washing: 1 L/day"};
  EXPECT_THAT(changes(plan.plan()),
              ElementsAre("starting with every utility container full (8 L more)"));
}

TEST(MendThatFills, FillsTanksAndCansOfTheVehicleThatLacks) {
  PlanText plan = thirsty("60 L");
  plan.margins = {"fuel: 10 L"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 40 L, "
      "filled: 30 L}, {name: jerry, holds: 5 L, filled: 0 L}], observed: [{surface: gravel, uses: "
      "15 L/100km}]}"};
  plan.places.push_back(PlanText::place("There", "air"));
  plan.itinerary = {"{at: Base}", "drive: {to: There, distance: 200 km, surfaces: gravel}"};
  EXPECT_THAT(changes(plan.plan()),
              ElementsAre("starting with every tank and can of truck full (15 L more)"));
}

TEST(MendOfSeveral, PutsTheSameThingsTogether) {
  // Seven litres too few, 4 L a night; nothing can be loaded.
  PlanText plan = thirsty("23 L");
  plan.itinerary = {"{at: Base}", "stay: {nights: 5}"};
  EXPECT_THAT(changes(with_room(plan, 0)), ElementsAre("two nights fewer at Base"));
  EXPECT_THAT(unwrapped(support::run_text(with_room(plan, 0))),
              HasSubstr("two nights fewer at Base"));
}

TEST(MendInTheText, SaysHowHeavyTheVehicleWouldBeBesideItsLimit) {
  plan::Plan plan = thirsty("23 L").plan();
  plan.vehicles[0].limit_kg = 3500;
  plan.vehicles[0].tanks[0].filled_l = 70;
  // Truck, person, water, 70 L of diesel at 0.835 kg/L (EN 590, memory).
  const double start_kg = 2500 + 70 + 23 + 70 * 0.835;
  const auto kg = [](double mass_kg) { return std::to_string(std::lround(mass_kg)) + " kg"; };
  const std::string text = unwrapped(support::run_text(plan));
  EXPECT_THAT(text, HasSubstr("truck is heaviest on day 1: " + kg(start_kg) + ", limit 3500 kg."));
  EXPECT_THAT(text, HasSubstr("truck would be at most " + kg(start_kg + container_kg) +
                              ", limit 3500 kg."));
  plan.vehicles[0].limit_kg.reset();
  const std::string unlimited = unwrapped(support::run_text(plan));
  EXPECT_THAT(unlimited, HasSubstr("truck would be at most " + kg(start_kg + container_kg) + "."));
  EXPECT_THAT(unlimited, Not(HasSubstr("limit 3500")));
}

TEST(MendInTheText, SaysNoMassWhenNoneIsAdded) {
  PlanText plan = thirsty("23 L");
  plan.itinerary = {"{at: Base}", "stay: {nights: 5}"};
  const std::string text = unwrapped(support::run_text(with_room(plan, 0)));
  EXPECT_THAT(text, HasSubstr("Fix: two nights fewer at Base."));
  EXPECT_THAT(text, Not(HasSubstr("would be at most")));
}

}  // namespace
}  // namespace drystage::answers
