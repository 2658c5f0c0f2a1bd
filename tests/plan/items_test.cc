#include "plan/items.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan/packing.h"
#include "plan_text.h"

namespace drystage::plan {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

Plan whole() {
  ReadPlan reading = read_text(whole_plan());
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
  return reading.plan.value_or(Plan{});
}

std::vector<std::string> full_names(const std::vector<Item>& items) {
  std::vector<std::string> made;
  for (const Item& item : items) made.push_back(item.full_name);
  return made;
}

TEST(Items, AreAllThatHaveANameAndCanBeSized) {
  EXPECT_THAT(
      full_names(items_of(whole())),
      ElementsAre("water/body tank", "water/can 1", "water/sealed spare", "truck/main tank",
                  "truck/jerry 1", "trailer rig/tank", "batteries/camp battery",
                  "batteries/rig battery", "charging/roof panel", "cold/chest",
                  "cold/freezer drawer", "cold/ice box", "food/lamb", "food/fish",
                  "food/vegetables", "food/butter", "food/dry stores", "cooking gas/gas bottle",
                  "cooking gas/spare bottle", "engine oil/oil crate", "additive/additive can",
                  "insulin/insulin pens", "toilet cassette/cassette", "stove fuel/stove can",
                  "generator petrol/red can"));
}

TEST(Items, PointIntoTheListsOfThePlan) {
  const Plan plan = whole();
  const auto items = items_of(plan);
  ASSERT_THAT(items, SizeIs(25));
  EXPECT_EQ(items[2], (Item{Item::Sort::container, 2, -1, "sealed spare", "water/sealed spare"}));
  EXPECT_EQ(items[4], (Item{Item::Sort::tank, 1, 0, "jerry 1", "truck/jerry 1"}));
  EXPECT_EQ(items[5], (Item{Item::Sort::tank, 0, 1, "tank", "trailer rig/tank"}));
  EXPECT_EQ(items[7], (Item{Item::Sort::battery, 1, -1, "rig battery", "batteries/rig battery"}));
  // The second of the chargers is the only panel.
  EXPECT_EQ(items[8], (Item{Item::Sort::panel, 1, -1, "roof panel", "charging/roof panel"}));
  EXPECT_EQ(plan.power.chargers[1].name, "roof panel");
  EXPECT_EQ(items[10], (Item{Item::Sort::cabinet, 1, -1, "freezer drawer", "cold/freezer drawer"}));
  EXPECT_EQ(items[16], (Item{Item::Sort::food, 4, -1, "dry stores", "food/dry stores"}));
  EXPECT_EQ(items[18], (Item{Item::Sort::store, 1, 0, "spare bottle", "cooking gas/spare bottle"}));
}

Plan with_shared_names() {
  Plan plan;
  plan.water.containers.resize(3);
  plan.water.containers[0].name = "can";
  plan.water.containers[1].name = "bag";
  plan.water.containers[2].name = "can";  // an error of the plan's: not a thing of its own
  plan.vehicles.resize(2);
  plan.vehicles[0].name = "truck";
  plan.vehicles[1].name = "water";
  plan.vehicles[0].tanks.resize(1);
  plan.vehicles[0].tanks[0].name = "can";
  plan.vehicles[1].tanks.resize(1);
  plan.vehicles[1].tanks[0].name = "bag";
  return plan;
}

TEST(Items, OfOneSortAndNameAreOne) {
  const auto items = items_of(with_shared_names());
  EXPECT_THAT(full_names(items), ElementsAre("water/can", "water/bag", "truck/can", "water/bag"));
  EXPECT_EQ(items[0].index, 0);
  EXPECT_EQ(items[3].sort, Item::Sort::tank);
}

TEST(Items, AreCalledByShortOrFullName) {
  const auto items = items_of(with_shared_names());
  EXPECT_THAT(full_names(items_called(items, "can")), ElementsAre("water/can", "truck/can"));
  EXPECT_THAT(full_names(items_called(items, "truck/can")), ElementsAre("truck/can"));
  // A vehicle called "water" makes even the full names alike.
  EXPECT_THAT(items_called(items, "water/bag"), SizeIs(2));
  EXPECT_THAT(items_called(items, "truck/bag"), IsEmpty());
  EXPECT_THAT(items_called(items, ""), IsEmpty());
}

TEST(Items, HaveTheirShortestNameWhereNoOtherHasIt) {
  auto plan = with_shared_names();
  plan.power.banks.resize(1);
  plan.power.banks[0].name = "bank";
  EXPECT_THAT(shortest_names(items_of(plan)),
              ElementsAre("water/can", "water/bag", "truck/can", "water/bag", "bank"));
}

TEST(Packing, IsWhatACabinetHasToHold) {
  const Plan plan = whole();
  EXPECT_DOUBLE_EQ(packed_kg(plan, 0), 6 + 9);  // lamb and vegetables
  EXPECT_DOUBLE_EQ(packed_kg(plan, 1), 2);      // fish
  EXPECT_DOUBLE_EQ(packed_kg(plan, 2), 8 + 1);  // ice and butter
}

}  // namespace
}  // namespace drystage::plan
