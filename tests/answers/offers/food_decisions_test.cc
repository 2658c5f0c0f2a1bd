// Days of dry food as choices.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>
#include <string>
#include <vector>

#include "answers/offers/decision.h"
#include "engine/reserves/food.h"
#include "support/size_of.h"

namespace drystage::answers {
namespace {

using support::found;
using support::PlanText;
using support::size_of;
using support::taken;
using support::with_sections;

PlanText eater(std::vector<std::string> food, int days = 10) {
  PlanText plan;
  plan.containers = {"{name: tub, holds: 900 L, filled: 900 L, for: drinking}"};
  plan.food = std::move(food);
  plan.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(days) + "}"};
  return plan;
}

const plan::FoodItem* item(const plan::Plan& plan, const std::string& name) {
  const auto at = std::ranges::find(plan.food, name, &plan::FoodItem::name);
  return at == plan.food.end() ? nullptr : &*at;
}

TEST(FoodDecisions, ANewItemIsAddedBehindThePlansOwn) {
  const Sizing sizing = size_of(
      eater({"{item: rice, kept: dry, mass: 3 kg, meals: 12}"}),
      "size: {food: {ration packs: {per_day: 3 meals, mass: 1.2 kg, cost: 30, space: 4 L}}}");
  // 30 meals are eaten and 12 are there.
  EXPECT_EQ(taken(sizing, "day of ration packs (3 meals)"), 6);
  const plan::Plan& plan = found(sizing).plan;
  ASSERT_EQ(plan.food.size(), 2U);
  EXPECT_EQ(plan.food[0].meals, 12);
  const plan::FoodItem* packs = item(plan, "ration packs");
  ASSERT_NE(packs, nullptr);
  EXPECT_EQ(packs->meals, 18);
  EXPECT_DOUBLE_EQ(packs->mass_kg, 7.2);
  EXPECT_EQ(packs->kept, plan::Kept::dry);
  const SizedLine& line = support::line_of(found(sizing), "day of ration packs (3 meals)");
  EXPECT_EQ(line.cost, 180);
  EXPECT_EQ(line.space_l, 24);
  EXPECT_EQ(line.plan_amount, 0);
}

TEST(FoodDecisions, AnItemOfWhichNoneIsNeededIsLeftAtHome) {
  const Sizing sizing = size_of(eater({"{item: rice, kept: dry, mass: 9 kg, meals: 30}",
                                       "{item: beans, kept: dry, mass: 5 kg, meals: 15}"}),
                                "size: {food: {beans: 3 meals}}");
  EXPECT_EQ(item(found(sizing).plan, "beans"), nullptr);
  EXPECT_EQ(support::line_of(found(sizing), "day of beans (3 meals)").plan_amount, 5);
  EXPECT_EQ(support::line_of(found(sizing), "day of beans (3 meals)").amount, 0);
}

TEST(FoodDecisions, OfTwoItemsTheLighterIsTakenUpToItsMost) {
  const Sizing sizing = size_of(eater({"{item: rice, kept: dry, mass: 0.6 kg, meals: 3}"}),
                                "size: {food: {rice: {per_day: 3 meals, mass: 0.6 kg, most: 4 "
                                "days}, tins: {per_day: 3 meals, "
                                "mass: 1.5 kg}}}");
  EXPECT_EQ(taken(sizing, "day of rice (3 meals)"), 4);
  EXPECT_EQ(taken(sizing, "day of tins (3 meals)"), 6);
}

TEST(FoodDecisions, WithoutAnyListTheDryItemOfWhichThereIsMostMayChange) {
  const PlanText text = eater({"{item: rice, kept: dry, mass: 2 kg, meals: 9}",
                               "{item: oats, kept: dry, mass: 1.5 kg, meals: 12}",
                               "{item: oil, kept: dry, mass: 2 kg, energy: 37 MJ/kg}"});
  const std::vector<Decision> decisions = food_decisions(text.plan(), Least::mass);
  ASSERT_EQ(decisions.size(), 1U);
  // Three meals a day for each person, as heavy as those of the plan.
  EXPECT_EQ(decisions[0].choices.at(1).lines.at(0).one, "day of oats (3 meals)");
  EXPECT_NEAR(decisions[0].choices.at(1).totals.kg, 3 * 1.5 / 12, 0.01);
}

TEST(FoodDecisions, WithNoDryFoodInThePlanThereIsSomeToBeHadOfTheUsualMass) {
  PlanText text = eater({"{item: oil, kept: dry, mass: 2 kg, energy: 37 MJ/kg}"});
  text.people.push_back(PlanText::person("Ben", "4 L/day"));
  const std::vector<Decision> decisions = food_decisions(text.plan(), Least::mass);
  ASSERT_EQ(decisions.size(), 1U);
  EXPECT_EQ(decisions[0].choices.at(1).lines.at(0).one, "day of dry food (6 meals)");
  EXPECT_NEAR(decisions[0].choices.at(1).totals.kg, 6 * engine::reserves::bought_kg_per_meal, 0.01);
}

TEST(FoodDecisions, WhatIsKeptIsNotDecided) {
  const PlanText text = eater({"{item: rice, kept: dry, mass: 9 kg, meals: 40}"});
  EXPECT_TRUE(food_decisions(with_sections(text, "size: {keep: rice}"), Least::mass).empty());
  const Sizing sizing = size_of(text, "size: {keep: rice}");
  EXPECT_EQ(found(sizing).plan.food.at(0).meals, 40);
}

TEST(FoodDecisions, EachIsSoManyWholeDaysUpToTheMost) {
  const PlanText text = eater({"{item: rice, kept: dry, mass: 9 kg, meals: 40}"});
  const auto days = [&](const std::string& offer) {
    return food_decisions(with_sections(text, "size: {food: {rice: " + offer + "}}"), Least::mass)
        .at(0)
        .choices;
  };
  EXPECT_EQ(days("{per_day: 4 meals, most: 9 days}").size(), 10U);
  const std::vector<Choice> choices = days("4 meals");
  for (std::size_t d = 0; d < choices.size(); ++d) {
    EXPECT_EQ(choices[d].amount, 4.0 * static_cast<double>(d));
  }
  EXPECT_GT(choices.size(), 50U);
}

}  // namespace
}  // namespace drystage::answers
