// Tanks and cans as choices: tanks in other sizes, tanks filled up, and that what another way beats
// is not among them.
#include "answers/offers/vessels.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "answers/offers/decision.h"
#include "support/size_of.h"

namespace drystage::answers {
namespace {

using support::container_names;
using support::found;
using support::line_of;
using support::PlanText;
using support::size_of;
using support::taken;
using support::tank_names;
using support::with_sections;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr const char* cans = "20 L can of diesel";

/// 500 km at 12 L/100km: 60 L, with so much to be left.
PlanText five_hundred_km(const std::string& margin, const std::string& tanks) {
  PlanText plan;
  plan.margins = {"fuel: " + margin};
  plan.containers = {"{name: tub, holds: 90 L, filled: 90 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, observed: [{surface: "
      "gravel, uses: 12 L/100km}], tanks: [" +
      tanks + "]}"};
  plan.places = {PlanText::place("Base", "air"), PlanText::place("There", "air")};
  plan.itinerary = {"{at: Base}", "drive: {to: There, distance: 500 km, surfaces: gravel}"};
  return plan;
}

TEST(Vessels, AFittedTankIsFilledFurtherByStepsOfTenLitres) {
  // 65 L are wanted: more than the tank holds, so there is a can, and the tank has the rest.
  const PlanText plan = five_hundred_km("5 L", "{name: tank, holds: 60 L, filled: 40 L}");
  const Sizing sizing = size_of(plan, "size: {fuel_cans: {truck: [20 L]}}");
  EXPECT_EQ(taken(sizing, cans), 1);
  EXPECT_EQ(found(sizing).plan.vehicles[0].tanks[0].filled_l, 50);
  EXPECT_EQ(line_of(found(sizing), "tank").plan_detail, "with 40 L");
  EXPECT_EQ(line_of(found(sizing), "tank").detail, "with 50 L");
}

TEST(Vessels, AFittedTankIsFilledUpBeforeACanIsTaken) {
  // Two cans weigh less than all that fits into the tank; what is wanted of it weighs less still.
  const PlanText plan = five_hundred_km("5 L", "{name: tank, holds: 90 L, filled: 40 L}");
  const Sizing sizing = size_of(plan, "size: {fuel_cans: {truck: [20 L]}}");
  EXPECT_EQ(taken(sizing, cans), 0);
  EXPECT_EQ(found(sizing).plan.vehicles[0].tanks[0].filled_l, 70);
}

// A twentieth for heat, a tenth for frost: common practice, and a little more.
TEST(Vessels, AreFullWithUpToFifteenPercentOfRoomInThem) {
  EXPECT_TRUE(is_full(17, 20));
  EXPECT_FALSE(is_full(16.9, 20));
}

// Water in the frost: 18 L in cans of 20 L. One can more has 18 L as well, and of 10 L 9.
TEST(Vessels, NewCansLeaveTheRoomThatThePlansLeave) {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "4 L/day")};
  plan.containers = {"{name: can 1, holds: 20 L, filled: 18 L, for: drinking, empty_mass: 1.2 kg}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 8}"};
  const Sizing sizing = size_of(plan, "size: {containers: {drinking: [20 L, 10 L]}}");
  double litres = 0;
  for (const plan::Container& each : found(sizing).plan.water.containers) {
    EXPECT_NEAR(each.filled_l, 0.9 * each.holds_l, 1e-9);
    litres += each.filled_l;
  }
  EXPECT_EQ(litres, 36);  // nine days of 4 L
}

TEST(Vessels, AFittedTankThatHasEnoughStaysAsItIs) {
  const PlanText plan = five_hundred_km("5 L", "{name: tank, holds: 90 L, filled: 70 L}");
  const Sizing sizing = size_of(plan, "size: {fuel_cans: {truck: [20 L]}}");
  EXPECT_EQ(found(sizing).plan.vehicles[0].tanks[0].filled_l, 70);
}

TEST(Vessels, ATankInAnotherSizeIsFullAndWeighsTheUsual) {
  const PlanText plan = five_hundred_km("5 L", "{name: tank, holds: 90 L, filled: 90 L}");
  const Sizing sizing = size_of(plan, "size: {tanks: {tank: [50 L, 70 L, 90 L]}}");
  const plan::Tank& tank = found(sizing).plan.vehicles[0].tanks[0];
  EXPECT_EQ(tank.holds_l, 70);
  EXPECT_EQ(tank.filled_l, 70);
  EXPECT_DOUBLE_EQ(tank.empty_kg, 14);  // of steel: 0.2 kg/L
  EXPECT_EQ(line_of(found(sizing), "tank").fewer, "50 L full");
  EXPECT_FALSE(line_of(found(sizing), "tank").kept);
}

TEST(Vessels, ATankInAnotherSizeHasNoShapeOrMarksAnyMore) {
  const std::string marks = "dip: {10 cm: 30 L, 20 cm: 90 L}";
  const PlanText plan =
      five_hundred_km("5 L", "{name: tank, holds: 90 L, filled: 90 L, " + marks + "}");
  const Sizing smaller = size_of(plan, "size: {tanks: {tank: [50 L, 70 L, 90 L]}}");
  EXPECT_EQ(found(smaller).plan.vehicles[0].tanks[0].holds_l, 70);
  EXPECT_FALSE(found(smaller).plan.vehicles[0].tanks[0].gauge.is_given());
  EXPECT_THAT(smaller.remarks, Contains(HasSubstr("\"tank\" is another one in the set")));
  // One of the same size that weighs more is another one too.
  const Sizing heavier = size_of(plan, "size: {tanks: {tank: [{holds: 90 L, empty_mass: 9 kg}]}}");
  EXPECT_FALSE(found(heavier).plan.vehicles[0].tanks[0].gauge.is_given());
}

TEST(Vessels, TheSameTankFilledFurtherIsReadAsBefore) {
  const std::string marks = "dip: {10 cm: 30 L, 20 cm: 90 L}";
  const PlanText plan =
      five_hundred_km("25 L", "{name: tank, holds: 90 L, filled: 50 L, " + marks + "}");
  const Sizing sizing = size_of(plan, "size: {tanks: {tank: [50 L, 70 L, 90 L]}}");
  const plan::Tank& tank = found(sizing).plan.vehicles[0].tanks[0];
  EXPECT_EQ(tank.filled_l, 90);
  EXPECT_EQ(tank.gauge.marks.size(), 2U);
  EXPECT_THAT(sizing.remarks, Not(Contains(HasSubstr("another one in the set"))));
}

TEST(Vessels, ANewCanIsNotTakenToBeShapedLikeTheOneItIsLike) {
  const PlanText plan = five_hundred_km("5 L",
                                        "{name: tank, holds: 40 L, filled: 40 L}, {name: can 1, "
                                        "holds: 20 L, filled: 20 L, empty_mass: "
                                        "4 kg, dip: {40 cm: 20 L}}");
  const Sizing sizing = size_of(plan, "size: {fuel_cans: {truck: [20 L]}}");
  const auto& tanks = found(sizing).plan.vehicles[0].tanks;
  ASSERT_EQ(tanks.size(), 3U);
  EXPECT_TRUE(tanks[1].gauge.is_given());
  EXPECT_FALSE(tanks[2].gauge.is_given());
}

TEST(Vessels, ThePlansOwnTankIsPartOfTheVehicle) {
  const PlanText plan = five_hundred_km("25 L", "{name: tank, holds: 90 L, filled: 50 L}");
  const Sizing sizing = size_of(plan, "size: {tanks: {tank: [50 L, 70 L, 90 L]}}");
  const plan::Tank& tank = found(sizing).plan.vehicles[0].tanks[0];
  EXPECT_EQ(tank.holds_l, 90);
  EXPECT_EQ(tank.filled_l, 90);
  EXPECT_EQ(tank.empty_kg, 0);
}

TEST(Vessels, ATankAndCansAreWeighedAgainstEachOther) {
  // 85 L and more: 70 L and a can weigh 14 + 58.45 + 4 + 16.7 kg, 120 L 24 + 100.2 kg.
  const PlanText plan = five_hundred_km("25 L", "{name: tank, holds: 40 L, filled: 40 L}");
  const std::string tanks = "tanks: {tank: [70 L, 120 L]}";
  Sizing sizing = size_of(plan, "size: {fuel_cans: {truck: [20 L]}, " + tanks + "}");
  EXPECT_EQ(taken(sizing, "tank"), 70);
  EXPECT_EQ(taken(sizing, cans), 1);
  // Where nothing is said of cans there are none to be had.
  sizing = size_of(plan, "size: {" + tanks + "}");
  EXPECT_EQ(taken(sizing, "tank"), 120);
  EXPECT_THAT(tank_names(found(sizing).plan), ElementsAre("tank"));
}

TEST(Vessels, WhatCannotBeUsedOfATankDoesNotCount) {
  // 60 L and 5 L are wanted; of 80 L with 20 L unusable there are 60.
  const PlanText plan =
      five_hundred_km("5 L", "{name: tank, holds: 80 L, filled: 80 L, unusable: 20 L}");
  EXPECT_EQ(taken(size_of(plan, "size: {fuel_cans: {truck: [20 L]}}"), cans), 1);
}

TEST(Vessels, EachVehicleHasItsOwnCansAndItsLinesSayWhose) {
  PlanText plan = five_hundred_km("5 L", "{name: tank, holds: 30 L, filled: 30 L}");
  plan.people.push_back(PlanText::person("Ben", "4 L/day"));
  plan.vehicles.emplace_back(
      "{name: car, fuel: petrol, mass: {empty: 1400 kg}, observed: [{surface: gravel, uses: 8 "
      "L/100km}], tanks: [{name: tank, holds: 30 L, filled: 30 L}]}");
  const Sizing sizing = size_of(
      plan,
      "size: {fuel_cans: {truck: [20 L], car: [10 L]}, containers: {drinking: [{holds: 20 L, "
      "in: car}]}, tanks: {car/tank: [25 L, 30 L]}}");
  EXPECT_EQ(taken(sizing, "20 L can of diesel for truck"), 2);
  // 40 and 5 L: 30 L and two of 10 L, or 25 L and two; but the car has the tank of 30 L already.
  EXPECT_EQ(taken(sizing, "tank of car"), 30);
  EXPECT_EQ(taken(sizing, "10 L can of petrol for car"), 2);
  EXPECT_THAT(tank_names(found(sizing).plan, 0), ElementsAre("tank", "fuel can 1", "fuel can 2"));
  EXPECT_THAT(tank_names(found(sizing).plan, 1), ElementsAre("tank", "fuel can 1", "fuel can 2"));
  // Petrol is lighter than diesel.
  EXPECT_NEAR(line_of(found(sizing), "10 L can of petrol for car").kg, 2 * (2.4 + 10 * 0.745),
              1e-9);
  EXPECT_EQ(line_of(found(sizing), "tank of truck").amount, 30);
}

TEST(Vessels, ContainersGoIntoTheVehicleThatTheOfferNames) {
  PlanText plan;
  plan.people.push_back(PlanText::person("Ben", "4 L/day"));
  plan.containers = {"{name: can 1, holds: 20 L, filled: 20 L, for: drinking, in: car}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: "
      "90 L}]}",
      "{name: car, fuel: petrol, mass: {empty: 1400 kg}, tanks: [{name: tank, holds: 30 L, filled: "
      "30 L}]}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 10}"};
  const auto count = [](const Sizing& sizing, int vehicle) {
    return std::ranges::count(found(sizing).plan.water.containers, vehicle,
                              &plan::Container::vehicle);
  };
  const Sizing in_truck =
      size_of(plan, "size: {containers: {drinking: [{holds: 20 L, in: truck}]}, keep: can 1}");
  EXPECT_EQ(taken(in_truck, "20 L container of drinking water in truck"), 3);
  EXPECT_EQ(count(in_truck, 0), 3);
  EXPECT_EQ(count(in_truck, 1), 1);
  // Where an offer names none, new ones go with the first that the plan has.
  const Sizing with_others = size_of(plan, "size: {containers: {drinking: [20 L]}}");
  EXPECT_EQ(count(with_others, 1), 4);
}

TEST(Vessels, NoChoiceIsBeatenByAnother) {
  PlanText plan = five_hundred_km("5 L",
                                  "{name: tank, holds: 30 L, filled: 20 L}, {name: jerry 1, "
                                  "holds: 20 L, filled: 20 L, empty_mass: 5 kg}");
  const std::vector<Decision> decisions = store_decisions(
      with_sections(plan,
                    "size: {fuel_cans: {truck: [{holds: 20 L, cost: 40, most: 5}, {holds: 10 L, "
                    "cost: 25}, {holds: 5 L, cost: 8, most: 4, space: 6 L}]}}"),
      Least::mass, false);
  ASSERT_EQ(decisions.size(), 1U);
  const std::vector<Choice>& choices = decisions[0].choices;
  EXPECT_GT(choices.size(), 30U);
  for (const Choice& a : choices) {
    for (const Choice& b : choices) {
      if (&a == &b) continue;
      EXPECT_FALSE(a.amount >= b.amount && a.totals.kg <= b.totals.kg &&
                   a.totals.cost <= b.totals.cost && a.totals.space_l <= b.totals.space_l)
          << a.amount << " L for " << a.totals.kg << " kg, " << b.amount << " L for "
          << b.totals.kg;
    }
  }
  EXPECT_TRUE(
      std::ranges::is_sorted(choices, {}, [](const Choice& choice) { return choice.totals.kg; }));
}

TEST(Vessels, EveryChoiceIsInThePlanWhatItSays) {
  PlanText text = five_hundred_km("5 L",
                                  "{name: tank, holds: 30 L, filled: 20 L, unusable: 3 L}, "
                                  "{name: jerry 1, holds: 20 L, filled: 10 L, empty_mass: 5 "
                                  "kg}");
  const plan::Plan plan = with_sections(
      text, "size: {fuel_cans: {truck: [{holds: 20 L, most: 5}, {holds: 10 L, most: 3}]}}");
  const std::vector<Decision> decisions = store_decisions(plan, Least::mass, false);
  for (const Choice& choice : decisions.at(0).choices) {
    plan::Plan after = plan;
    choice.apply(after);
    double usable_l = 0;
    double kg = 0;
    std::set<std::string> names;
    for (const plan::Tank& tank : after.vehicles[0].tanks) {
      usable_l += tank.filled_l - tank.unusable_l;
      kg += tank.filled_l * 0.835 + tank.empty_kg;
      names.insert(tank.name);
    }
    EXPECT_NEAR(usable_l, choice.amount, 1e-9);
    EXPECT_NEAR(kg, choice.load_kg.at(0), 1e-9);
    EXPECT_NEAR(kg, choice.totals.kg, 1e-9);
    EXPECT_EQ(names.size(), after.vehicles[0].tanks.size());
    double lines_kg = 0;
    for (const SizedLine& line : choice.lines) lines_kg += line.kg;
    EXPECT_NEAR(lines_kg, kg, 1e-9);
  }
}

TEST(Vessels, OneFewerIsOneOfThatLineAndNothingElse) {
  PlanText text = five_hundred_km("5 L", "{name: tank, holds: 30 L, filled: 30 L}");
  const plan::Plan plan = with_sections(
      text, "size: {fuel_cans: {truck: [{holds: 20 L, most: 3}, {holds: 10 L, most: 3}]}}");
  const std::vector<Decision> decisions = store_decisions(plan, Least::mass, false);
  for (const Choice& choice : decisions.at(0).choices) {
    for (std::size_t line = 0; line < choice.lines.size(); ++line) {
      const std::optional<Choice> fewer = decisions[0].one_fewer(choice, line);
      EXPECT_EQ(fewer.has_value(), line > 0 && choice.lines[line].amount > 0);
      if (!fewer) continue;
      for (std::size_t other = 0; other < choice.lines.size(); ++other) {
        EXPECT_EQ(fewer->lines[other].amount, choice.lines[other].amount - (other == line ? 1 : 0));
      }
    }
  }
}

}  // namespace
}  // namespace drystage::answers
