// Every reserve pulls on the others.
#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

/// A week at one place with a chest, a battery and people who sweat.
PlanText week(double max_c, double min_c) {
  PlanText plan;
  plan.people = {PlanText::person("Ada", ""), PlanText::person("Ben", "")};
  plan.climate = {PlanText::climate_of("air", max_c, min_c, "30 %", "5 kWh/m2/day")};
  plan.containers = {"{name: can, holds: 100 L, filled: 100 L, for: drinking}"};
  plan.batteries = {"{name: bank, kind: agm, capacity: 300 Ah, cut_off: 0 %, floor: 0 %}"};
  plan.cold = {
      "{name: chest, volume: 45 L, set_point: 3 °C, rated: {draw: 11 W, ambient: 32 °C, "
      "inside: 4 °C}, frozen_below: {barrier: 0.35 W/K}}"};
  plan.food = {
      "{item: lamb, kept: frozen, mass: 6 kg, meals: 24}",
      // Said, lest it be taken for raw mince, which goes off before its hours are over.
      "{item: salad, kept: chilled, mass: 6 kg, meals: 18, keeps: {for: 8 days, at: 4 °C}}",
      "{item: rice, kept: dry, meals: 60}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 7}"};
  return plan;
}

TEST(Coupling, AHotterWeekEmptiesTheWaterSoonerAndDrainsTheBattery) {
  const Trip mild = travel(week(25, 12));
  const Trip hot = travel(week(42, 26));
  EXPECT_GT(hot.sum(&ReserveDay::used, "drinking_water"),
            1.3 * mild.sum(&ReserveDay::used, "drinking_water"));
  EXPECT_LT(hot.reserve(6, "drinking_water").endurance,
            mild.reserve(6, "drinking_water").endurance);
  // The load is the compressor alone: more charge used is more hours of duty.
  EXPECT_GT(hot.sum(&ReserveDay::used, "battery:bank"),
            1.5 * mild.sum(&ReserveDay::used, "battery:bank"));
  EXPECT_LT(hot.reserve(6, "battery:bank").end, mild.reserve(6, "battery:bank").end);
}

TEST(Coupling, ABatteryAtCutOffStopsTheCabinetAndTheFoodReserveFalls) {
  PlanText plan = week(42, 26);
  plan.batteries = {"{name: bank, kind: agm, capacity: 40 Ah, cut_off: 40 %, floor: 50 %}"};
  const Trip trip = travel(plan);
  const auto cut = trip.told(EventKind::cut_off);
  const auto thawed = trip.told(EventKind::thawed);
  const auto lost = trip.told(EventKind::thrown_away);
  ASSERT_EQ(cut.size(), 1U);
  ASSERT_EQ(thawed.size(), 1U);
  ASSERT_EQ(lost.size(), 2U);
  EXPECT_LT(support::trip_hour(cut.front()), support::trip_hour(thawed.front()));
  EXPECT_LT(support::trip_hour(cut.front()) + 4, support::trip_hour(lost.front()));
  EXPECT_GT(trip.outlook("cold:chest").lowest, 20);
  EXPECT_GT(trip.sum(&ReserveDay::lost, "food"), 20);
  EXPECT_EQ(travel(week(42, 26)).sum(&ReserveDay::lost, "food"), 0);
}

PlanText with_charger(const std::string& second_day) {
  PlanText plan;
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, filled: 60 %}"};
  plan.charging = {"{name: DC-DC, current: 20 A, while: driving}"};
  plan.places.push_back(PlanText::place("There", "air"));
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}", second_day};
  return plan;
}

TEST(Coupling, ADayWithoutDrivingChargesNothingFromTheEngine) {
  const Trip trip =
      travel(with_charger("drive: {to: There, distance: 60 km, surfaces: sealed, speed: 60 km/h}"));
  EXPECT_EQ(trip.reserve(0, "battery:bank").gained, 0);
  EXPECT_NEAR(trip.reserve(1, "battery:bank").gained, 20, 1e-9);
  EXPECT_NEAR(trip.reserve(1, "battery:bank").lost, 20 * 0.05, 1e-9);
}

TEST(Coupling, WaterUsedLightensTheTruckAndTheNextLegUsesLessFuel) {
  PlanText plan;
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  plan.places.push_back(PlanText::place("There", "air"));
  plan.containers = {"{name: tank, holds: 300 L, filled: 300 L, for: utility}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 5}",
                    "drive: {to: There, distance: 300 km, surfaces: gravel}"};
  const Trip heavy = travel(plan);
  plan.utility_use = {"washing: 50 L/day"};
  const Trip light = travel(plan);
  const double saved =
      heavy.sum(&ReserveDay::used, "fuel:truck") - light.sum(&ReserveDay::used, "fuel:truck");
  // 250 kg less to roll at 0.028 over 300 km, at the usual efficiency of a diesel; the hours of the
  // last day before and during the drive take some more.
  const double by_hand = 250 * 9.80665 * 0.028 * 300e3 / (0.24 * 35.8e6);
  EXPECT_GT(saved, by_hand);
  EXPECT_LT(saved, by_hand * 1.2);
}

TEST(Coupling, SpoiltFoodNoLongerWeighsOrIsEaten) {
  PlanText plan = week(40, 30);
  plan.food = {
      "{item: salad, kept: chilled, mass: 6 kg, meals: 60, keeps: {for: 2 days, at: 4 °C}}"};
  const Trip trip = travel(plan);
  ASSERT_EQ(trip.told(EventKind::spoiled).size(), 1U);
  EXPECT_GT(trip.sum(&ReserveDay::short_of, "food"), 0);
  EXPECT_NEAR(trip.store(6, "salad").end, 0, 1e-12);
}

}  // namespace
}  // namespace drystage
