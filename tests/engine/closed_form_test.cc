// What can be worked out by hand, through the whole engine: plans in air that never changes.
#include <gtest/gtest.h>

#include <cmath>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;
using support::trip_hour;

constexpr const char* nobody_eats =
    "{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: male, observed: {drinking: 4 L/day, "
    "meals: 0}}";

TEST(LinearDrawdown, BreaksItsMarginOnTheDayHourAndAmountThatTheDivisionGives) {
  PlanText plan;
  plan.margins = {"drinking_water: 3 days"};
  plan.containers = {"{name: can, holds: 40 L, filled: 31 L, for: drinking}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 7}"};
  const Trip trip = travel(plan);
  // 31 L less 12 L last (31 - 12) / 4 = 4.75 days.
  ASSERT_TRUE(trip.verdict.first_breach);
  EXPECT_EQ(trip.verdict.first_breach->day, 4);
  EXPECT_NEAR(trip.verdict.first_breach->hour, 18, 1e-9);
  EXPECT_NEAR(trip.verdict.first_breach->left, 31 - 5 * 4, 1e-9);
  EXPECT_NEAR(trip.verdict.first_breach->margin, 12, 1e-9);
  EXPECT_EQ(trip.course.reserves[static_cast<std::size_t>(trip.verdict.first_breach->reserve)].name,
            "drinking_water");
  EXPECT_LT(trip.reserve(3, "drinking_water").breach_h, 0);
  EXPECT_NEAR(trip.reserve(3, "drinking_water").endurance, (31 - 16) / 4.0, 1e-9);
}

TEST(LinearDrawdown, RunsDryAtTheHourTheDivisionGivesAndIsShortOfTheRest) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 20 L, filled: 18 L, for: drinking}"};
  const Trip trip = travel(plan);
  auto dry = trip.told(EventKind::short_of);
  const int drinking = support::reserve_index(trip.course, "drinking_water");
  std::erase_if(dry, [drinking](const auto& event) { return event.subject != drinking; });
  ASSERT_EQ(dry.size(), 1U);
  EXPECT_NEAR(trip_hour(dry.front()), 24 * 18 / 4.0, 1e-9);
  EXPECT_NEAR(trip.sum(&ReserveDay::short_of, "drinking_water"), 5 * 4 - 18, 1e-6);
}

TEST(Showers, AreAsManyAsFitIntoTheTrip) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 90 L, filled: 90 L, for: drinking}",
                     "{name: tank, holds: 100 L, filled: 100 L, for: utility}"};
  plan.utility_use = {"shower: {volume: 5 L, every: 4 days}"};
  for (const int days : {3, 4, 10, 20}) {
    plan.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(days) + "}"};
    const Trip trip = travel(plan);
    const int showers = days / 4;
    EXPECT_NEAR(trip.sum(&ReserveDay::used, "utility_water"), showers * 5.0, 1e-9) << days;
  }
}

/// 100 Ah at 20 h, k = 1.2, at 10 A: 8.7 h (Peukert's law, worked example in general reference
/// works). The bank is at 25 °C, where IEEE 485 takes nothing off.
PlanText ten_amps(const std::string& cut_off) {
  PlanText plan;
  plan.climate = {PlanText::steady_climate("air", 25)};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, rate: 20 h, peukert: 1.2, floor: " +
                    cut_off + ", cut_off: " + cut_off + "}"};
  plan.loads = {"{name: heater, draw: 120 W}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}"};
  return plan;
}

TEST(Battery, IsEmptyAtThePeukertHour) {
  const double hours = 20 * std::pow(100 / (10.0 * 20), 1.2);
  const auto cut = travel(ten_amps("0 %")).told(EventKind::cut_off);
  ASSERT_EQ(cut.size(), 1U);
  EXPECT_NEAR(trip_hour(cut.front()), hours, 1e-6);
  EXPECT_NEAR(trip_hour(cut.front()), 8.7, 0.05);
}

TEST(Battery, ReachesItsCutOffAtItsShareOfThePeukertHour) {
  const Trip trip = travel(ten_amps("40 %"));
  const auto cut = trip.told(EventKind::cut_off);
  ASSERT_EQ(cut.size(), 1U);
  EXPECT_NEAR(trip_hour(cut.front()), 0.6 * 20 * std::pow(0.5, 1.2), 1e-6);
  EXPECT_NEAR(trip.reserve(0, "battery:bank").end, 40, 1e-9);
}

/// A chest whose battery is at its cut-off from the first hour, in air of 30 °C.
PlanText dead_chest(const std::string& food, const std::string& more = "") {
  PlanText plan;
  plan.people = {nobody_eats};
  plan.climate = {PlanText::steady_climate("air", 30)};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, filled: 40 %, cut_off: 40 %}"};
  plan.cold = {
      "{name: chest, volume: 45 L, set_point: 4 °C, heat_leak: 1 W/K, rated: {draw: 10 W, "
      "ambient: 32 °C, inside: 4 °C}, lid: {openings: 0, warm: 0 L/day}" +
      more + "}"};
  plan.food = {food};
  return plan;
}

TEST(FrozenSlab, MeltsAtTheHourThatMassLatentHeatAndConductanceGive) {
  // A barrier that lets nothing through: heat comes through the slab's 30 % of the wall alone.
  const Trip trip = travel(
      dead_chest("{item: lamb, kept: frozen, mass: 6 kg, water: 73 %, meals: 24, from: -1 °C, "
                 "freezes_at: -1 °C, keeps: {for: 60 days, at: 4 °C}}",
                 ", frozen_below: {barrier: 0 W/K, walls: 30 %}"));
  const double latent_kj = 6 * 335 * 0.73;  // Earle, Unit Operations in Food Processing
  const double kj_h_k = 0.3 * 1.0 * 3.6;
  const double melt_h = latent_kj / (kj_h_k * 31);
  const auto thawed = trip.told(EventKind::thawed);
  ASSERT_EQ(thawed.size(), 1U);
  EXPECT_NEAR(trip_hour(thawed.front()), melt_h, 1e-6);
  // Then it warms by T = Ta + (T0 - Ta) exp(-UA t / C); four hours above 5 °C, and it is lost.
  const double kj_k = 6 * (4.19 * 0.73 + 0.84 * 0.27);
  const double to_5c_h = std::log(31.0 / 25.0) * kj_k / kj_h_k;
  const auto lost = trip.told(EventKind::thrown_away);
  ASSERT_EQ(lost.size(), 1U);
  EXPECT_NEAR(trip_hour(lost.front()), melt_h + to_5c_h + 4, 0.02);
  EXPECT_NEAR(lost.front().amount, 24, 1e-9);
  EXPECT_NEAR(trip.sum(&ReserveDay::lost, "food"), 24, 1e-9);
  EXPECT_NEAR(trip.reserve(trip.days() - 1, "food").end, 0, 1e-9);
}

TEST(ChilledFood, IsThrownAwayFourHoursAfterTheCabinetPassesFiveDegrees) {
  const Trip trip = travel(
      dead_chest("{item: milk, kept: chilled, mass: 10 kg, water: 90 %, meals: 9, kind: dairy}"));
  // Cabinet left off: T = Ta + (T0 - Ta) exp(-UA t / C), with 0.1 kJ/K of liner per litre.
  const double kj_k = 10 * (4.19 * 0.9 + 0.84 * 0.1) + 0.1 * 45;
  const double to_5c_h = std::log(26.0 / 25.0) * kj_k / 3.6;
  const auto lost = trip.told(EventKind::thrown_away);
  ASSERT_EQ(lost.size(), 1U);
  EXPECT_NEAR(trip_hour(lost.front()), to_5c_h + 4, 1e-6);
  const auto soon = trip.told(EventKind::use_now);
  ASSERT_EQ(soon.size(), 1U);
  EXPECT_NEAR(trip_hour(soon.front()), to_5c_h + 2, 1e-6);
}

TEST(ChilledFood, SpoilsOnTheDayTheSquareRootModelGives) {
  PlanText plan;
  plan.people = {nobody_eats};
  plan.places = {PlanText::place("Base", "air", "mains: {}")};
  plan.batteries = {"{name: bank, kind: agm, capacity: 200 Ah}"};
  plan.charging = {"{name: lead, mains: 20 A}"};
  plan.cold = {
      "{name: chest, volume: 45 L, set_point: 0 °C, rated: {draw: 10 W, ambient: 32 °C, "
      "inside: 4 °C}}"};
  plan.food = {
      "{item: fish, kept: chilled, mass: 4 kg, meals: 12, keeps: {for: 21 days, at: 5 °C}}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 50}"};
  const auto lost = travel(plan).told(EventKind::spoiled);
  ASSERT_EQ(lost.size(), 1U);
  // 21 days at 5 °C are 47.2 at 0 °C (square-root spoilage model, worked figure published by DTU).
  EXPECT_NEAR(trip_hour(lost.front()) / 24, 47.2, 0.1);
  EXPECT_NEAR(trip_hour(lost.front()) / 24, 21 * 1.5 * 1.5, 1e-6);
}

PlanText flat_leg(const std::string& vehicle_more) {
  PlanText plan;
  plan.people = {
      "{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: male, observed: {drinking: 0 L/day, "
      "meals: 0}}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 3000 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]" +
      vehicle_more + "}"};
  plan.places.push_back(PlanText::place("There", "air"));
  plan.itinerary = {"{at: Base}",
                    "drive: {to: There, distance: 200 km, surfaces: sealed, speed: 72 km/h}"};
  return plan;
}

TEST(FuelOfAFlatLeg, IsTheUsersOwnFigureTimesTheDistance) {
  const Trip trip = travel(flat_leg(", observed: [{surface: sealed, uses: 10 L/100km}]"));
  EXPECT_NEAR(trip.sum(&ReserveDay::used, "fuel:truck"), 20, 1e-9);
}

TEST(FuelOfAFlatLeg, IsTheHandSumAtTheMeanMass) {
  const Trip trip = travel(flat_leg(", drag_area: 1.4 m2, idle: 0 L/h, engine_efficiency: 30 %"));
  const double density = 101325 / (287.05 * 293.15);  // dry air of 20 °C at sea level (ICAO)
  const double drag_n = 0.5 * density * 1.4 * 20 * 20;
  const double rolling = 0.015;  // sealed (Gillespie)
  // Of the engine's work 85 % comes to the wheels.
  const auto litres = [&](double kg) {
    return (rolling * kg * 9.80665 + drag_n) * 200e3 / (0.30 * 0.85 * 35.8e6);
  };
  const double full_kg = 3000 + 70 + 80 * 0.835;
  const double used = trip.sum(&ReserveDay::used, "fuel:truck");
  const double mean_kg = full_kg - used / 2 * 0.835;
  // The mass is taken at the start of each step.
  EXPECT_NEAR(used, litres(mean_kg), 5e-4 * used);
  EXPECT_LT(used, litres(full_kg));
}

}  // namespace
}  // namespace drystage
