// What a sized plan brings into the course: equipment that weighs, and margins with days added.
#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::MarginRule;
using support::PlanText;
using support::reserve_index;
using support::travel;
using support::Trip;

std::string vehicle(const std::string& name) {
  return "{name: " + name +
         ", fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 80 L, filled: 80 "
         "L}]}";
}

PlanText equipped() {
  PlanText plan;
  plan.vehicles = {vehicle("truck"), vehicle("rig")};
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}",
                     "{name: tank, holds: 60 L, filled: 60 L, for: utility}"};
  plan.utility_use = {"cooking: 2 L/day"};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}",
                    "{name: rig bank, kind: agm, capacity: 100 Ah, in: rig}"};
  plan.charging = {"{name: roof, solar: 100 W, on: rig bank, mass: 9 kg}"};
  plan.cold = {
      "{name: chest, volume: 40 L, set_point: 4 °C, rated: {draw: 10 W, ambient: 32 °C, inside: 4 "
      "°C}, on: rig bank, mass: 15 kg}"};
  return plan;
}

TEST(EquipmentMass, IsCarriedByTheVehicleOfTheCabinetAndOfThePanelsBattery) {
  const PlanText with = equipped();
  PlanText without = equipped();
  without.charging = {"{name: roof, solar: 100 W, on: rig bank}"};
  without.cold[0].replace(without.cold[0].find(", mass: 15 kg"), 13, "");
  const Trip heavy = travel(with);
  const Trip light = travel(without);
  const auto& loaded = heavy.course.vehicle_kg;
  const auto& empty = light.course.vehicle_kg;
  EXPECT_NEAR(loaded.at(0) - empty.at(0), 15, 1e-9);
  EXPECT_NEAR(loaded.at(1) - empty.at(1), 9, 1e-9);
  EXPECT_NEAR(empty.at(1), 2000, 1e-9);
}

Trip with_more_margin(const PlanText& text, double more_days) {
  const plan::Plan plan = text.plan();
  return {answers::run_plan(plan,
                            std::make_shared<const engine::Timeline>(engine::lay_timeline(plan)),
                            nullptr, more_days)};
}

MarginRule margin(const PlanText& text, const std::string& reserve, double more_days) {
  const Trip trip = with_more_margin(text, more_days);
  return trip.course.reserves[static_cast<std::size_t>(reserve_index(trip.course, reserve))].margin;
}

TEST(MoreMarginDays, AreAddedWhereAMarginIsInDays) {
  PlanText plan = equipped();
  plan.margins = {"drinking_water: 2 days", "food: 1 day"};
  EXPECT_DOUBLE_EQ(margin(plan, "drinking_water", 0).days, 2);
  EXPECT_DOUBLE_EQ(margin(plan, "drinking_water", 1.5).days, 3.5);
  EXPECT_DOUBLE_EQ(margin(plan, "drinking_water", -1).days, 1);
  EXPECT_DOUBLE_EQ(margin(plan, "food", 1).days, 2);
  EXPECT_DOUBLE_EQ(margin(plan, "utility_water", 1).days, 1);  // that has no margin
}

TEST(MoreMarginDays, NeverMakeAMarginLessThanNothing) {
  PlanText plan = equipped();
  plan.margins = {"drinking_water: 2 days"};
  EXPECT_DOUBLE_EQ(margin(plan, "drinking_water", -3).days, 0);
  EXPECT_DOUBLE_EQ(margin(plan, "food", -3).days, 0);
}

TEST(MoreMarginDays, ComeOnTopOfAnAmountOrAShare) {
  PlanText plan = equipped();
  plan.margins = {"drinking_water: 15 L", "utility_water: 25 %"};
  EXPECT_DOUBLE_EQ(margin(plan, "drinking_water", 2).fixed, 15);
  EXPECT_DOUBLE_EQ(margin(plan, "drinking_water", 2).days, 2);
  EXPECT_DOUBLE_EQ(margin(plan, "drinking_water", -2).fixed, 15);
  EXPECT_DOUBLE_EQ(margin(plan, "drinking_water", -2).days, 0);
  EXPECT_DOUBLE_EQ(margin(plan, "utility_water", 1).fixed, 15);
  EXPECT_DOUBLE_EQ(margin(plan, "utility_water", 1).days, 1);
  // 15 L, and twice the 4 L that are drunk in a day.
  EXPECT_NEAR(with_more_margin(plan, 2).reserve(0, "drinking_water").margin, 15 + 2 * 4, 1e-9);
}

TEST(MoreMarginDays, LeaveFuelBatteryAndColdAlone) {
  PlanText plan = equipped();
  plan.margins = {"fuel: 100 km", "battery: 2 days", "cold: 5 °C"};
  for (const char* reserve : {"fuel:truck", "battery:bank", "cold:chest"}) {
    const MarginRule own = margin(plan, reserve, 0);
    for (const double days : {-1.0, 3.0}) {
      const MarginRule changed = margin(plan, reserve, days);
      EXPECT_DOUBLE_EQ(changed.fixed, own.fixed) << reserve;
      EXPECT_DOUBLE_EQ(changed.days, own.days) << reserve;
      EXPECT_DOUBLE_EQ(changed.km, own.km) << reserve;
    }
  }
}

}  // namespace
}  // namespace drystage
