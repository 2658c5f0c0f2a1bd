// What using a cabinet costs: drinks that go in warm, air that is exchanged, goods that are bought.
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <cmath>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

constexpr double air_c = 30;

/// A chest at 2 °C in air of 30 °C for five days, with more charge than it takes.
PlanText chest_with(const std::string& lid) {
  PlanText plan;
  plan.climate = {PlanText::steady_climate("air", air_c)};
  plan.batteries = {
      "{name: bank, kind: lfp, capacity: 500 Ah, peukert: 1, floor: 0 %, cut_off: 0 %}"};
  plan.cold = {
      "{name: chest, volume: 45 L, set_point: 2 °C, rated: {draw: 0.9 A, ambient: 32 °C, "
      "inside: 4 °C}" +
      lid + "}"};
  return plan;
}

double ah_a_day(const PlanText& plan) {
  const Trip trip = travel(plan);
  return trip.sum(&ReserveDay::used, "battery:bank") / static_cast<double>(trip.days());
}

constexpr const char* unused = ", lid: {openings: 0, warm: 0 L/day}";

/// Ah of a 12 V battery that it takes to move a heat of so many kJ, by the coefficient of the
/// compressor: 35 % of Carnot's between 10 K below the inside and 15 K above the air.
double ah_for(double heat_kj) {
  const double cop = 0.35 * (2 - 10 + 273.15) / ((air_c + 15) - (2 - 10));
  return heat_kj / 3.6 / cop / 12;
}

TEST(WarmDrinks, CostWhatTheirHeatOverTheCoefficientGives) {
  // 4 L from 30 to 2 °C: 4 x 4.19 x 28 = 469 kJ, some 6 Ah.
  const double drinks = ah_a_day(chest_with(", lid: {openings: 0, warm: 4 L/day}"));
  const double more = drinks - ah_a_day(chest_with(unused));
  EXPECT_NEAR(more, ah_for(4 * 4.19 * 28), 1e-6);
  EXPECT_NEAR(more, 6.2, 0.1);
}

TEST(WarmDrinks, OfTwoPeopleAreFourLitresADayUnlessThePlanSays) {
  PlanText plan = chest_with(", lid: {openings: 0}");
  plan.people = {PlanText::person("Ada", "4 L/day"), PlanText::person("Ben", "4 L/day")};
  PlanText said = chest_with(", lid: {openings: 0, warm: 4 L/day}");
  said.people = plan.people;
  EXPECT_NEAR(ah_a_day(plan), ah_a_day(said), 1e-9);
}

TEST(WarmDrinks, AreNoMoreThanATenthOfWhatTheCabinetHolds) {
  PlanText plan = chest_with(", lid: {openings: 0}");
  plan.people.clear();
  for (const char* name : {"A", "B", "C", "D", "E"}) {
    plan.people.push_back(PlanText::person(name, "4 L/day"));
  }
  PlanText said = chest_with(", lid: {openings: 0, warm: 4.5 L/day}");
  said.people = plan.people;
  EXPECT_NEAR(ah_a_day(plan), ah_a_day(said), 1e-9);
}

TEST(WarmDrinks, AreSharedByCabinetsAndNoneGoIntoAFreezer) {
  constexpr const char* second =
      "{{name: second, volume: 15 L, set_point: {} °C, rated: {{draw: 0.5 A, ambient: 32 °C, "
      "inside: 4 °C}}, lid: {{openings: 0{}}}}}";
  PlanText plan = chest_with(", lid: {openings: 0}");
  plan.people = {PlanText::person("Ada", "4 L/day"), PlanText::person("Ben", "4 L/day")};
  PlanText said = chest_with(", lid: {openings: 0, warm: 3 L/day}");
  said.people = plan.people;
  plan.cold.push_back(fmt::format(second, 4, ""));
  said.cold.push_back(fmt::format(second, 4, ", warm: 1 L/day"));
  EXPECT_NEAR(ah_a_day(plan), ah_a_day(said), 1e-9);
  plan.cold[1] = fmt::format(second, -18, "");
  said = chest_with(", lid: {openings: 0, warm: 4 L/day}");
  said.people = plan.people;
  said.cold.push_back(fmt::format(second, -18, ", warm: 0 L/day"));
  EXPECT_NEAR(ah_a_day(plan), ah_a_day(said), 1e-9);
}

TEST(OpeningTheLid, CostsLittleInDryAirAndMoreInMoistAir) {
  const auto more = [](const std::string& humidity) {
    PlanText opened = chest_with(", lid: {openings: 20, warm: 0 L/day}");
    opened.climate = {PlanText::climate_of("air", air_c, air_c, humidity, "0 kWh/m2/day")};
    return ah_a_day(opened) - ah_a_day(chest_with(unused));
  };
  // 45 L of air at 1.164 kg/m3, 1.006 kJ/(kg K), 28 K, twenty times: 29.5 kJ.
  EXPECT_NEAR(more("0 %"), ah_for(20 * 0.045 * 1.164 * 1.006 * 28), 0.01);
  EXPECT_GT(more("80 %"), 2 * more("0 %"));
}

TEST(WarmDrinks, MeltTheIceOfAnIceBox) {
  PlanText plan;
  plan.climate = {PlanText::steady_climate("air", air_c)};
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}"};
  const auto melted_kg = [&](const std::string& warm) {
    plan.cold = {
        "{name: box, volume: 60 L, ice: 30 kg, heat_leak: 0.6 W/K, starts_at: 4 °C, lid: "
        "{openings: 0, warm: " +
        warm + "}}"};
    return travel(plan).store(1, "ice in box").lost;
  };
  // Steady by turns: the chilled part lies where heat in, through wall and lid, is heat out, at
  // 4 W/K into the ice.
  const auto kg = [](double in_w_k, double hours) {
    const double chilled_c = in_w_k * air_c / (in_w_k + 4);
    return 4 * chilled_c * hours * 3.6 / 335;
  };
  EXPECT_NEAR(melted_kg("0 L/day"), kg(0.6, 24), 0.02 * kg(0.6, 24));
  const double lid_w_k = 3 * 4.19e3 / (14 * 3600);  // 3 L in the fourteen hours of the lid
  const double by_hand = kg(0.6 + lid_w_k, 14) + kg(0.6, 10);
  EXPECT_NEAR(melted_kg("3 L/day"), by_hand, 0.03 * by_hand);
}

/// A chest that is never opened and lets next to nothing in: on the second day 10 kg of milk are
/// bought, at 8 °C or as warm as the air.
Trip milk_run(const std::string& from) {
  PlanText plan = chest_with(unused + std::string(", heat_leak: 0.001 W/K"));
  plan.places = {PlanText::place("Base", "air", "food: {}")};
  plan.people = {PlanText::person("Ada", "0 L/day")};
  plan.food = {
      "{item: milk, kept: chilled, mass: 10 kg, water: 90 %, meals: 12, keeps: {for: 90 "
      "days, at: 4 °C}, potentially_hazardous: no" +
      from + "}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {food: fill}",
                    "stay: {nights: 2}"};
  return travel(plan);
}

TEST(BoughtGoods, GoInAsWarmAsTheAirAndWarmWhatIsThere) {
  // By eight on the second day 4 of the 12 meals are eaten: 6.67 kg are left at 2 °C.
  constexpr double milk_kj_k = 4.19 * 0.9 + 0.84 * 0.1;
  constexpr double liner_kj_k = 4.5;
  const Trip trip = milk_run("");
  const double gone = trip.reserve(1, "food").gained / 12 * 10;  // kg bought
  EXPECT_NEAR(gone, 10.0 * 4 / 12, 1e-9);
  const double rest_kj_k = (10 - gone) * milk_kj_k + liner_kj_k;
  const double mixed_c =
      (rest_kj_k * 2 + gone * milk_kj_k * air_c) / (rest_kj_k + gone * milk_kj_k);
  EXPECT_NEAR(trip.reserve(1, "cold:chest").lowest, mixed_c, 1e-9);
  EXPECT_TRUE(trip.outlook("cold:chest").first_breach_day.has_value());
}

TEST(BoughtGoods, GoInAsColdAsThePlanSays) {
  const Trip cold = milk_run(", from: 2 °C");
  EXPECT_NEAR(cold.reserve(1, "cold:chest").lowest, 2, 1e-9);
  EXPECT_FALSE(cold.outlook("cold:chest").first_breach_day.has_value());
  const Trip warm = milk_run("");
  // What is warmer is more heat to move: 28 K of what was bought, but for the kilojoule that is
  // eaten before it is cold.
  const double bought_kj_k = warm.reserve(1, "food").gained / 12 * 10 * (4.19 * 0.9 + 0.84 * 0.1);
  EXPECT_NEAR(
      warm.sum(&ReserveDay::used, "battery:bank") - cold.sum(&ReserveDay::used, "battery:bank"),
      ah_for(bought_kj_k * 28), 0.05);
}

TEST(FrozenPart, IsShownAtItsWarmest) {
  PlanText plan = chest_with(", frozen_below: {barrier: 0.35 W/K}");
  plan.food = {"{item: lamb, kept: frozen, mass: 6 kg, meals: 24, from: -18 °C, kind: raw meat}"};
  const Trip trip = travel(plan);
  // It warms by T = Tc + (T0 - Tc) exp(-B t / C) towards the 2 °C above the barrier, and then
  // melts.
  EXPECT_NEAR(trip.reserve(0, "cold:chest").frozen_c, -1, 1e-9);
  EXPECT_NEAR(trip.reserve(1, "cold:chest").frozen_c, -1, 1e-9);
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}"};
  plan.food = {
      "{item: lamb, kept: frozen, mass: 20 kg, meals: 2400, from: -18 °C, kind: raw meat}"};
  const double day_c = 2 - 20 * std::exp(-24 * 0.35 * 3.6 / (20 * (2.1 * 0.7 + 0.84 * 0.3)));
  EXPECT_NEAR(travel(plan).reserve(0, "cold:chest").frozen_c, day_c, 0.1);
  EXPECT_TRUE(std::isnan(travel(chest_with("")).reserve(0, "cold:chest").frozen_c));
}

}  // namespace
}  // namespace drystage
