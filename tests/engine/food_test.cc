// What is eaten first, and what becomes of food that is no longer cold.
#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

/// A chest that the mains keeps cold for ever.
PlanText cold_for_ever() {
  PlanText plan;
  plan.places = {PlanText::place("Base", "air", "mains: {}, food: {}")};
  plan.batteries = {"{name: bank, kind: agm, capacity: 200 Ah}"};
  plan.charging = {"{name: lead, mains: 20 A}"};
  plan.cold = {
      "{name: chest, volume: 45 L, set_point: 4 °C, rated: {draw: 10 W, ambient: 32 °C, "
      "inside: 4 °C}, frozen_below: {barrier: 0.1 W/K}}"};
  return plan;
}

TEST(Food, IsEatenFirstExpiredFirstAndFrozenAndDryGoodsLast) {
  PlanText plan = cold_for_ever();
  plan.food = {"{item: rice, kept: dry, meals: 9}",
               "{item: lamb, kept: frozen, mass: 3 kg, meals: 9}",
               "{item: cheese, kept: chilled, mass: 1 kg, meals: 6, keeps: {for: 20 days, at: 4 "
               "°C}}",
               "{item: fish, kept: chilled, mass: 1 kg, meals: 6, keeps: {for: 3 days, at: 4 °C}}"};
  const Trip trip = travel(plan);
  EXPECT_NEAR(trip.store(1, "fish").end, 0, 1e-9);
  EXPECT_NEAR(trip.store(1, "cheese").end, 6, 1e-9);
  EXPECT_NEAR(trip.store(3, "cheese").end, 0, 1e-9);
  EXPECT_NEAR(trip.store(3, "lamb").end, 9, 1e-9);
  EXPECT_NEAR(trip.store(3, "rice").end, 9, 1e-9);
}

/// A chest whose battery is flat, in the heat.
PlanText never_cold(const std::string& food) {
  PlanText plan = cold_for_ever();
  plan.people = {
      "{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: male, observed: {drinking: 4 L/day, "
      "meals: 0}}"};
  plan.climate = {PlanText::steady_climate("air", 35)};
  plan.charging = {};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, filled: 40 %, cut_off: 40 %}"};
  plan.food = {food};
  return plan;
}

TEST(Food, ThatIsFrozenInNameOnlyAgesFromTheStart) {
  // Put in at -1 °C with a freezing point of -2 °C, it was never frozen.
  const Trip trip = travel(never_cold(
      "{item: fish, kept: frozen, mass: 4 kg, meals: 12, from: -1 °C, freezes_at: -2 °C}"));
  EXPECT_NEAR(trip.sum(&ReserveDay::lost, "food"), 12, 1e-9);
}

TEST(Food, BoughtFrozenIntoAWarmChestFullOfThawedGoodsAgesToo) {
  PlanText plan = never_cold(
      "{item: stew, kept: frozen, mass: 20 kg, water: 80 %, meals: 60, from: -1 °C, keeps: {for: "
      "900 days, at: 4 °C}, potentially_hazardous: no}");
  plan.cold = {
      "{name: chest, volume: 60 L, set_point: 4 °C, heat_leak: 9 W/K, rated: {draw: 10 W, "
      "ambient: 32 °C, inside: 4 °C}, frozen_below: {barrier: 9 W/K}}"};
  plan.food.emplace_back(
      "{item: fish, kept: frozen, mass: 1 kg, meals: 3, from: -18 °C, keeps: {for: 1 day, at: 4 "
      "°C}}");
  plan.itinerary = {"{at: Base}", "stay: {nights: 4}", "resupply: {food: fill}",
                    "stay: {nights: 4}"};
  const Trip trip = travel(plan);
  // The first fish was lost within the first days; the second cannot last four in 35 °C.
  EXPECT_NEAR(trip.reserve(4, "food").gained, 3, 1e-9);
  EXPECT_NEAR(trip.store(7, "fish").end, 0, 1e-9);
  EXPECT_NEAR(trip.sum(&ReserveDay::lost, "food"), 6, 1e-9);
}

TEST(Food, ThatIsNotHazardousIsNotThrownAwayByTheClock) {
  const Trip trip = travel(never_cold(
      "{item: butter, kept: chilled, mass: 2 kg, meals: 12, keeps: {for: 60 days, at: 4 °C}, "
      "potentially_hazardous: no}"));
  EXPECT_TRUE(trip.told(EventKind::thrown_away).empty());
}

TEST(Food, InAFreezerIsJudgedByTheFrozenGoods) {
  PlanText plan = cold_for_ever();
  plan.cold = {
      "{name: chest, volume: 45 L, set_point: -18 °C, rated: {draw: 30 W, ambient: 32 °C, "
      "inside: -18 °C}}"};
  plan.food = {"{item: lamb, kept: frozen, mass: 6 kg, meals: 24}"};
  const Trip trip = travel(plan);
  EXPECT_TRUE(trip.told(EventKind::thawed).empty());
  EXPECT_LT(trip.outlook("cold:chest").lowest, -17);
  EXPECT_FALSE(trip.outlook("cold:chest").first_breach_day);
}

}  // namespace
}  // namespace drystage
