// The page that `drystage run` prints: what it says first, and what the figures rest on.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "cli/workspace.h"
#include "report/text/words.h"
#include "support/answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using support::PlanText;
using support::run_text;
using support::times;
using support::unwrapped;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

/// Five days at 4 L and 3 meals.
PlanText five_days(const std::string& water, const std::string& meals) {
  PlanText plan;
  plan.margins = {"drinking_water: 10 L", "food: 3 meals"};
  plan.containers = {"{name: can, holds: 60 L, filled: " + water + ", for: drinking}"};
  plan.food = {"{item: rice, kept: dry, mass: 10 kg, meals: " + meals + "}"};
  return plan;
}

TEST(RunText, NamesWhatHurtsPeopleFirstAndThenAllElseThatFails) {
  PlanText plan = five_days("14 L", "7");
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 8 L}]}"};
  plan.margins.emplace_back("fuel: 10 L");
  const std::string text = unwrapped(run_text(plan));
  EXPECT_THAT(text, StartsWith("DOES NOT HOLD: drinking water runs out on day 4, Thu 04 Mar 2027, "
                               "at 12:00, short by 6.0 L. Below its margin from day 2."));
  EXPECT_THAT(text, HasSubstr("Besides: fuel of truck is below its margin (day 1), food runs out "
                              "(day 3)."));
}

TEST(RunText, TellsHowFarBelowItsMarginAReserveIsAtWorst) {
  PlanText plan = five_days("24 L", "60");
  plan.margins = {"drinking_water: 20 L"};
  EXPECT_THAT(
      unwrapped(run_text(plan)),
      StartsWith("DOES NOT HOLD: drinking water falls below its margin on day 2, Tue 02 Mar "
                 "2027, at 00:00: 16 L, margin 20 L. At worst 16 L below it, on day 5."));
}

TEST(RunText, NamesNoOthersWhenThereIsNone) {
  EXPECT_THAT(run_text(five_days("14 L", "60")), Not(HasSubstr("Besides")));
  EXPECT_THAT(run_text(five_days("40 L", "60")), Not(HasSubstr("Besides")));
  EXPECT_THAT(run_text(five_days("40 L", "60")), StartsWith("HOLDS: every reserve"));
}

/// The same with a well, of which somebody may know, where the trip begins.
PlanText with_well(const std::string& water, const std::string& meals, bool confirmed) {
  PlanText plan = five_days(water, meals);
  plan.places = {PlanText::place(
      "Base", "air", std::string("drinking_water: {confirmed: ") + (confirmed ? "yes}" : "no}"))};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {drinking_water: fill}",
                    "stay: {nights: 4}"};
  return plan;
}

TEST(RunText, HoldsOnlyIfTheUnconfirmedIsThereWhenItDoesNotHoldWithout) {
  const std::string text = unwrapped(run_text(with_well("20 L", "60", false)));
  EXPECT_THAT(text, StartsWith("HOLDS ONLY IF what nobody has confirmed is there: then every "
                               "reserve keeps its margin on all 5 days."));
  EXPECT_THAT(text, HasSubstr("Not confirmed: drinking water at Base. Without, drinking water "
                              "falls below its margin on day 3,"));
}

TEST(RunText, HoldsWithoutAnIfWhenItHoldsWithoutTheUnconfirmedToo) {
  const std::string text = unwrapped(run_text(with_well("50 L", "60", false)));
  EXPECT_THAT(text, StartsWith("HOLDS: every reserve"));
  EXPECT_THAT(text, HasSubstr("Without, every reserve still keeps its margin."));
}

TEST(RunText, HoldsWithoutAnIfWhenAllIsConfirmed) {
  const std::string text = run_text(with_well("20 L", "60", true));
  EXPECT_THAT(text, StartsWith("HOLDS: every reserve"));
  EXPECT_THAT(text, Not(HasSubstr("confirmed")));
}

TEST(RunText, DoesNotHoldWhateverIsConfirmedWhenItDoesNotHoldWithTheUnconfirmed) {
  const std::string text = unwrapped(run_text(with_well("20 L", "7", false)));
  EXPECT_THAT(text, StartsWith("DOES NOT HOLD: food"));
  EXPECT_THAT(text, Not(HasSubstr("ONLY IF")));
}

TEST(RunText, PaintsAnIfRedAndNotGreen) {
  const auto head = [](const PlanText& plan) {
    return report::run_text(support::answer(plan), {.color = true}).substr(0, 7);
  };
  EXPECT_EQ(head(with_well("20 L", "60", false)), "\x1b[1;31m");
  EXPECT_EQ(head(with_well("20 L", "60", true)), "\x1b[1;32m");
}

/// A truck with much in it, and a car that has been measured.
PlanText two_vehicles(const std::string& limit_kg) {
  PlanText plan = five_days("40 L", "60");
  plan.people = {PlanText::person("Ada", "4 L/day"),
                 "{name: Ben, mass: 90 kg, height: 180 cm, age: 40, sex: male, rides_in: car, "
                 "observed: {drinking: 0 L/day, meals: 0}}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg, gear: 120 kg, limit: " + limit_kg +
          "}, tanks: [{name: tank, holds: 80 L, filled: 50 L}, {name: jerry, holds: 20 L, filled: "
          "20 L, empty_mass: 4 kg}]}",
      "{name: car, fuel: petrol, mass: {empty: 1500 kg}, tanks: [{name: tank, holds: 40 L, "
      "filled: 40 L}], observed: [{surface: sealed, uses: 8 L/100km}]}"};
  plan.containers.emplace_back(
      "{name: tub, holds: 30 L, filled: 12 L, for: utility, empty_mass: 3 kg}");
  plan.containers.emplace_back("{name: spare, holds: 10 L, filled: 10 L, in: car}");
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, mass: 28 kg}"};
  return plan;
}

// By hand: vehicle, gear, person, diesel at 0.835 kg/L (EN 590, memory) and its can, drinking
// water, utility water and its tub, food, bank.
constexpr double truck_kg = 2500 + 120 + 70 + (50 + 20) * 0.835 + 4 + 40 + 12 + 3 + 10 + 28;

TEST(RunText, GivesTheMostThatAVehicleWeighsBesideItsLimit) {
  EXPECT_NEAR(support::travel(two_vehicles("3500 kg")).record.heaviest[0].kg, truck_kg, 1e-9);
  const std::string text = unwrapped(run_text(two_vehicles("3500 kg")));
  EXPECT_THAT(text, HasSubstr("truck is heaviest on day 1: " +
                              std::to_string(std::lround(truck_kg)) + " kg, limit 3500 kg."));
  EXPECT_THAT(text, Not(HasSubstr("OVER")));
  EXPECT_THAT(text, Not(HasSubstr("car is heaviest")));
}

TEST(RunText, NamesTheDayOnWhichAVehicleIsHeaviest) {
  PlanText plan = with_well("20 L", "60", true);
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg, limit: 2600 kg}, tanks: [{name: tank, "
      "holds: 80 L, filled: 0 L}]}"};
  // On the second morning the can is full. The food, 10 kg of 60 meals, is eaten by 3 a day.
  const double eaten_kg = 3.0 * 32 / 24 * 10 / 60;
  const long kg = std::lround(2500 + 70 + 60 + 10 - eaten_kg);
  EXPECT_THAT(unwrapped(run_text(plan)),
              HasSubstr("truck is heaviest on day 2: " + std::to_string(kg) +
                        " kg, OVER its limit of 2600 kg."));
}

TEST(RunText, SaysThatAVehicleIsOverItsLimit) {
  const std::string text = unwrapped(run_text(two_vehicles("2800 kg")));
  EXPECT_THAT(text,
              HasSubstr("truck is heaviest on day 1: " + std::to_string(std::lround(truck_kg)) +
                        " kg, OVER its limit of 2800 kg."));
}

TEST(RunText, SaysWhoseFuelIsByTheModelAlone) {
  const std::string text = unwrapped(run_text(two_vehicles("3500 kg")));
  EXPECT_THAT(text, HasSubstr("Fuel of truck is by the model alone"));
  EXPECT_EQ(times(text, "by the model alone"), 1);
}

TEST(RunText, HasTheWarningsThatItIsGivenInEightyColumns) {
  report::RunAnswer answer = support::answer(five_days("40 L", "60"));
  answer.warnings = {"one thing", std::string(100, 'a') + " " + "another thing"};
  const std::string text = report::run_text(answer, {});
  EXPECT_THAT(text, HasSubstr("Warning: one thing.\n"));
  EXPECT_THAT(text, HasSubstr("another thing.\n"));
}

TEST(RunText, SaysWhyANightFewerHelps) {
  // The shop at Far opens on Fridays, the 5th; as planned they come on a Saturday.
  PlanText plan;
  plan.margins = {"drinking_water: 4 L"};
  plan.containers = {"{name: can, holds: 34 L, filled: 34 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg, limit: 2660 kg}, tanks: [{name: tank, "
      "holds: 60 L, filled: 60 L}]}"};
  plan.places = {PlanText::place("Base", "air"),
                 PlanText::place("Far", "air", "drinking_water: {open: [fri]}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 5}",
                    "drive: {to: Far, distance: 50 km, surfaces: gravel}",
                    "resupply: {drinking_water: fill}", "stay: {nights: 4}"};
  const std::string text = unwrapped(run_text(plan));
  EXPECT_THAT(text, HasSubstr("one night fewer at Base"));
  EXPECT_THAT(text, HasSubstr("Drinking water at Far is shut as planned, and open on Fri 05 Mar "
                              "2027."));
}

TEST(RunText, SaysNothingOfAShutShopThatTheFixLeavesShut) {
  // They pass the shop at Far twice: on a Monday, when it is shut, and on the Friday as planned.
  PlanText plan;
  plan.margins = {"drinking_water: 4 L"};
  plan.containers = {"{name: can, holds: 34 L, filled: 12 L, for: drinking}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 60 L, "
      "filled: 60 L}]}"};
  plan.places = {PlanText::place("Base", "air"),
                 PlanText::place("Far", "air", "drinking_water: {open: [fri]}")};
  const std::string there = "drive: {to: Far, distance: 50 km, surfaces: gravel}";
  const std::string fill = "resupply: {drinking_water: fill}";
  plan.itinerary = {
      "{at: Base}",        there, fill, "drive: {to: Base, distance: 50 km, surfaces: gravel}",
      "stay: {nights: 4}", there, fill};
  const std::string text = unwrapped(run_text(plan));
  EXPECT_THAT(text, HasSubstr("Fix: "));
  EXPECT_THAT(text, Not(HasSubstr("nights so changed")));
  EXPECT_THAT(text, Not(HasSubstr("is shut as planned, and open")));
}

TEST(RunText, SaysWhereAnotherVehicleHasTheFuelThatOneLacks) {
  PlanText plan = five_days("40 L", "60");
  plan.margins.emplace_back("fuel: 10 L");
  plan.people = {PlanText::person("Ada", "4 L/day")};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 8 L}]}",
      "{name: van, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 80 L, filled: "
      "60 L}]}",
      "{name: car, fuel: petrol, mass: {empty: 1500 kg}, tanks: [{name: tank, holds: 40 L, filled: "
      "40 L}]}"};
  const std::string text = unwrapped(run_text(plan));
  EXPECT_THAT(text,
              HasSubstr("van has 50 L more of the same fuel than it needs on the whole trip"));
  EXPECT_THAT(text, Not(HasSubstr("car has")));
}

TEST(RunText, SaysThatNoFixMakesAVehicleLighter) {
  PlanText plan = two_vehicles("2600 kg");
  const std::string too_heavy =
      "truck must weigh 246 kg less, which no fix does: leave so much "
      "at home.";
  EXPECT_NEAR(truck_kg - 2600, 246, 1);
  EXPECT_THAT(unwrapped(run_text(plan)), HasSubstr(too_heavy));
  plan.margins = {"drinking_water: 35 L"};
  const std::string text = unwrapped(run_text(plan));
  EXPECT_THAT(text, HasSubstr("Fix: "));
  EXPECT_THAT(text, HasSubstr("which no fix does"));
  plan.vehicles[0].replace(plan.vehicles[0].find("2600"), 4, "3500");
  EXPECT_THAT(run_text(plan), Not(HasSubstr("which no fix does")));
}

TEST(RunText, NamesWhatMustNeverGoDark) {
  PlanText plan = five_days("40 L", "60");
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  plan.batteries = {"{name: bank, kind: agm, capacity: 40 Ah}"};
  plan.loads = {"{name: insulin box, draw: 12 W, never_shed: yes}", "{name: lamp, draw: 6 W}"};
  EXPECT_THAT(unwrapped(run_text(plan)),
              StartsWith("DOES NOT HOLD: the charge for insulin box runs out on day 2,"));
}

TEST(RunText, SaysThatTheRowsGoOnWithoutFuel) {
  PlanText plan = five_days("40 L", "60");
  plan.margins.emplace_back("fuel: 5 L");
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 20 L}], observed: [{surface: gravel, uses: 10 L/100km}]}"};
  plan.places = {PlanText::place("Base", "air"), PlanText::place("Far", "air")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: Far, distance: 250 km, surfaces: gravel}",
                    "drive: {to: Base, distance: 250 km, surfaces: gravel}"};
  EXPECT_THAT(run_text(plan),
              HasSubstr("From day 2 on there is no fuel of truck: the rows go on as "
                        "if there were.\n"));
}

TEST(RunText, SaysWhatThePlanDoesNotSpeakOf) {
  PlanText plan = five_days("40 L", "60");
  EXPECT_THAT(run_text(plan),
              HasSubstr("Not in the plan, so not judged: utility water, cold, battery.\n"));
  plan.food.clear();
  plan.margins = {"drinking_water: 10 L"};
  EXPECT_THAT(run_text(plan),
              HasSubstr("Not in the plan, so not judged: utility water, food, cold, battery.\n"));
}

TEST(RunText, ShowsWhereADayLeadsThatEndsWhereItBegan) {
  PlanText plan = five_days("60 L", "60");
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  plan.places = {PlanText::place("Tarn Gap", "air"), PlanText::place("Bright Mesa", "air")};
  plan.itinerary = {"{at: Tarn Gap}", "stay: {nights: 1}",
                    "drive: {to: Bright Mesa, distance: 85 km, surfaces: gravel}",
                    "drive: {to: Tarn Gap, distance: 85 km, surfaces: gravel}",
                    "stay: {nights: 2}"};
  const std::string text = run_text(plan);
  EXPECT_THAT(text, HasSubstr("Day 2: to Bright Mesa and back to Tarn Gap.\n"));
  EXPECT_THAT(text, HasSubstr("2 Tue 02 Mar Tarn Gap    Bright Mesa 170"));
  EXPECT_THAT(text, Not(HasSubstr("Day 1:")));
}

TEST(Amounts, ThatAreOnlyRoundingAreNothing) {
  engine::ReserveInfo water;
  water.kind = units::Kind::volume;
  water.unit = "L";
  for (const double level : {0.0, 1e-12, -1e-12, 0.04, -0.04}) {
    EXPECT_EQ(report::amount(water, level, units::System::metric), "0") << level;
    EXPECT_EQ(report::amount_with_unit(water, level, units::System::metric), "0 L") << level;
  }
  EXPECT_EQ(report::amount(water, 0.06, units::System::metric), "0.1");
  EXPECT_EQ(report::amount(water, 1e-12, units::System::us), "0");
}

TEST(Amounts, OfContainersThatAreDrunkEmptyAreNothingInTable) {
  // Parts of a litre whose sum and difference leave rounding in a double.
  PlanText plan = five_days("0.7 L", "60");
  plan.margins = {"drinking_water: 0.5 L"};
  plan.containers.emplace_back("{name: b, holds: 20 L, filled: 5.1 L, for: drinking}");
  plan.containers.emplace_back("{name: c, holds: 20 L, filled: 0.3 L, for: drinking}");
  const report::RunAnswer answer = support::answer(plan);
  EXPECT_EQ(support::Trip{answer.planned}.reserve(3, "drinking_water").end, 0);
  const std::string table = report::run_text(answer, {});
  EXPECT_THAT(table, HasSubstr("!0  0.0"));
  EXPECT_THAT(table, Not(HasSubstr("!0.0")));
  EXPECT_THAT(table, Not(HasSubstr("-0")));
}

/// Eight vehicles with less fuel than they are to keep, and water enough.
PlanText convoy() {
  PlanText plan;
  plan.margins = {"drinking_water: 5 L", "fuel: 30 L"};
  plan.people.clear();
  plan.containers = {"{name: tank, holds: 900 L, filled: 900 L, for: drinking}"};
  for (int v = 1; v <= 8; ++v) {
    const std::string n = std::to_string(v);
    plan.people.push_back(PlanText::person("Driver " + n, "4 L/day"));
    plan.vehicles.push_back("{name: long lorry " + n +
                            ", fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: "
                            "80 L, filled: 10 L}]}");
  }
  return plan;
}

TEST(DayTable, OfEightVehiclesStillShowsDrinkingWater) {
  const std::string text = run_text(convoy());
  std::string head;
  for (const std::string& line : drystage::testing::lines(text)) {
    EXPECT_LE(drystage::testing::terminal_columns(line), 80) << line;
    if (line.find(" max ") != std::string::npos && head.empty()) head = line;
  }
  EXPECT_THAT(head, HasSubstr("Drinking"));
  // Beside the first to fail.
  EXPECT_THAT(head, HasSubstr("long lorry 1"));
  EXPECT_THAT(unwrapped(text), HasSubstr("fuel of long lorry 8 (below its margin too)"));
}

TEST(DayTable, OfEightVehiclesShowsAllWhenAllIsAskedFor) {
  for (const bool wide : {false, true}) {
    const std::string text =
        report::run_text(support::answer(convoy()), {.all = true, .wide = wide});
    for (int v = 1; v <= 8; ++v) {
      EXPECT_EQ(times(text, "Fuel long lorry " + std::to_string(v)), 1) << text;
    }
    EXPECT_EQ(times(text, "Drinking"), 1);
    EXPECT_THAT(text, Not(HasSubstr("Not shown")));
    for (const std::string& line : drystage::testing::lines(text)) {
      if (!wide) EXPECT_LE(drystage::testing::terminal_columns(line), 80) << line;
    }
  }
}

}  // namespace
}  // namespace drystage
