// What a division gives, `size` must give: plans in which everything is used at a steady rate.
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <utility>

#include "models/road_load.h"
#include "support/size_of.h"

namespace drystage::answers {
namespace {

using support::found;
using support::PlanText;
using support::size_of;
using support::taken;

constexpr const char* twenties = "20 L container of drinking water";
constexpr const char* tens = "10 L container of drinking water";
constexpr const char* twenties_of_utility = "20 L container of utility water";
constexpr const char* cans = "20 L can of diesel";

/// So many whole cans for so many litres; what is a whole number but for rounding counts as one.
int whole(double litres, double can_l) {
  return static_cast<int>(std::ceil(litres / can_l - 1e-9));
}

std::string nights(int count) { return "stay: {nights: " + std::to_string(count) + "}"; }

/// One person who drinks 4 L a day at one place, with one can of 20 L.
PlanText four_litres_a_day(int days, const std::string& margin = "") {
  PlanText plan;
  if (!margin.empty()) plan.margins = {"drinking_water: " + margin};
  plan.containers = {"{name: can 1, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.2 kg}"};
  plan.itinerary = {"{at: Base}", nights(days)};
  return plan;
}

constexpr const char* drinking_in_twenties = "size: {containers: {drinking: [20 L]}}";

TEST(SizeClosedForm, DrinkingWaterIsUseRoundedUpToWholeContainers) {
  for (int days = 1; days <= 30; ++days) {
    const Sizing sizing = size_of(four_litres_a_day(days), drinking_in_twenties);
    EXPECT_EQ(taken(sizing, twenties), whole(4.0 * days, 20)) << days;
  }
}

TEST(SizeClosedForm, AMarginInLitresIsAddedToTheUse) {
  for (const int margin : {1, 7, 12, 20, 33}) {
    const Sizing sizing =
        size_of(four_litres_a_day(12, std::to_string(margin) + " L"), drinking_in_twenties);
    EXPECT_EQ(taken(sizing, twenties), whole(48.0 + margin, 20)) << margin;
  }
}

TEST(SizeClosedForm, AMarginInDaysIsSoManyDaysMoreOfUse) {
  for (int margin = 0; margin <= 12; ++margin) {
    const Sizing sizing =
        size_of(four_litres_a_day(12, std::to_string(margin) + " days"), drinking_in_twenties);
    EXPECT_EQ(taken(sizing, twenties), whole(4.0 * (12 + margin), 20)) << margin;
  }
}

TEST(SizeClosedForm, AMarginThatIsAShareCountsOfWhatIsTakenAlong) {
  // Of N containers (1 - share) N 20 L may be drunk.
  for (const int percent : {10, 20, 25, 40, 60}) {
    const Sizing sizing =
        size_of(four_litres_a_day(12, std::to_string(percent) + " %"), drinking_in_twenties);
    EXPECT_EQ(taken(sizing, twenties), whole(48 / (1 - percent / 100.0), 20)) << percent;
  }
}

TEST(SizeClosedForm, TensAndTwentiesMakeUpTheLeastMass) {
  // Two of 10 L weigh more than one of 20 L, so there is never more than one of them.
  for (int days = 1; days <= 30; ++days) {
    const Sizing sizing =
        size_of(four_litres_a_day(days), "size: {containers: {drinking: [20 L, 10 L]}}");
    const int tens_of_litres = whole(4.0 * days, 10);
    EXPECT_EQ(taken(sizing, twenties), tens_of_litres / 2) << days;
    EXPECT_EQ(taken(sizing, tens), tens_of_litres % 2) << days;
    EXPECT_NEAR(found(sizing).totals.kg,
                10 * tens_of_litres + 1.2 * (tens_of_litres / 2) + 0.7 * (tens_of_litres % 2),
                1e-9);
  }
}

TEST(SizeClosedForm, SeventyLitresAreThreeTwentiesAndATen) {
  const Sizing sizing =
      size_of(four_litres_a_day(17), "size: {containers: {drinking: [20 L, 10 L]}}");
  EXPECT_EQ(taken(sizing, twenties), 3);
  EXPECT_EQ(taken(sizing, tens), 1);
}

TEST(SizeClosedForm, UtilityWaterIsUseAndMarginLessWhatTheTankHolds) {
  for (const int days : {3, 8, 14, 20}) {
    PlanText plan = four_litres_a_day(days);
    plan.margins = {"utility_water: 15 L"};
    plan.containers = {
        "{name: cans, holds: 400 L, filled: 400 L, for: drinking}",
        "{name: tank, holds: 40 L, filled: 40 L, for: utility}",
    };
    plan.utility_use = {"cooking: 2 L/day", "washing: 1.5 L/day"};
    const Sizing sizing = size_of(plan, "size: {containers: {utility: [20 L]}}");
    EXPECT_EQ(taken(sizing, twenties_of_utility), std::max(0, whole(3.5 * days + 15 - 40, 20)))
        << days;
  }
}

TEST(SizeClosedForm, DaysOfFoodAreTheDaysOfTheTripAndOfTheMargin) {
  for (const int days : {1, 5, 14, 21}) {
    for (const int margin : {0, 2, 5}) {
      PlanText plan = four_litres_a_day(days);
      plan.people.push_back(PlanText::person("Ben", "4 L/day"));
      plan.margins = {"food: " + std::to_string(margin) + " days"};
      plan.containers = {"{name: cans, holds: 900 L, filled: 900 L, for: drinking}"};
      plan.food = {"{item: stores, kept: dry, mass: 4 kg, meals: 12}"};
      const Sizing sizing = size_of(plan, "size: {food: {stores: 6 meals}}");
      EXPECT_EQ(taken(sizing, "day of stores (6 meals)"), days + margin);
      const plan::FoodItem& stores = found(sizing).plan.food.front();
      EXPECT_DOUBLE_EQ(stores.meals, 6.0 * (days + margin));
      // What a meal weighs in the plan it weighs in the set.
      EXPECT_DOUBLE_EQ(stores.mass_kg, 2.0 * (days + margin));
    }
  }
}

/// 600 km of road that takes 12 L/100km whatever the truck weighs, from a tank of 40 L of which
/// 5 L cannot be used.
PlanText twelve_litres(const std::string& margin, const std::string& observed) {
  PlanText plan = four_litres_a_day(1);
  plan.margins = {"fuel: " + margin};
  plan.containers = {"{name: cans, holds: 90 L, filled: 90 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 40 L, "
      "filled: 40 L, unusable: 5 L}], observed: [" +
      observed + "]}"};
  plan.places = {PlanText::place("Base", "air"), PlanText::place("There", "air")};
  plan.itinerary = {"{at: Base}",
                    "drive: {to: There, distance: 600 km, surfaces: sealed, speed: 80 km/h}"};
  return plan;
}

TEST(SizeClosedForm, CansAreTheRoadsFuelAndTheMarginLessWhatTheTankHas) {
  const std::string as_it_stands = "{surface: sealed, uses: 12 L/100km}";
  const auto cans_for = [&](const std::string& margin) {
    return taken(size_of(twelve_litres(margin, as_it_stands), "size: {fuel_cans: {truck: [20 L]}}"),
                 cans);
  };
  EXPECT_EQ(cans_for("1 L"), whole(72 + 1 - 35, 20));
  EXPECT_EQ(cans_for("10 L"), whole(72 + 10 - 35, 20));
  EXPECT_EQ(cans_for("30 L"), whole(72 + 30 - 35, 20));
  EXPECT_EQ(cans_for("100 km"), whole(72 + 12 - 35, 20));
  EXPECT_EQ(cans_for("250 km"), whole(72 + 30 - 35, 20));
  EXPECT_EQ(cans_for("200 km"), whole(72 + 24 - 35, 20));
}

/// Litres that a truck burns over a road on which it takes a + b m litres a km at a mass m, and so
/// grows lighter as it goes: dm/dx = -rho (a + b m).
double burnt_l(double start_kg, double km, double a, double b) {
  const double at_rest = a / b;
  const double end_kg =
      (start_kg + at_rest) * std::exp(-plan::fuel_kg_l(plan::FuelKind::diesel) * b * km) - at_rest;
  return (start_kg - end_kg) / plan::fuel_kg_l(plan::FuelKind::diesel);
}

TEST(SizeClosedForm, CansAlsoCarryTheFuelThatTheirOwnWeightTakes) {
  // Observed are 12 L/100km at 2000 kg and 80 km/h, of which idling takes 1. What holds it back
  // then is rolling, m g 0.015 (sealed), and air of 1.134 kg/m3 (docs/models.md) on 1.6 m2. Here
  // the air has 1.2 kg/m3.
  const double rolling_n = 2000 * 9.80665 * 0.015;
  const double air_n = 1.134 * 1.6 * std::pow(80 / 3.6, 2) / 2;
  const double idle_l_km = 0.8 / 80;
  const double work_l_km = 0.12 - idle_l_km;
  const double b = work_l_km * rolling_n / (rolling_n + air_n) / 2000;
  const double a = work_l_km * air_n / (rolling_n + air_n) * 1.2 / 1.134 + idle_l_km;
  // Truck, gear, one person, 90 L of water, the fuel in the tank; a can of 20 L adds 4 kg of steel.
  const double start_kg = 2000 + 900 + 70 + 90 + 40 * 0.835;
  const double can_kg = 4 + 20 * 0.835;
  const auto cans_for = [&](double km, double kg_a_can) {
    int count = 0;
    while (35 + 20 * count < burnt_l(start_kg + count * kg_a_can, km, a, b) + 1) ++count;
    return count;
  };
  // At each of these lengths it is clear by 0.3 L, more than hours of steady mass are off.
  int told_apart = 0;
  for (int km = 400; km < 790; km += 15) {
    PlanText plan = twelve_litres("1 L",
                                  "{surface: sealed, speed: 80 km/h, mass: 2000 kg, uses: "
                                  "12 L/100km}");
    plan.vehicles.front().replace(plan.vehicles.front().find("{empty: 2000 kg}"), 16,
                                  "{empty: 2000 kg, gear: 900 kg}");
    plan.itinerary.back() = "drive: {to: There, distance: " + std::to_string(km) +
                            " km, surfaces: sealed, speed: 80 km/h}";
    const Sizing sizing = size_of(plan, "size: {fuel_cans: {truck: [20 L]}}");
    EXPECT_EQ(taken(sizing, cans), cans_for(km, can_kg)) << km;
    if (cans_for(km, can_kg) != cans_for(km, 0)) ++told_apart;
  }
  EXPECT_EQ(told_apart, 2);
}

TEST(SizeClosedForm, WithARefillOnTheWayTheLongerStretchDecides) {
  // 4 L a day: to the refill in the sixth day 20 to 24 L. The first of the nights after it is on
  // the day of the drive, so it is 60 L in all and 36 to 40 L after it; with 2 L to be left, 38 to
  // 42 L and 62 L.
  PlanText plan = four_litres_a_day(5, "2 L");
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]}"};
  plan.places = {PlanText::place("Base", "air"),
                 PlanText::place("Well", "air", "drinking_water: {}")};
  plan.itinerary = {"{at: Base}", nights(5), "drive: {to: Well, distance: 80 km, surfaces: gravel}",
                    "resupply: {drinking_water: fill}", nights(10)};
  EXPECT_EQ(taken(size_of(plan, drinking_in_twenties), twenties), 3);
  plan.itinerary.erase(plan.itinerary.begin() + 3);
  EXPECT_EQ(taken(size_of(plan, drinking_in_twenties), twenties), 4);
  plan.itinerary = {"{at: Base}", nights(10),
                    "drive: {to: Well, distance: 80 km, surfaces: gravel}",
                    "resupply: {drinking_water: fill}", nights(5)};
  EXPECT_EQ(taken(size_of(plan, drinking_in_twenties), twenties), 3);
}

TEST(SizeClosedForm, AConsumableIsUseAndMarginRoundedUpToWholeStores) {
  for (const double a_day : {0.07, 0.15, 0.31, 0.5}) {
    for (const double holds : {0.25, 0.9, 2.0}) {
      PlanText plan = four_litres_a_day(12);
      plan.containers = {"{name: can 1, holds: 60 L, filled: 60 L, for: drinking}"};
      plan.consumables = {fmt::format(
          "{{name: gas, unit: kg, stores: [{{name: bottle, holds: {0} kg, filled: {0} kg, "
          "empty_mass: 1 kg}}], use: {{per_day: {1} kg}}, margin: 2 days}}",
          holds, a_day)};
      const Sizing sizing = size_of(
          plan, fmt::format("size: {{consumables: {{gas: [{{holds: {} kg, most: 60}}]}}}}", holds));
      EXPECT_EQ(taken(sizing, fmt::format("{:g} kg container of gas", holds)),
                whole((12 + 2) * a_day, holds))
          << a_day << " of " << holds;
    }
  }
}

// Another size than the plan's is put in full: nothing of it is rounded away.
TEST(SizeClosedForm, AConsumableMayComeInOtherSizes) {
  PlanText plan = four_litres_a_day(12);
  plan.containers = {"{name: can 1, holds: 60 L, filled: 60 L, for: drinking}"};
  plan.consumables = {
      "{name: gas, unit: kg, stores: [{name: bottle, holds: 2 kg, filled: 2 kg, empty_mass: 3 "
      "kg}], use: {per_day: 0.1 kg}}"};
  const Sizing sizing =
      size_of(plan, "size: {consumables: {gas: [{holds: 0.25 kg, empty_mass: 0.1 kg}]}}");
  // 1.2 kg: five cartridges of 0.25 kg weigh less than the bottle.
  EXPECT_EQ(taken(sizing, "0.25 kg container of gas"), 5);
  EXPECT_EQ(taken(sizing, "2 kg container of gas"), 0);
}

}  // namespace
}  // namespace drystage::answers
