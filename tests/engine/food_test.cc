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

/// A dish that lies in no cabinet, in air that is always so warm; nobody eats of it.
Trip lying_about(double air_c, const std::string& more, double most_step_h = 1) {
  PlanText plan;
  plan.people = {
      "{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: male, observed: {drinking: 4 L/day, "
      "meals: 0}}"};
  plan.climate = {PlanText::steady_climate("air", air_c)};
  plan.food = {"{item: cooked rice, kept: dry, meals: 6, mass: 2 kg" + more + "}"};
  return travel(plan, most_step_h);
}

TEST(TheFoodClock, RunsForDryFoodThatIsHazardousWhereverItLies) {
  // FSANZ 2-hour/4-hour guide.
  const Trip trip = lying_about(25, ", potentially_hazardous: yes");
  const auto soon = trip.told(EventKind::use_now);
  const auto lost = trip.told(EventKind::thrown_away);
  ASSERT_EQ(soon.size(), 1U);
  ASSERT_EQ(lost.size(), 1U);
  EXPECT_NEAR(support::trip_hour(soon.front()), 2, 1e-9);
  EXPECT_NEAR(support::trip_hour(lost.front()), 4, 1e-9);
  EXPECT_NEAR(lost.front().amount, 6, 1e-9);
}

TEST(TheFoodClock, StrikesWithinAStepToo) {
  // Steps of 18 minutes: the fourth hour ends within the fourteenth.
  const Trip trip = lying_about(25, ", potentially_hazardous: yes", 0.3);
  ASSERT_EQ(trip.told(EventKind::thrown_away).size(), 1U);
  EXPECT_NEAR(support::trip_hour(trip.told(EventKind::thrown_away).front()), 4, 1e-9);
  EXPECT_NEAR(support::trip_hour(trip.told(EventKind::use_now).front()), 2, 1e-9);
}

TEST(TheFoodClock, RunsTwiceAsFastInGreatHeat) {
  // Of two hours out of the cold one is left above 90 °F (32 °C): US Department of Agriculture.
  const Trip trip = lying_about(36, ", potentially_hazardous: yes");
  ASSERT_EQ(trip.told(EventKind::thrown_away).size(), 1U);
  EXPECT_NEAR(support::trip_hour(trip.told(EventKind::use_now).front()), 1, 1e-9);
  EXPECT_NEAR(support::trip_hour(trip.told(EventKind::thrown_away).front()), 2, 1e-9);
}

TEST(TheFoodClock, StandsStillInTheColdAndForWhatIsNotHazardous) {
  EXPECT_TRUE(lying_about(4, ", potentially_hazardous: yes").told(EventKind::use_now).empty());
  EXPECT_TRUE(lying_about(36, "").told(EventKind::use_now).empty());
  EXPECT_TRUE(lying_about(36, ", potentially_hazardous: no").told(EventKind::use_now).empty());
}

TEST(TheFoodClock, RunsForAKindOfFoodThatIsHazardous) {
  EXPECT_EQ(lying_about(25, ", kind: cooked").told(EventKind::thrown_away).size(), 1U);
  EXPECT_TRUE(lying_about(25, ", kind: hard cheese").told(EventKind::thrown_away).empty());
}

TEST(TheFoodClock, RunsTwiceAsFastInAHotChestToo) {
  // The chest is off and holds little, so that it is soon as hot as the air.
  PlanText plan = never_cold(
      "{item: milk, kept: chilled, mass: 0.2 kg, meals: 3, keeps: {for: 90 days, at: 4 °C}}");
  plan.climate = {PlanText::steady_climate("air", 44)};
  plan.cold = {
      "{name: chest, volume: 10 L, set_point: 4 °C, starts_at: 44 °C, heat_leak: 1 W/K, rated: "
      "{draw: 10 W, ambient: 32 °C, inside: 4 °C}}"};
  const auto lost = travel(plan).told(EventKind::thrown_away);
  ASSERT_EQ(lost.size(), 1U);
  EXPECT_NEAR(support::trip_hour(lost.front()), 2, 1e-9);
}

TEST(Food, ThatMustGoNowIsEatenBeforeWhatKeepsLess) {
  // In a chest that is off both are warm. The milk keeps for long, but after two hours on the clock
  // it goes before the cabbage.
  PlanText plan = never_cold(
      "{item: milk, kept: chilled, mass: 1 kg, meals: 3, keeps: {for: 900 "
      "days, at: 4 °C}}");
  plan.people = {PlanText::person("Ada", "4 L/day")};
  plan.climate = {PlanText::steady_climate("air", 25)};
  plan.cold = {
      "{name: chest, volume: 10 L, set_point: 4 °C, starts_at: 20 °C, rated: {draw: 10 W, ambient: "
      "32 °C, inside: 4 °C}}"};
  plan.food.emplace_back(
      "{item: cabbage, kept: chilled, mass: 1 kg, meals: 3, keeps: {for: 300 days, at: 4 °C}, "
      "potentially_hazardous: no}");
  const Trip trip = travel(plan);
  const auto lost = trip.told(EventKind::thrown_away);
  ASSERT_EQ(lost.size(), 1U);
  EXPECT_NEAR(support::trip_hour(lost.front()), 4, 1e-9);
  // An eighth of a meal an hour: from the cabbage for two hours, from the milk for two.
  EXPECT_NEAR(lost.front().amount, 3 - 2.0 / 8, 1e-9);
}

TEST(Food, ThatIsBoughtByTheMealIsDryAndWeighsSixHundredGrams) {
  PlanText plan;
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  plan.climate = {PlanText::steady_climate("air", 38)};
  plan.places = {PlanText::place("Base", "air", "food: {}")};
  plan.food.clear();
  plan.itinerary = {"{at: Base}", "resupply: {food: 20 meals}", "stay: {nights: 2}"};
  const Trip trip = travel(plan);
  // Great heat does nothing to it.
  EXPECT_NEAR(trip.sum(&ReserveDay::lost, "food"), 0, 1e-12);
  EXPECT_NEAR(trip.record.heaviest[0].kg - travel([&] {
                                             plan.itinerary = {"{at: Base}", "stay: {nights: 2}"};
                                             return plan;
                                           }())
                                               .record.heaviest[0]
                                               .kg,
              20 * 0.6, 1e-9);
}

/// Fish that keeps four days, eaten very slowly; on the third morning as much is bought as was
/// eaten.
Trip bought_on_the_third_day(const std::string& meals_a_day) {
  PlanText plan = cold_for_ever();
  plan.people = {
      "{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: male, observed: {drinking: 4 L/day, "
      "meals: " +
      meals_a_day + "}}"};
  plan.food = {
      "{item: fish, kept: chilled, mass: 2 kg, meals: 6, from: 4 °C, keeps: {for: 4 days, at: 4 "
      "°C}}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}", "resupply: {food: fill}",
                    "stay: {nights: 5}"};
  return travel(plan);
}

TEST(Food, BoughtOnARemainderTakesTheAgeOfTheOld) {
  const Trip trip = bought_on_the_third_day("1");
  ASSERT_GT(trip.reserve(2, "food").gained, 1);
  const auto spoiled = trip.told(EventKind::spoiled);
  ASSERT_EQ(spoiled.size(), 1U);
  EXPECT_NEAR(support::trip_hour(spoiled.front()), 4 * 24, 1e-6);
}

TEST(Food, BoughtWhereNothingIsLeftIsFresh) {
  const Trip trip = bought_on_the_third_day("3");
  const auto spoiled = trip.told(EventKind::spoiled);
  EXPECT_TRUE(spoiled.empty());
  EXPECT_NEAR(trip.reserve(2, "food").gained, 6, 1e-9);
  EXPECT_NEAR(trip.sum(&ReserveDay::lost, "food"), 0, 1e-9);
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
