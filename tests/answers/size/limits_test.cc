// Limits of mass, space and money, and what is said where nothing on offer is enough.
#include <gtest/gtest.h>

#include <string>

#include "plan/items.h"
#include "support/size_of.h"

namespace drystage::answers::limits_test {
namespace {

using support::found;
using support::PlanText;
using support::size_of;
using support::taken;

constexpr const char* twenties = "20 L container of drinking water";
constexpr const char* tens = "10 L container of drinking water";

/// One person who drinks 4 L a day for ten days on 40 L, in a truck of 2000 kg.
PlanText ten_days() {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "4 L/day")};
  plan.containers = {"{name: can 1, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.2 kg}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 100 L, "
      "filled: 100 L}]}"};
  plan.food = {"{item: stores, kept: dry, mass: 10 kg, meals: 30}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 10}"};
  return plan;
}

/// All of it when setting out: truck, Ada, diesel, food, and two containers of 21.2 kg.
constexpr double sized_kg = 2000 + 70 + 83.5 + 10 + 2 * 21.2;

std::string drinking(const std::string& limits, const std::string& offers = "20 L") {
  return "size: {containers: {drinking: [" + offers + "]}, limits: {" + limits + "}}";
}

TEST(SizeLimits, OfMassBindToTheKilogram) {
  EXPECT_EQ(taken(size_of(ten_days(), drinking("mass: 2205.95 kg")), twenties), 2);
  EXPECT_NEAR(
      found(size_of(ten_days(), drinking("mass: 2205.95 kg"))).planned.record.heaviest[0].kg,
      sized_kg, 1e-6);
  const Sizing over = size_of(ten_days(), drinking("mass: 2205.85 kg"));
  ASSERT_FALSE(over.found);
  ASSERT_TRUE(over.miss);
  ASSERT_EQ(over.miss->failing.size(), 1U);
  EXPECT_EQ(over.miss->failing[0].reason, Failing::Reason::overload);
  EXPECT_EQ(over.miss->failing[0].subject, 0);
  EXPECT_NEAR(over.miss->failing[0].over, 0.05, 1e-6);
}

TEST(SizeLimits, OfSpaceThatNothingFitsIntoAreFoundOutAtOnce) {
  // Three sizes of can, tank and food by the day: millions of sets, all of them too large.
  const Sizing none = size_of(
      ten_days(),
      "size: {containers: {drinking: [20 L, 10 L, 5 L], utility: [20 L, 10 L]}, fuel_cans: {truck: "
      "[20 L, 10 L]}, food: {stores: {per_day: 3 meals}}, limits: {space: 50 L}}");
  ASSERT_TRUE(none.miss);
  EXPECT_FALSE(none.given_up);
  EXPECT_LT(none.runs, 300U);
  EXPECT_EQ(none.miss->failing[0].reason, Failing::Reason::space);
}

TEST(SizeLimits, OfAVehicleItselfHoldBesides) {
  PlanText plan = ten_days();
  plan.vehicles.front().replace(plan.vehicles.front().find("{empty: 2000 kg}"), 16,
                                "{empty: 2000 kg, limit: 2200 kg}");
  const Sizing over = size_of(plan, drinking("mass: 2300 kg"));
  ASSERT_TRUE(over.miss);
  EXPECT_EQ(over.miss->failing[0].reason, Failing::Reason::overload);
  EXPECT_NEAR(over.miss->failing[0].over, sized_kg - 2200, 1e-6);
}

TEST(SizeLimits, OfSpaceBind) {
  EXPECT_EQ(taken(size_of(ten_days(), drinking("space: 56 L")), twenties), 2);
  const Sizing over = size_of(ten_days(), drinking("space: 50 L"));
  ASSERT_TRUE(over.miss);
  EXPECT_EQ(over.miss->failing[0].reason, Failing::Reason::space);
  EXPECT_NEAR(over.miss->failing[0].over, 6, 1e-5);
  EXPECT_TRUE(over.space_limited);
  // What takes up less is chosen where the lighter does not fit.
  const std::string offers = "20 L, {holds: 10 L, space: 11 L, empty_mass: 1 kg}";
  EXPECT_EQ(taken(size_of(ten_days(), drinking("space: 50 L", offers)), tens), 2);
  EXPECT_EQ(taken(size_of(ten_days(), drinking("space: 44 L", offers)), tens), 4);
}

TEST(SizeLimits, OfMoneyBind) {
  const std::string offers =
      "{holds: 20 L, cost: 30, empty_mass: 0.8 kg}, {holds: 10 L, cost: 10, empty_mass: 0.7 kg}";
  EXPECT_EQ(taken(size_of(ten_days(), drinking("budget: 60", offers)), twenties), 2);
  EXPECT_EQ(taken(size_of(ten_days(), drinking("budget: 59", offers)), twenties), 1);
  EXPECT_EQ(taken(size_of(ten_days(), drinking("budget: 40", offers)), tens), 4);
  const Sizing over = size_of(ten_days(), drinking("budget: 35", offers));
  ASSERT_TRUE(over.miss);
  EXPECT_EQ(over.miss->failing[0].reason, Failing::Reason::budget);
}

TEST(SizeLimits, OfSeveralThatArePassedAllAreNamed) {
  const Sizing over = size_of(
      ten_days(), drinking("mass: 2200 kg, space: 50 L, budget: 10", "{holds: 20 L, cost: 30}"));
  ASSERT_TRUE(over.miss);
  ASSERT_EQ(over.miss->failing.size(), 3U);
  EXPECT_EQ(over.miss->failing[0].reason, Failing::Reason::overload);
  EXPECT_EQ(over.miss->failing[1].reason, Failing::Reason::space);
  EXPECT_EQ(over.miss->failing[2].reason, Failing::Reason::budget);
  EXPECT_NEAR(over.miss->failing[2].over, 50, 1e-5);
}

TEST(SizeLimits, WhereTooLittleIsOnOfferTheMissSaysOfWhatAndHowMuch) {
  const Sizing sizing =
      size_of(ten_days(), "size: {containers: {drinking: [{holds: 10 L, most: 1}]}, keep: can 1}");
  ASSERT_FALSE(sizing.found);
  ASSERT_TRUE(sizing.miss);
  const Failing& failing = sizing.miss->failing.at(0);
  EXPECT_EQ(failing.reason, Failing::Reason::margin);
  ASSERT_TRUE(failing.breach);
  // 30 L of 40: dry after seven and a half days.
  EXPECT_EQ(failing.breach->day, 7);
  EXPECT_NEAR(sizing.miss->lacks, 10, 1e-6);
  EXPECT_EQ(support::line_of(sizing.miss->set, tens).amount, 1);
  for (const SizedLine& line : sizing.miss->set.lines) EXPECT_FALSE(line.one_fewer);
}

TEST(SizeLimits, ACabinetTooSmallForWhatGoesIntoItIsNotTaken) {
  PlanText plan = ten_days();
  plan.containers = {"{name: tub, holds: 90 L, filled: 90 L, for: drinking}"};
  plan.batteries = {"{name: bank, kind: agm, capacity: 900 Ah}"};
  plan.cold = {
      "{name: chest, volume: 60 L, mass: 21 kg, set_point: 4 °C, rated: {draw: 12 W, ambient: 32 "
      "°C, inside: 4 "
      "°C}}"};
  plan.food.emplace_back(
      "{item: fresh, kept: chilled, mass: 32 kg, meals: 20, keeps: {for: 60 days, at: 4 °C}}");
  EXPECT_EQ(taken(size_of(plan, "size: {cabinets: {chest: [30 L, 39 L, 40 L, 60 L]}}"), "chest"),
            40);
  const Sizing sizing = size_of(plan, "size: {cabinets: {chest: [30 L, 39 L]}}");
  ASSERT_TRUE(sizing.miss);
  EXPECT_EQ(sizing.miss->failing.at(0).reason, Failing::Reason::packing);
  EXPECT_EQ(sizing.miss->failing.at(0).subject, 0);
}

TEST(SizeLimits, AMishapThatNothingOnOfferSurvivesIsNamed) {
  const Sizing sizing =
      size_of(ten_days(), "size: {containers: {drinking: [{holds: 40 L, most: 1}]}, keep: can 1}",
              {.survive = std::vector{plan::MishapKind::one_more}});
  // 60 L are enough for one who drinks 40 L, and not for two.
  ASSERT_FALSE(sizing.found);
  ASSERT_TRUE(sizing.miss);
  const Failing& failing = sizing.miss->failing.at(0);
  EXPECT_EQ(failing.reason, Failing::Reason::mishap);
  EXPECT_EQ(failing.finding.outcome, Outcome::runs_out_vital);
  EXPECT_FALSE(failing.mishap.empty());
}

TEST(SizeLimits, AreToldOfTheOneThatKeepsAFewerFromBeingEnough) {
  const Sizing sizing = size_of(ten_days(), drinking("mass: 3000 kg"));
  const SizedLine& line = support::line_of(found(sizing), twenties);
  EXPECT_EQ(line.fewer, "1");
  ASSERT_TRUE(line.one_fewer);
  EXPECT_EQ(line.one_fewer->reason, Failing::Reason::margin);
  EXPECT_EQ(line.one_fewer->breach->day, 5);
}

/// With so many things in all, most of them bottles that nothing changes.
PlanText laden(std::size_t things) {
  PlanText plan = ten_days();
  // The can, the tank and the food are three.
  for (std::size_t i = 3; i < things; ++i) {
    plan.containers.push_back("{name: bottle " + std::to_string(i) +
                              ", holds: 1 L, filled: 1 L, for: utility}");
  }
  return plan;
}

TEST(SizeLimits, NoSetHasMoreThingsThanAPlanMayHave) {
  const auto of = [&](std::size_t things) {
    plan::Plan plan =
        support::with_sections(laden(things), "size: {containers: {drinking: [20 L]}}");
    for (const plan::Item& item : plan::items_of(plan)) {
      if (item.full_name.find("bottle") != std::string::npos) plan.size.keep.push_back(item);
    }
    return size_of(plan);
  };
  EXPECT_EQ(taken(of(299), twenties), 2);
  const Sizing over = of(300);
  EXPECT_FALSE(over.found);
  ASSERT_TRUE(over.miss);
  const auto& failing = over.miss->failing;
  EXPECT_TRUE(failing.front().reason == Failing::Reason::things ||
              failing.front().reason == Failing::Reason::margin);
}

}  // namespace
}  // namespace drystage::answers::limits_test
