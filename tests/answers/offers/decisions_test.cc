// What there is to decide about a plan, and the order of choices.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "answers/offers/decision.h"
#include "support/size_of.h"

namespace drystage::answers {
namespace {

using support::PlanText;
using support::with_sections;
using ::testing::ElementsAre;

PlanText two_vehicles() {
  PlanText plan;
  plan.people.push_back(PlanText::person("Ben", "4 L/day"));
  plan.containers = {"{name: can 1, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1 kg}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: "
      "90 L}, {name: can 1, holds: 20 L, filled: 20 L, empty_mass: 4 kg}]}",
      "{name: car, fuel: petrol, mass: {empty: 1400 kg}, tanks: [{name: tank, holds: 60 L, filled: "
      "60 L}]}"};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  return plan;
}

std::string name_of(engine::ReserveId reserve, const plan::Plan& plan) {
  const std::string family(engine::family_name(reserve.family));
  return reserve.of < 0
             ? family
             : family + ":" + plan.vehicles.at(static_cast<std::size_t>(reserve.of)).name;
}

/// What each decision is about: its reserve, or the name of the thing.
std::vector<std::string> subjects(const plan::Plan& plan) {
  std::vector<std::string> out;
  for (const Decision& decision : decisions_of(plan, Least::mass)) {
    out.push_back(decision.sort == Decision::Sort::store
                      ? name_of(decision.reserve, plan)
                      : decision.choices.front().lines.front().one);
  }
  return out;
}

TEST(Decisions, WithoutAnyListAreAboutTheUsualThings) {
  EXPECT_THAT(subjects(two_vehicles().plan()),
              ElementsAre("fuel:truck", "fuel:car", "drinking_water", "food"));
  PlanText without_food = two_vehicles();
  without_food.food.clear();
  EXPECT_THAT(subjects(without_food.plan()),
              ElementsAre("fuel:truck", "fuel:car", "drinking_water"));
}

TEST(Decisions, AreAboutUtilityWaterOnlyWhereThePlanUsesAny) {
  PlanText plan = two_vehicles();
  plan.utility_use = {"washing: 1 L/day"};
  EXPECT_THAT(subjects(plan.plan()),
              ElementsAre("fuel:truck", "fuel:car", "drinking_water", "utility_water", "food"));
  plan.utility_use.clear();
  plan.containers.emplace_back("{name: tub, holds: 60 L, filled: 60 L, for: utility}");
  EXPECT_THAT(subjects(plan.plan()), ::testing::Contains("utility_water"));
}

TEST(Decisions, WithAListAreAboutThatAlone) {
  EXPECT_THAT(subjects(with_sections(two_vehicles(), "size: {fuel_cans: {car: [10 L]}}")),
              ElementsAre("fuel:car"));
  EXPECT_THAT(subjects(with_sections(
                  two_vehicles(),
                  "size: {food: {rice: 6 meals, oats: 6 meals}, batteries: {bank: [50 Ah]}}")),
              ElementsAre("food", "food", "bank"));
  // Limits and what is kept are no lists.
  EXPECT_EQ(subjects(with_sections(two_vehicles(), "size: {limits: {space: 900 L}}")).size(), 4U);
}

TEST(Decisions, LeaveWhatIsKeptByItsNameAndSort) {
  const plan::Plan plan = with_sections(
      two_vehicles(),
      "size: {keep: [truck/can 1, bank]}\nmishaps: {own: [{name: fall, loses: water/can 1}]}");
  using Sort = plan::Item::Sort;
  EXPECT_TRUE(is_kept(plan, Sort::tank, 1, 0));
  EXPECT_FALSE(is_kept(plan, Sort::tank, 0, 0));
  EXPECT_FALSE(is_kept(plan, Sort::tank, 1, 1));
  EXPECT_TRUE(is_kept(plan, Sort::battery, 0));
  EXPECT_FALSE(is_kept(plan, Sort::panel, 0));
  EXPECT_TRUE(is_kept(plan, Sort::container, 0));  // a mishap of the plan's own loses it
}

Choice choice(double kg, double cost, double space_l) {
  return {.taken = {}, .load_kg = {}, .totals = {.kg = kg, .cost = cost, .space_l = space_l}};
}

TEST(Decisions, AreSortedByMassThenCostThenSpaceOrByCostFirst) {
  std::vector<Choice> choices{choice(3, 1, 1), choice(1, 5, 1), choice(1, 4, 2), choice(1, 4, 1)};
  const auto order = [&](Least least) {
    sort_choices(choices, least);
    std::vector<double> out;
    for (const Choice& each : choices) {
      out.push_back(100 * each.totals.kg + 10 * each.totals.cost + each.totals.space_l);
    }
    return out;
  };
  EXPECT_THAT(order(Least::mass), ElementsAre(141, 142, 151, 311));
  EXPECT_THAT(order(Least::cost), ElementsAre(311, 141, 142, 151));
}

TEST(Decisions, AreComparedInWholeMillionths) {
  const Totals a{.kg = 0.1 + 0.2, .cost = 2};
  const Totals b{.kg = 0.3, .cost = 2};
  EXPECT_EQ(objective(a, Least::mass), objective(b, Least::mass));
  EXPECT_LT(objective(b, Least::mass), objective({.kg = 0.31, .cost = 0}, Least::mass));
  EXPECT_LT(objective({.kg = 0.31, .cost = 1}, Least::cost), objective(b, Least::cost));
  EXPECT_EQ(objective(a, Least::mass) + objective(b, Least::mass),
            objective({.kg = 0.6, .cost = 4}, Least::mass));
}

}  // namespace
}  // namespace drystage::answers
