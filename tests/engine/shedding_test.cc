// What happens to the loads as a bank runs down.
#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::Event;
using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;
using support::trip_hour;

/// A bank of 100 Ah at 25 °C with a floor of 60 % and a cut-off of 40 %, and 4 A on it.
PlanText draining() {
  PlanText plan;
  plan.climate = {PlanText::steady_climate("air", 25)};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, floor: 60 %, cut_off: 40 %}"};
  plan.loads = {"{name: fan, draw: 12 W, shed: 1}", "{name: radio, draw: 12 W, shed: 2}",
                "{name: lamp, draw: 24 W}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 4}"};
  return plan;
}

TEST(Shedding, GoesInTheUsersOrderBetweenFloorAndCutOff) {
  const Trip trip = travel(draining());
  const auto shed = trip.told(EventKind::shed);
  const auto cut = trip.told(EventKind::cut_off);
  ASSERT_EQ(shed.size(), 2U);
  ASSERT_EQ(cut.size(), 1U);
  EXPECT_EQ(trip.plan.power.loads[static_cast<std::size_t>(shed[0].subject)].name, "fan");
  EXPECT_EQ(trip.plan.power.loads[static_cast<std::size_t>(shed[1].subject)].name, "radio");
  // 40 Ah above the floor at 4 A; 10 Ah more, half way to the cut-off, at 3 A; the last 10 at 2 A.
  EXPECT_NEAR(trip_hour(shed[0]), 40 / 4.0, 1e-6);
  EXPECT_NEAR(trip_hour(shed[1]), 40 / 4.0 + 10 / 3.0, 1e-6);
  EXPECT_NEAR(trip_hour(cut[0]), 40 / 4.0 + 10 / 3.0 + 10 / 2.0, 1e-6);
}

TEST(Shedding, TheLevelStaysAtTheCutOffWhenNothingIsNeverShed) {
  const Trip trip = travel(draining());
  EXPECT_NEAR(trip.reserve(3, "battery:bank").end, 40, 1e-9);
  EXPECT_NEAR(trip.outlook("battery:bank").lowest, 40, 1e-9);
}

TEST(Shedding, WhatIsNeverShedGoesOnToTheLastAndThenThereIsALoudWarning) {
  PlanText plan = draining();
  plan.loads.emplace_back("{name: breathing aid, draw: 12 W, never_shed: yes}");
  const Trip trip = travel(plan);
  const auto unserved = trip.told(EventKind::vital_unserved);
  ASSERT_FALSE(unserved.empty());
  const auto cut = trip.told(EventKind::cut_off);
  ASSERT_EQ(cut.size(), 1U);
  // 40 Ah at 1 A after the cut-off.
  EXPECT_NEAR(trip_hour(unserved.front()), trip_hour(cut.front()) + 40, 1.0);
  EXPECT_EQ(trip.plan.power.loads[static_cast<std::size_t>(unserved.front().subject)].name,
            "breathing aid");
  EXPECT_NEAR(trip.outlook("battery:bank").lowest, 0, 1e-9);
  const double hours_without = 96 - trip_hour(cut.front()) - 40;
  EXPECT_NEAR(trip.sum(&ReserveDay::short_of, "battery:bank"), hours_without, 1e-6);
}

TEST(Shedding, TheWarningNamesNoLoadOfAnotherBank) {
  PlanText plan = draining();
  plan.batteries.emplace_back("{name: other, kind: agm, capacity: 300 Ah}");
  plan.loads.emplace_back("{name: breathing aid, draw: 12 W, never_shed: yes}");
  plan.loads.emplace_back("{name: beacon, draw: 1 W, never_shed: yes, on: other}");
  const Trip trip = travel(plan);
  for (const Event& event : trip.told(EventKind::vital_unserved)) {
    EXPECT_EQ(trip.plan.power.loads[static_cast<std::size_t>(event.subject)].name, "breathing aid");
  }
}

TEST(Shedding, ALongTimeWithoutPowerLosesNoEvent) {
  PlanText plan = draining();
  for (const char* name : {"breathing aid", "pump", "beacon"}) {
    plan.loads.push_back(std::string("{name: ") + name + ", draw: 12 W, never_shed: yes}");
  }
  plan.itinerary = {"{at: Base}", "stay: {nights: 60}"};
  EXPECT_EQ(travel(plan).record.events_dropped, 0U);
}

TEST(Shedding, AWeakPanelOnAFlatBankDoesNotFillTheRecordWithWarnings) {
  PlanText plan = draining();
  plan.climate = {PlanText::steady_climate("air", -7, "0.1 kWh/m2/day")};
  plan.batteries = {"{name: bank, kind: flooded, capacity: 20 Ah, filled: 0 %, cut_off: 0 %}"};
  plan.charging = {"{name: panel, solar: 20 W}"};
  plan.loads = {"{name: pump, energy: 77 Wh/day, never_shed: yes}",
                "{name: beacon, draw: 5 W, never_shed: yes}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 30}"};
  const Trip trip = travel(plan);
  EXPECT_EQ(trip.record.events_dropped, 0U);
  EXPECT_LE(trip.told(EventKind::vital_unserved).size(), 2U * 30U);
}

TEST(Shedding, ABankComesBackWhenItHasBeenChargedWellAboveItsCutOff) {
  PlanText plan = draining();
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 80 L}]}"};
  plan.charging = {"{name: DC-DC, current: 20 A, while: driving}"};
  plan.places.push_back(PlanText::place("There", "air"));
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: There, distance: 240 km, surfaces: sealed, speed: 60 km/h}",
                    "stay: {nights: 1}"};
  const Trip trip = travel(plan);
  const auto back = trip.told(EventKind::reconnected);
  ASSERT_EQ(back.size(), 1U);
  EXPECT_EQ(back.front().day, 1);
  // Half way up to the floor: 50 Ah. At 8:00 the drive begins; 19 Ah/h are stored.
  EXPECT_NEAR(back.front().hour, 9, 1e-9);
}

}  // namespace
}  // namespace drystage
