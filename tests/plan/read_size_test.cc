#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan/size.h"
#include "plan_text.h"

namespace drystage::plan {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Optional;
using ::testing::SizeIs;

constexpr double us_gal_l = 3.785411784;  // 231 cubic inches, by definition

// What is read of it; fails when the plan is not right.
Size size(const std::string& section) {
  const ReadPlan reading = with_size(section);
  EXPECT_TRUE(reading.plan.has_value()) << section << all_of(reading);
  return reading.plan ? reading.plan->size : Size{};
}

std::vector<std::string> full_names(const std::vector<Item>& items) {
  std::vector<std::string> made;
  for (const Item& item : items) made.push_back(item.full_name);
  return made;
}

void expect_usual(const VesselOffer& offer, double holds) {
  EXPECT_DOUBLE_EQ(offer.holds, holds);
  EXPECT_FALSE(offer.empty_kg.has_value());
  EXPECT_FALSE(offer.cost.has_value());
  EXPECT_FALSE(offer.space_l.has_value());
  EXPECT_FALSE(offer.most.has_value());
  EXPECT_FALSE(offer.vehicle.has_value());
  EXPECT_GT(offer.mark.line, 0);
}

// As it stands in the whole plan.
Size whole_size() {
  const ReadPlan reading = read_text(whole_plan());
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
  return reading.plan ? reading.plan->size : Size{};
}

TEST(Size, HasContainersOfTheWholePlan) {
  const Size read = whole_size();
  ASSERT_THAT(read.drinking, SizeIs(2));
  expect_usual(read.drinking[0], 20);
  const VesselOffer& can = read.drinking[1];
  EXPECT_NEAR(can.holds, 2.5 * us_gal_l, 1e-9);
  EXPECT_THAT(can.empty_kg, Optional(0.7));
  EXPECT_THAT(can.cost, Optional(18.0));
  EXPECT_THAT(can.space_l, Optional(13.0));
  EXPECT_THAT(can.most, Optional(6));
  EXPECT_THAT(can.vehicle, Optional(1));
  ASSERT_THAT(read.utility, SizeIs(1));
  EXPECT_DOUBLE_EQ(read.utility[0].holds, 15);
  EXPECT_THAT(read.utility[0].most, Optional(2));
}

TEST(Size, HasCansAndTanksOfTheWholePlan) {
  const Size read = whole_size();
  ASSERT_THAT(read.fuel_cans, SizeIs(1));
  EXPECT_EQ(read.fuel_cans[0].vehicle, 0);
  ASSERT_THAT(read.fuel_cans[0].cans, SizeIs(2));
  expect_usual(read.fuel_cans[0].cans[0], 20);
  const VesselOffer& can = read.fuel_cans[0].cans[1];
  EXPECT_DOUBLE_EQ(can.holds, 10);
  EXPECT_THAT(can.empty_kg, Optional(2.5));
  EXPECT_THAT(can.cost, Optional(40.5));
  EXPECT_THAT(can.space_l, Optional(12.0));
  EXPECT_THAT(can.most, Optional(4));
  EXPECT_FALSE(can.vehicle.has_value());

  ASSERT_THAT(read.tanks, SizeIs(1));
  EXPECT_EQ(read.tanks[0].tank, (Item{Item::Sort::tank, 0, 0, "main tank", "truck/main tank"}));
  ASSERT_THAT(read.tanks[0].sizes, SizeIs(2));
  expect_usual(read.tanks[0].sizes[0], 60);
  EXPECT_DOUBLE_EQ(read.tanks[0].sizes[1].holds, 110);
  EXPECT_THAT(read.tanks[0].sizes[1].empty_kg, Optional(8.0));
  EXPECT_THAT(read.tanks[0].sizes[1].cost, Optional(340.0));
  EXPECT_THAT(read.tanks[0].sizes[1].space_l, Optional(115.0));
}

TEST(Size, HasEquipmentOfTheWholePlan) {
  const Size read = whole_size();
  ASSERT_THAT(read.batteries, SizeIs(1));
  EXPECT_EQ(read.batteries[0].bank, 0);
  ASSERT_THAT(read.batteries[0].sizes, SizeIs(2));
  const BatteryOffer& usual = read.batteries[0].sizes[0];
  EXPECT_DOUBLE_EQ(usual.capacity_ah, 75);
  EXPECT_FALSE(usual.kind || usual.mass_kg || usual.cost || usual.space_l);
  const BatteryOffer& lithium = read.batteries[0].sizes[1];
  EXPECT_DOUBLE_EQ(lithium.capacity_ah, 100);
  EXPECT_THAT(lithium.kind, Optional(BatteryKind::lfp));
  EXPECT_THAT(lithium.mass_kg, Optional(12.0));
  EXPECT_THAT(lithium.cost, Optional(900.0));
  EXPECT_THAT(lithium.space_l, Optional(9.0));

  ASSERT_THAT(read.panels, SizeIs(1));
  EXPECT_EQ(read.panels[0].charger, 1);
  ASSERT_THAT(read.panels[0].sizes, SizeIs(2));
  EXPECT_DOUBLE_EQ(read.panels[0].sizes[0].power_w, 0);
  EXPECT_FALSE(read.panels[0].sizes[0].mass_kg || read.panels[0].sizes[0].cost);
  EXPECT_DOUBLE_EQ(read.panels[0].sizes[1].power_w, 200);
  EXPECT_THAT(read.panels[0].sizes[1].mass_kg, Optional(13.0));
  EXPECT_THAT(read.panels[0].sizes[1].cost, Optional(190.0));

  ASSERT_THAT(read.cabinets, SizeIs(1));
  EXPECT_EQ(read.cabinets[0].cabinet, 0);
  ASSERT_THAT(read.cabinets[0].sizes, SizeIs(2));
  const CabinetOffer& small = read.cabinets[0].sizes[0];
  EXPECT_DOUBLE_EQ(small.volume_l, 35);
  EXPECT_FALSE(small.rated_draw_w || small.mass_kg || small.cost || small.space_l);
  const CabinetOffer& large = read.cabinets[0].sizes[1];
  EXPECT_DOUBLE_EQ(large.volume_l, 50);
  EXPECT_THAT(large.rated_draw_w, Optional(12.0));  // 1 A at 12 V
  EXPECT_THAT(large.mass_kg, Optional(18.0));
  EXPECT_THAT(large.cost, Optional(700.0));
  EXPECT_THAT(large.space_l, Optional(95.0));
}

TEST(Size, HasFoodLimitsAndWhatIsKeptOfTheWholePlan) {
  const Size read = whole_size();
  ASSERT_THAT(read.food, SizeIs(2));
  const FoodOffer& dry = read.food[0];
  EXPECT_EQ(dry.item, "dry stores");
  EXPECT_DOUBLE_EQ(dry.meals_day, 6);
  EXPECT_THAT(dry.kg_day, Optional(1.8));
  EXPECT_THAT(dry.cost, Optional(14.0));
  EXPECT_THAT(dry.space_l, Optional(4.0));
  EXPECT_THAT(dry.most_days, Optional(21));
  const FoodOffer& biscuits = read.food[1];
  EXPECT_EQ(biscuits.item, "biscuits");
  EXPECT_DOUBLE_EQ(biscuits.meals_day, 3);
  EXPECT_FALSE(biscuits.kg_day || biscuits.cost || biscuits.space_l || biscuits.most_days);
  EXPECT_GT(biscuits.mark.line, dry.mark.line);

  EXPECT_THAT(read.limits.mass_kg, ElementsAre(Optional(3400.0), std::nullopt));
  EXPECT_THAT(read.limits.space_l, Optional(300.0));
  EXPECT_THAT(read.limits.budget, Optional(800.0));
  EXPECT_THAT(full_names(read.keep), ElementsAre("cold/ice box", "batteries/rig battery"));
  EXPECT_TRUE(read.lists_offers());
}

TEST(Size, ListsNothingWhenNothingIsSaid) {
  for (const char* section : {"", "size:\n", "size: {}\n", "size: {limits: {}, keep: []}\n",
                              "size: {limits: {mass: {}}}\n"}) {
    const ReadPlan reading = with_size(section);
    ASSERT_TRUE(reading.plan.has_value()) << section << all_of(reading);
    EXPECT_THAT(reading.diagnostics, IsEmpty()) << all_of(reading);
    const Size& read = reading.plan->size;
    EXPECT_FALSE(read.lists_offers());
    EXPECT_THAT(read.limits.mass_kg, ElementsAre(std::nullopt, std::nullopt));
    EXPECT_FALSE(read.limits.space_l || read.limits.budget);
    EXPECT_THAT(read.keep, IsEmpty());
  }
}

TEST(Size, MayHaveOneLimitOfMassWhereThereIsOneVehicle) {
  std::string text = whole_plan_with("mass: {truck: 3400 kg}", "mass: 3400 kg");
  EXPECT_THAT(read_text(text).diagnostics, SizeIs(1));
  // With the other vehicle gone, and all that belongs to it, the short form is right.
  const ReadPlan reading = read_text(
      "drystage: 1\n"
      "trip: {title: A, start: 2027-02-08, time_zone: \"+00:00\"}\n"
      "margins: {drinking_water: 1 L, fuel: 1 L}\n"
      "people: [{name: Ines, mass: 62 kg, height: 168 cm, age: 34, sex: female}]\n"
      "vehicles: [{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: "
      "80 L, filled: 80 L}]}]\n"
      "climate: {air: {feb: {max: 22 °C, min: 7 °C, humidity: 30 %, sun: 5 kWh/m2/day}}}\n"
      "places: {Base: {at: {latitude: 0°, longitude: 0°, elevation: 0 m}, climate: air}}\n"
      "itinerary: [{at: Base}]\n"
      "size: {limits: {mass: 2.5 t}}\n");
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_THAT(reading.plan->size.limits.mass_kg, ElementsAre(Optional(2500.0)));
}

TEST(Size, MayOfferOneSizeInTwoVehiclesOrOfTwoKinds) {
  const Size read = size(
      "size: {containers: {drinking: [{holds: 20 L, in: truck}, {holds: 20 L, in: trailer "
      "rig}]}, batteries: {camp battery: [{capacity: 75 Ah, kind: lfp}, 75 Ah]}}\n");
  EXPECT_THAT(read.drinking, SizeIs(2));
  EXPECT_THAT(read.batteries.at(0).sizes, SizeIs(2));
}

TEST(Size, ReadsADrawInAmperesAtTheVoltageOfTheCabinetsBattery) {
  const Size read = size("size: {cabinets: {freezer drawer: [{volume: 25 L, rated: 0.5 A}]}}\n");
  EXPECT_THAT(read.cabinets.at(0).sizes.at(0).rated_draw_w, Optional(12.0));  // at 24 V
}

TEST(Size, HasOtherSizesOfAContainerUnderItsShortOrFullName) {
  for (const char* name : {"body tank", "water/body tank"}) {
    const Size read = size(fmt::format("size: {{tanks: {{{}: [60 L, 3 L]}}}}\n", name));
    ASSERT_THAT(read.tanks, SizeIs(1));
    EXPECT_EQ(read.tanks[0].tank,
              (Item{Item::Sort::container, 0, -1, "body tank", "water/body tank"}));
    ASSERT_THAT(read.tanks[0].sizes, SizeIs(2));
    expect_usual(read.tanks[0].sizes[1], 3);
  }
}

TEST(Size, LetsATankBeACanAndAnIceBoxChange) {
  const Size read = size(
      "size: {tanks: {jerry 1: [10 L, 20 L]}, cabinets: {ice box: [{volume: 40 L, mass: 5 "
      "kg}]}}\n");
  EXPECT_EQ(read.tanks.at(0).tank.full_name, "truck/jerry 1");
  EXPECT_EQ(read.cabinets.at(0).cabinet, 2);
}

TEST(Size, KeepsOneThingByNameAlone) {
  EXPECT_THAT(full_names(size("size: {keep: water/can 1}\n").keep), ElementsAre("water/can 1"));
}

}  // namespace
}  // namespace drystage::plan
