// Which batteries, panels and cabinets there are to choose from, and what a plan is with them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <vector>

#include "answers/offers/decision.h"
#include "support/size_of.h"

namespace drystage::answers {
namespace {

using support::PlanText;
using support::with_sections;
using ::testing::ElementsAre;

/// A bank, its panel and a chest, in a truck.
PlanText equipped() {
  PlanText plan;
  plan.containers = {"{name: tub, holds: 90 L, filled: 90 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: "
      "90 L}]}"};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, mass: 28 kg}"};
  plan.charging = {"{name: panel, solar: 160 W, mass: 12 kg}"};
  plan.cold = {
      "{name: chest, volume: 60 L, set_point: 4 °C, rated: {draw: 12 W, ambient: 32 °C, inside: 4 "
      "°C}, running: 50 W, heat_leak: 1.2 W/K}"};
  return plan;
}

Decision decision_about(const plan::Plan& plan, const std::string& name) {
  for (Decision& decision : equipment_decisions(plan, Least::mass)) {
    if (decision.choices.front().lines.front().one == name) return std::move(decision);
  }
  throw std::runtime_error("nothing is decided about " + name);
}

const Choice& of_size(const Decision& decision, double size, const std::string& detail = "") {
  const auto found = std::ranges::find_if(decision.choices, [&](const Choice& choice) {
    return choice.amount == size && (detail.empty() || choice.lines.front().detail == detail);
  });
  if (found == decision.choices.end()) throw std::runtime_error("not on offer");
  return *found;
}

plan::Plan with(plan::Plan plan, const Choice& choice) {
  choice.apply(plan);
  return plan;
}

std::vector<double> sizes(const Decision& decision) {
  std::vector<double> out;
  for (const Choice& choice : decision.choices) out.push_back(choice.amount);
  return out;
}

TEST(EquipmentDecisions, ABatteryOfAnotherSizeWeighsAsThePlansOwnForEachAmpereHour) {
  const plan::Plan plan =
      with_sections(equipped(),
                    "size: {batteries: {bank: [50 Ah, 100 Ah, {capacity: 200 Ah, mass: "
                    "61 kg}]}}");
  const Decision decision = decision_about(plan, "bank");
  EXPECT_THAT(sizes(decision), ElementsAre(50, 100, 200));
  EXPECT_DOUBLE_EQ(with(plan, of_size(decision, 50)).power.banks[0].mass_kg, 14);
  EXPECT_DOUBLE_EQ(with(plan, of_size(decision, 50)).power.banks[0].capacity_ah, 50);
  EXPECT_DOUBLE_EQ(with(plan, of_size(decision, 100)).power.banks[0].mass_kg, 28);
  EXPECT_DOUBLE_EQ(with(plan, of_size(decision, 200)).power.banks[0].mass_kg, 61);
  EXPECT_DOUBLE_EQ(of_size(decision, 200).load_kg.at(0), 61);
}

TEST(EquipmentDecisions, ABatteryThatThePlanDoesNotWeighWeighsNothingToKeep) {
  PlanText text = equipped();
  text.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  const plan::Plan plan = with_sections(text, "size: {batteries: {bank: [50 Ah, 100 Ah]}}");
  const Decision decision = decision_about(plan, "bank");
  EXPECT_DOUBLE_EQ(of_size(decision, 50).totals.kg, 15);
  EXPECT_DOUBLE_EQ(of_size(decision, 50).load_kg.at(0), 15);
  // Its own is part of the vehicle's empty mass, and adds nothing to what the engine weighs.
  EXPECT_EQ(of_size(decision, 100).totals.kg, 0);
  EXPECT_EQ(of_size(decision, 100).load_kg.at(0), 0);
  EXPECT_FALSE(of_size(decision, 50).weighed);
  EXPECT_EQ(decision.planned.kg, 0);
}

TEST(EquipmentDecisions, ABatteryOfAnotherKindHasTheLevelsThatAreUsualForIt) {
  const std::string sizes =
      "size: {batteries: {bank: [100 Ah, {capacity: 100 Ah, kind: lfp, mass: 12 kg}]}}";
  const plan::Plan plan = with_sections(equipped(), sizes);
  const plan::Bank lfp =
      with(plan, of_size(decision_about(plan, "bank"), 100, "lfp")).power.banks.at(0);
  EXPECT_EQ(lfp.kind, plan::BatteryKind::lfp);
  EXPECT_DOUBLE_EQ(lfp.floor, 0.2);
  EXPECT_DOUBLE_EQ(lfp.cut_off, 0.1);
  EXPECT_DOUBLE_EQ(lfp.mass_kg, 12);
  // What somebody has set is meant so.
  PlanText text = equipped();
  text.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, floor: 60 %}"};
  const plan::Plan own = with_sections(text, sizes);
  EXPECT_DOUBLE_EQ(
      with(own, of_size(decision_about(own, "bank"), 100, "lfp")).power.banks.at(0).floor, 0.6);
}

TEST(EquipmentDecisions, WhatWasMeasuredOfOneKindIsNotSaidOfAnother) {
  for (const char* measured : {"peukert: 1.15", "efficiency: 90 %"}) {
    PlanText text = equipped();
    text.batteries = {std::string("{name: bank, kind: agm, capacity: 100 Ah, ") + measured + "}"};
    const plan::Plan plan = with_sections(
        text, "size: {batteries: {bank: [75 Ah, {capacity: 100 Ah, kind: lfp, mass: 12 kg}]}}");
    EXPECT_THAT(sizes(decision_about(plan, "bank")), ElementsAre(75)) << measured;
  }
}

TEST(EquipmentDecisions, APanelOfAnotherSizeIsTheSameOtherwise) {
  PlanText text = equipped();
  text.charging = {
      "{name: panel, solar: 160 W, mass: 12 kg, tilt: 20°, facing: north, losses: 10 %}"};
  const plan::Plan plan = with_sections(
      text, "size: {panels: {panel: [0 W, 100 W, 160 W, {solar: 200 W, mass: 15 kg, cost: 220}]}}");
  const Decision decision = decision_about(plan, "panel");
  EXPECT_THAT(sizes(decision), ElementsAre(0, 100, 160, 200));
  const plan::Charger panel = with(plan, of_size(decision, 100)).power.chargers.at(0);
  EXPECT_DOUBLE_EQ(panel.power_w, 100);
  EXPECT_DOUBLE_EQ(panel.mass_kg, 7);  // the usual: 0.07 kg/W
  EXPECT_DOUBLE_EQ(panel.tilt_deg, 20);
  EXPECT_DOUBLE_EQ(panel.loss, 0.1);
  EXPECT_DOUBLE_EQ(of_size(decision, 160).totals.kg, 12);
  EXPECT_DOUBLE_EQ(of_size(decision, 200).totals.cost, 220);
  EXPECT_EQ(of_size(decision, 0).totals.kg, 0);
  const plan::Charger none = with(plan, of_size(decision, 0)).power.chargers.at(0);
  EXPECT_EQ(none.power_w, 0);
  EXPECT_EQ(none.mass_kg, 0);
  EXPECT_FALSE(std::signbit(none.mass_kg));  // which would be written "-0 kg"
}

TEST(EquipmentDecisions, ACabinetOfAnotherSizeDrawsByItsSurface) {
  const plan::Plan plan = with_sections(equipped(), "size: {cabinets: {chest: [30 L, 60 L]}}");
  const Decision decision = decision_about(plan, "chest");
  const plan::Cabinet half = with(plan, of_size(decision, 30)).cold.at(0);
  const double surface = std::cbrt(0.25);  // of two boxes of one shape, one twice the other
  EXPECT_DOUBLE_EQ(half.volume_l, 30);
  EXPECT_NEAR(half.rated_draw_w, 12 * surface, 0.01);
  EXPECT_NEAR(half.running_w.value_or(0), 50 * surface, 0.01);
  EXPECT_NEAR(half.heat_leak_w_k.value_or(0), 1.2 * surface, 0.01);
  EXPECT_DOUBLE_EQ(half.mass_kg, 15);  // the usual: 9 kg and 0.2 kg/L
  const plan::Cabinet own = with(plan, of_size(decision, 60)).cold.at(0);
  EXPECT_DOUBLE_EQ(own.rated_draw_w, 12);
  EXPECT_EQ(own.mass_kg, 0);
}

TEST(EquipmentDecisions, ACabinetWithARatingOfItsOwnIsScaledByThat) {
  const plan::Plan plan = with_sections(
      equipped(),
      "size: {cabinets: {chest: [{volume: 40 L, rated: 9 W, mass: 17 kg, cost: 500}]}}");
  const Choice choice = of_size(decision_about(plan, "chest"), 40);
  const plan::Cabinet chest = with(plan, choice).cold.at(0);
  EXPECT_DOUBLE_EQ(chest.rated_draw_w, 9);
  EXPECT_NEAR(chest.running_w.value_or(0), 50 * 9 / 12.0, 0.01);
  EXPECT_NEAR(chest.heat_leak_w_k.value_or(0), 1.2 * 9 / 12.0, 0.01);
  EXPECT_EQ(choice.totals.cost, 500);
}

TEST(EquipmentDecisions, ACabinetFitsWhatItHoldsAtFourFifthsOfAKilogramALitre) {
  PlanText text = equipped();
  text.food.emplace_back(
      "{item: fresh, kept: chilled, mass: 32 kg, meals: 20, keeps: {for: 60 days, at: 4 °C}}");
  const plan::Plan plan = with_sections(text, "size: {cabinets: {chest: [39 L, 40 L, 60 L]}}");
  const Decision decision = decision_about(plan, "chest");
  EXPECT_FALSE(of_size(decision, 39).fits);
  EXPECT_TRUE(of_size(decision, 40).fits);
  EXPECT_EQ(of_size(decision, 39).cabinet, 0);
}

TEST(EquipmentDecisions, WhatIsKeptHasOneChoiceThatChangesNothing) {
  for (const char* sections : {"size: {panels: {panel: [0 W]}, keep: bank}",
                               "size: {batteries: {bank: [50 Ah]}, keep: [panel, chest]}",
                               "size: {keep: [bank, panel]}"}) {
    const plan::Plan plan = with_sections(equipped(), sections);
    for (const Decision& decision : equipment_decisions(plan, Least::mass)) {
      const SizedLine& line = decision.choices.front().lines.front();
      const bool kept = std::ranges::any_of(
          plan.size.keep, [&](const plan::Item& item) { return item.name == line.one; });
      EXPECT_EQ(line.kept, kept) << sections << ": " << line.one;
      if (!kept) continue;
      EXPECT_EQ(decision.choices.size(), 1U);
      EXPECT_EQ(line.amount, line.plan_amount);
      const plan::Plan after = with(plan, decision.choices.front());
      EXPECT_EQ(after.power.banks[0].mass_kg, plan.power.banks[0].mass_kg);
      EXPECT_EQ(after.power.chargers[0].mass_kg, plan.power.chargers[0].mass_kg);
      EXPECT_EQ(after.cold[0].rated_draw_w, plan.cold[0].rated_draw_w);
    }
  }
}

TEST(EquipmentDecisions, WithoutAnyListWhatIsFittedStays) {
  EXPECT_TRUE(equipment_decisions(equipped().plan(), Least::mass).empty());
}

TEST(EquipmentDecisions, OneSmallerIsTheNextLesserByWhatThereIsToBeLeastOf) {
  const plan::Plan plan = with_sections(
      equipped(),
      "size: {batteries: {bank: [{capacity: 50 Ah, cost: 90}, {capacity: 100 Ah, kind: "
      "lfp, mass: 12 kg, cost: 600}, {capacity: 100 Ah, cost: 200}]}}");
  const auto next_lesser = [&](Least least) {
    const std::vector<Decision> decisions = equipment_decisions(plan, least);
    const Decision& bank = decisions.at(0);
    const std::optional<Choice> next = bank.one_fewer(of_size(bank, 100, "agm"), 0);
    EXPECT_FALSE(bank.one_fewer(bank.choices.front(), 0));
    return next ? next->amount : -1;
  };
  EXPECT_EQ(next_lesser(Least::mass), 50);
  EXPECT_EQ(next_lesser(Least::cost), 50);
  const std::vector<Decision> by_mass = equipment_decisions(plan, Least::mass);
  EXPECT_EQ(by_mass.at(0).choices.front().lines.front().detail, "lfp");
  const std::vector<Decision> by_cost = equipment_decisions(plan, Least::cost);
  EXPECT_EQ(by_cost.at(0).choices.back().lines.front().detail, "lfp");
}

}  // namespace
}  // namespace drystage::answers
