// The least set is the least: every set on offer is tried, one after another.
#include <fmt/core.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "answers/size/size.h"
#include "support/random_plan.h"
#include "support/sizing.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using support::is_enough;
using support::least_of_all;
using support::plan_to_size;
using support::PlanText;
using support::random_plan;
using support::rapidcheck_pick;
using support::told;
using support::travel;
using support::Trip;

/// What is wrong with an answer, where it is not the least of all; empty where it is.
std::string objection(const PlanRun& planned, const SizeOptions& options) {
  const support::LeastOfAll least = least_of_all(planned, options);
  const Sizing sizing = size_plan(planned, options);
  if (!least.set) {
    return sizing.found ? "nothing is enough, and this was found:\n" + told(sizing.found->lines)
                        : "";
  }
  const std::string wanted =
      fmt::format("of {} sets the least is\n", least.sets) + told(*least.set);
  if (!sizing.found) return wanted + "and nothing was found\n";
  const Objective found = objective(sizing.found->totals, options.least);
  if (found == least.value) return "";
  return wanted + "and this was found:\n" + told(sizing.found->lines);
}

RC_GTEST_PROP(SizeOptimalityProperty, NoSetOnOfferIsLessAndEnough, ()) {
  const auto pick = rapidcheck_pick();
  // To try every set takes its time.
  if (pick(0, 2) > 0) return;
  const PlanText text = support::generous_plan(pick);
  constexpr std::size_t most_sets = 150;
  const std::string size = support::random_size(text.plan(), pick, most_sets);
  RC_PRE(!size.empty());
  const SizeOptions options{.least = pick(0, 1) == 0 ? Least::mass : Least::cost,
                            .confirmed_only = pick(0, 2) == 0};
  RC_LOG() << text.text() << size;
  const Trip planned = travel(plan_to_size(text, size));
  // Cans of the plan's own may be left behind: that makes more of them.
  RC_PRE(support::count_sets(planned) <= 4 * most_sets);
  const std::string wrong = objection(planned, options);
  RC_LOG() << wrong;
  RC_ASSERT(wrong.empty());
}

// What one vehicle's containers take at the well another's may not have.
RC_GTEST_PROP(SizeOptimalityProperty, OfWaterOfTheirOwnNoSetIsLessAndEnough, ()) {
  const auto pick = rapidcheck_pick();
  PlanText text;
  const auto rider = [&](const char* name, const char* vehicle) {
    return fmt::format(
        "{{name: {}, mass: 70 kg, height: 170 cm, age: 40, sex: female, rides_in: {}, observed: "
        "{{drinking: {} L/day, meals: 3}}}}",
        name, vehicle, pick(3, 6));
  };
  text.people = {rider("Ada", "A"), rider("Ben", "B")};
  const auto vehicle = [](const char* name, const char* more) {
    return fmt::format(
        "{{name: {0}, fuel: diesel, mass: {{empty: 2000 kg}}, tanks: [{{name: {0} tank, holds: 90 "
        "L, filled: 90 L}}], observed: [{{surface: sealed, uses: 10 L/100km}}]{1}}}",
        name, more);
  };
  text.vehicles = {vehicle("A", ""), vehicle("B", ", own: water")};
  const bool one = pick(0, 1) == 0;
  text.containers = {
      fmt::format("{{name: can, holds: {0} L, filled: {0} L, in: A}}", pick(4, 12)),
      fmt::format("{{name: own can, holds: {0} L, filled: {0} L, in: B}}", pick(4, 12))};
  text.places = {PlanText::place("Base", "air"),
                 PlanText::place("Well", "air",
                                 one ? fmt::format("drinking_water: {{most: {} L}}", pick(4, 40))
                                     : "drinking_water: {}"),
                 PlanText::place("End", "air")};
  const std::string amount = one ? "fill" : fmt::format("{} L", pick(4, 40));
  text.itinerary = {"{at: Base}",
                    fmt::format("stay: {{nights: {}}}", pick(1, 3)),
                    "drive: {to: Well, distance: 50 km, surfaces: sealed}",
                    "resupply: {drinking_water: " + amount + "}",
                    fmt::format("stay: {{nights: {}}}", pick(1, 4)),
                    "drive: {to: End, distance: 50 km, surfaces: sealed}"};
  const std::string size =
      "size:\n  containers:\n    drinking: [{holds: 5 L, most: 3}, {holds: 12 L, most: 2}]\n";
  RC_LOG() << text.text() << size;
  const std::string wrong = objection(travel(plan_to_size(text, size)), {});
  RC_LOG() << wrong;
  RC_ASSERT(wrong.empty());
}

/// Two vehicles on a sealed road; Ada rides in the first and drinks from a tank in it.
PlanText convoy(double first_l, double second_l, int distance_km) {
  PlanText plan;
  plan.people = {
      "{name: Ada, mass: 70 kg, height: 170 cm, age: 40, sex: female, rides_in: A, "
      "observed: {drinking: 4 L/day}}"};
  plan.containers = {"{name: butt, holds: 100 L, filled: 100 L, for: drinking, in: A}"};
  const auto vehicle = [](const char* name, double holds_l) {
    return fmt::format(
        "{{name: {0}, fuel: diesel, mass: {{empty: 2000 kg}}, tanks: [{{name: main, holds: {1:.5f} "
        "L, filled: {1:.5f} L}}]}}",
        name, holds_l);
  };
  plan.vehicles = {vehicle("A", first_l)};
  if (second_l > 0) plan.vehicles.push_back(vehicle("B", second_l));
  plan.driving = "{most_per_day: 20 h, daylight_only: no}";
  plan.places = {PlanText::place("Base", "air"), PlanText::place("There", "air")};
  plan.itinerary = {"{at: Base}", fmt::format("drive: {{to: There, distance: {0} km, surfaces: "
                                              "{{sealed: {0} km}}}}",
                                              distance_km)};
  return plan;
}

void expect_least(const PlanText& plan, const std::string& size, const SizeOptions& options = {}) {
  EXPECT_EQ(objection(travel(plan_to_size(plan, size)), options), "");
}

std::string two_sizes(const char* tank, double one_l, double other_l) {
  return fmt::format(
      "    {}: [{{holds: {:.5f} L, empty_mass: 0 kg}}, {{holds: {:.5f} L, empty_mass: 0 kg}}]\n",
      tank, one_l, other_l);
}

double burnt(const PlanText& plan) { return travel(plan).sum(&engine::ReserveDay::used, "fuel:A"); }

double heaviest_kg(const PlanText& plan) { return travel(plan).record.heaviest[0].kg; }

TEST(SizeOptimality, TwoItemsOfFoodTogetherAreWhatIsEaten) {
  PlanText plan;
  plan.containers = {"{name: butt, holds: 100 L, filled: 100 L, for: drinking}"};
  plan.food = {"{item: rusks, kept: dry, meals: 1}"};
  expect_least(plan,
               "size:\n  food:\n    rusks: {per_day: 3 meals, mass: 1 kg, most: 4 days}\n"
               "    beans: {per_day: 3 meals, mass: 0.9 kg, most: 4 days}\n");
}

/// The convoy's one vehicle, with a heavy spare wheel: each costs fuel.
PlanText with_spare_wheels() {
  PlanText plan = convoy(128, 0, 1200);
  plan.vehicles[0].replace(plan.vehicles[0].rfind('}'), 1,
                           ", tyres: {spare_wheels: 0, repairs: 1, wheel_mass: 90 kg, punctures: "
                           "{sealed: 1}}}");
  return plan;
}

constexpr const char* wheels_and_fuel =
    "size:\n  spare_wheels: {A: 4}\n  fuel_cans:\n    A: [{holds: 5 L, empty_mass: 1 kg, most: "
    "6}]\n";

TEST(SizeOptimality, SpareWheelsTakeFuelAndFuelTakesNoSpareWheels) {
  expect_least(with_spare_wheels(), wheels_and_fuel);
  PlanText rough = with_spare_wheels();
  rough.margins = {"tyres: 60 %"};
  expect_least(rough, wheels_and_fuel);
}

// Who waits with a flat tyre drinks: more water will do, and so will another wheel.
TEST(SizeOptimality, ASpareWheelStandsForTheWaterOfAWait) {
  PlanText plan = with_spare_wheels();
  plan.margins = {"tyres: 1 %"};
  plan.mishaps = {"stuck: {for: 20 days}"};
  plan.containers = {"{name: butt, holds: 20 L, filled: 20 L, for: drinking, in: A}"};
  const std::string size =
      std::string(wheels_and_fuel) + "  containers: {drinking: [{holds: 30 L, most: 3}]}\n";
  for (const char* stuck : {"stuck: {for: 20 days}", "stuck: {for: 6 days}"}) {
    plan.mishaps = {stuck};
    expect_least(plan, size, {.survive = std::vector{plan::MishapKind::puncture}});
  }
}

TEST(SizeOptimality, HeavierWaterMayGoInTheOtherVehicle) {
  PlanText plan = convoy(131, 400, 1200);  // of which some 130 L are burnt
  const auto with_water_in = [&](const char* vehicle) {
    plan.containers = {
        fmt::format("{{name: can 1, holds: 20 L, filled: 20 L, for: drinking, in: {}}}", vehicle)};
    return burnt(plan);
  };
  const double here_l = with_water_in("A");
  const double there_l = with_water_in("B");
  ASSERT_GT(here_l, there_l + 0.1);
  plan.containers.clear();
  expect_least(plan,
               "size:\n  containers:\n    drinking: [{holds: 20 L, empty_mass: 1 kg, in: A, most: "
               "1}, {holds: 20 L, empty_mass: 1.001 kg, in: B, most: 1}]\n  tanks:\n" +
                   two_sizes("A/main", (here_l + there_l) / 2, here_l + 1));
}

TEST(SizeOptimality, WhatOneVehicleBringsIsLeftAtTheWellForTheOther) {
  PlanText plan = convoy(80, 80, 900);
  plan.places[1] = PlanText::place("There", "air", "diesel: {most: 100 L}");
  plan.itinerary.emplace_back("resupply: {diesel: to next, takes: 0 h}");
  plan.itinerary.emplace_back("drive: {to: Base, distance: 700 km, surfaces: {sealed: 700 km}}");
  expect_least(plan,
               "size:\n  fuel_cans:\n    A: [{holds: 20 L, empty_mass: 1 kg, most: 4}]\n"
               "    B: [{holds: 20 L, empty_mass: 3 kg, most: 4}]\n");
}

TEST(SizeOptimality, BrackishWaterIsLeftBehindWhereItKeepsGoodWaterFromBeingDrunk) {
  PlanText plan;
  plan.utility_use = {"cooking: 1 L/day"};
  plan.containers = {"{name: can 1, holds: 30 L, filled: 30 L, for: utility, quality: brackish}"};
  expect_least(plan,
               "size:\n  containers:\n    drinking: [{holds: 10 L, empty_mass: 30 kg, most: 4}]\n"
               "    utility: [{holds: 20 L, empty_mass: 1 kg, most: 3}]\n");
}

TEST(SizeOptimality, ASmallerTankMayBeDearerOrHeavier) {
  const PlanText plan = convoy(300, 0, 1200);
  expect_least(plan,
               "size:\n  tanks:\n    main: [{holds: 200 L, empty_mass: 1 kg, cost: 900}, {holds: "
               "220 L, empty_mass: 1 kg, cost: 100}]\n",
               {.least = Least::cost});
  expect_least(plan,
               "size:\n  tanks:\n    main: [{holds: 200 L, empty_mass: 30 kg}, {holds: 220 L, "
               "empty_mass: 1 kg}]\n");
}

TEST(SizeOptimality, SmallerCansSurviveTheLossOfOne) {
  expect_least(PlanText{},
               "size:\n  containers:\n    drinking: [{holds: 20 L, empty_mass: 1 kg, most: 3}, "
               "{holds: 10 L, empty_mass: 0.9 kg, most: 5}]\n",
               {.survive = {{plan::MishapKind::container}}});
}

TEST(SizeOptimality, CansOfAVehicleLeftBehindFeedTheOther) {
  PlanText plan = convoy(92, 150, 1100);
  plan.containers = {"{name: can 1, holds: 200 L, filled: 200 L, for: drinking, in: B}"};
  expect_least(plan,
               "size:\n  fuel_cans:\n    A: [{holds: 20 L, empty_mass: 3 kg, most: 3}]\n"
               "    B: [{holds: 20 L, empty_mass: 1 kg, most: 3}]\n",
               {.survive = {{plan::MishapKind::vehicle}}});
}

TEST(SizeOptimality, DownhillAHeavierVehicleNeedsLess) {
  // Evenly downhill: on steeper hills with level road between, brakes take what mass gives.
  PlanText plan = convoy(11, 0, 230);
  plan.places[0] = "Base: {at: {latitude: 0°, longitude: 0°, elevation: 4500 m}, climate: air}";
  plan.itinerary[1] =
      "drive: {to: There, distance: 230 km, surfaces: {sealed: 230 km}, climb: 0 m, descent: 4500 "
      "m, steepness: 2 %}";
  plan.containers = {"{name: can 1, holds: 20 L, filled: 0 L, for: drinking}"};
  const double light_l = burnt(plan);
  plan.containers = {"{name: can 1, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1 kg}"};
  const double loaded_l = burnt(plan);
  ASSERT_LT(loaded_l, light_l - 0.01);
  PlanText least = convoy((light_l + loaded_l) / 2, 0, 230);
  least.containers = plan.containers;
  plan.containers.clear();
  expect_least(plan,
               "size:\n  containers:\n    drinking: [{holds: 20 L, empty_mass: 1 kg, most: "
               "3}]\n  tanks:\n" +
                   two_sizes("main", (light_l + loaded_l) / 2, light_l + 1) +
                   fmt::format("  limits:\n    mass: {:.3f} kg\n", heaviest_kg(least) + 0.1));
}

/// A chest of meat, cooled by a bank on a generator that burns from the vehicle's tank.
PlanText chest(double fuel_l) {
  PlanText plan = convoy(fuel_l, 0, 1);
  plan.climate = {PlanText::steady_climate("air", 30)};
  plan.cold = {
      "{name: chest, volume: 40 L, set_point: 4 °C, rated: {draw: 12 W, ambient: 32 °C, inside: 4 "
      "°C}, on: bank, in: A}"};
  plan.food = {
      "{item: meat, kept: chilled, mass: 10 kg, meals: 24, keeps: {for: 20 days, at: 4 "
      "°C}}"};
  plan.batteries = {"{name: bank, kind: lfp, capacity: 60 Ah, filled: 100 %}"};
  plan.charging = {
      "{name: genset, generator: 600 W, fuel: diesel, uses: 0.6 L/h, runs: 2 h/day, starts: "
      "\"12:00\", on: bank}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 7}"};
  return plan;
}

TEST(SizeOptimality, FuelForTheGeneratorSavesFood) {
  const PlanText plan = chest(3);
  ASSERT_GT(travel(plan).sum(&engine::ReserveDay::lost, "food"), 0);
  expect_least(plan, fmt::format("size:\n  fuel_cans:\n    A: [{{holds: 10 L, empty_mass: 1 kg, "
                                 "most: 3}}]\n  food:\n    rusks: {{per_day: 3 meals, mass: 10 kg, "
                                 "most: 8 days}}\n  limits:\n    mass: {:.3f} kg\n",
                                 heaviest_kg(plan) + 12));
}

/// A chest that is judged by the medicine in it alone: two doses a day, lost after six hours above
/// 8 °C.
PlanText medicine_chest() {
  PlanText plan = chest(60);
  plan.food = {"{item: stores, kept: dry, meals: 500}"};
  plan.margins = {"cold: 35 °C"};
  plan.consumables = {
      "{name: medicine, unit: doses, unit_mass: 0.1 kg, keeps: {to: 8 °C, out_of_it: 6 h}, stores: "
      "[{name: box, holds: 8, filled: 8, cabinet: chest}], use: {per_day: 2}}"};
  return plan;
}

TEST(SizeOptimality, WhatAGeneratorBurnsSavesMedicine) {
  PlanText plan = medicine_chest();
  plan.charging = {
      "{name: genset, generator: 600 W, fuel: petrol, uses: 0.6 L/h, runs: 2 h/day, starts: "
      "\"12:00\", on: bank, burns: genset fuel}"};
  plan.consumables.emplace_back(
      "{name: genset fuel, unit: L, unit_mass: 0.8 kg, stores: [{name: small can, holds: 2 L, "
      "filled: 2 L, empty_mass: 0.5 kg}]}");
  expect_least(
      plan,
      "size:\n  consumables:\n    genset fuel: [{holds: 2 L, empty_mass: 0.5 kg, most: 5}]\n"
      "    medicine: [{holds: 8, empty_mass: 0.2 kg, most: 4}]\n");
}

TEST(SizeOptimality, ABatteryThatKeepsMedicineColdIsTriedWhateverThereIsOfIt) {
  PlanText plan = medicine_chest();
  plan.charging.clear();
  ASSERT_GT(travel(plan).sum(&engine::ReserveDay::lost, "consumable:medicine"), 0);
  for (const char* least : {"1 kg", "20 kg"}) {
    expect_least(plan,
                 fmt::format("size:\n  batteries:\n    bank: [{{capacity: 20 Ah, mass: 3 kg}}, "
                             "{{capacity: 900 Ah, mass: {}}}]\n  consumables:\n    medicine: "
                             "[{{holds: 5, empty_mass: 0.2 kg, most: 4}}]\n",
                             least));
  }
}

TEST(SizeOptimality, OfWhatFillsTheLeastHasRoomForAll) {
  PlanText plan = convoy(60, 0, 100);
  plan.itinerary = {"{at: Base}", "stay: {nights: 9}"};
  plan.consumables = {
      "{name: cassette, unit: L, unit_mass: 1 kg, fills: yes, margin: 1 day, stores: [{name: box, "
      "holds: 18 L, filled: 3 L, empty_mass: 4 kg}], use: {per_person_day: 2.5 L}}",
      "{name: gas, unit: kg, stores: [{name: bottle, holds: 1 kg, filled: 1 kg, empty_mass: 2 "
      "kg}], "
      "use: {per_meal: 60 g}}"};
  expect_least(
      plan,
      "size:\n  consumables:\n    cassette: [{holds: 18 L, empty_mass: 4 kg, most: 3}, "
      "{holds: 7 L, empty_mass: 1.5 kg, most: 3}]\n    gas: [{holds: 0.5 kg, empty_mass: 0.7 "
      "kg, most: 4}]\n");
}

TEST(SizeOptimality, AKitThatLosesFoodSaysNothingOfOneThatDoesNot) {
  PlanText plan = chest(300);
  plan.charging.clear();
  for (const char* least : {"1 kg", "20 kg"}) {
    expect_least(plan,
                 fmt::format("size:\n  batteries:\n    bank: [{{capacity: 20 Ah, mass: 3 kg}}, "
                             "{{capacity: 300 Ah, mass: {}}}]\n  food:\n    rusks: {{per_day: 3 "
                             "meals, mass: 10 kg, most: 8 days}}\n",
                             least));
  }
}

TEST(SizeOptimality, WhatIsEatenBeforeFrozenFoodKeepsTheFreezerFull) {
  // Steady heat and a bank that cannot keep up: how warm the freezer gets depends on what is in it.
  PlanText plan = chest(300);
  plan.charging.clear();
  plan.cold = {
      "{name: chest, volume: 40 L, set_point: -18 °C, rated: {draw: 12 W, ambient: 32 °C, inside: "
      "4 °C}, on: bank, in: A}"};
  plan.food = {"{item: rusks, kept: dry, mass: 3 kg, meals: 3}",
               "{item: meat, kept: frozen, mass: 12 kg, meals: 30, from: -18 °C}"};
  plan.margins = {"cold: 2 °C"};
  for (int ah = 10; ah <= 200; ah += 10) {
    expect_least(plan, fmt::format("size:\n  batteries:\n    bank: [{} Ah, {} Ah]\n  food:\n    "
                                   "rusks: {{per_day: 3 meals, mass: 1 kg, most: 8 days}}\n",
                                   ah, ah + 100));
  }
}

TEST(SizeOptimality, OneFewerOfAnythingIsNotEnough) {
  const PlanText plan = convoy(80, 80, 1200);
  const Trip planned = travel(
      plan_to_size(plan,
                   "size:\n  containers:\n    drinking: [{holds: 20 L, most: 2}]\n  fuel_cans:\n   "
                   " A: [{holds: 20 "
                   "L, most: 2}, {holds: 10 L, most: 3}]\n    B: [{holds: 20 L, most: 3}]\n"));
  const support::LeastOfAll least = least_of_all(planned, {});
  const Sizing sizing = size_plan(planned, {});
  ASSERT_TRUE(least.set && sizing.found);
  int fewer_of = 0;
  const std::vector<Decision> decisions = decisions_of(planned.plan, Least::mass);
  for (std::size_t d = 0; d < decisions.size(); ++d) {
    for (std::size_t line = 0; line < (*least.set)[d]->lines.size(); ++line) {
      const auto fewer = decisions[d].one_fewer(*(*least.set)[d], line);
      if (!fewer) continue;
      support::Chosen lesser = *least.set;
      lesser[d] = &*fewer;
      EXPECT_FALSE(is_enough(planned, {}, lesser)) << told(lesser);
      ++fewer_of;
    }
  }
  const auto said = std::ranges::count_if(
      sizing.found->lines, [](const SizedLine& line) { return line.one_fewer.has_value(); });
  EXPECT_EQ(said, fewer_of);
  EXPECT_GE(fewer_of, 2);
}

}  // namespace
}  // namespace drystage::answers
