// What `size` leaves of a plan: what is kept, which of the plan's own cans are used, and what new
// ones are like.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "support/size_of.h"

namespace drystage::answers::keep_test {
namespace {

using support::container_names;
using support::found;
using support::line_of;
using support::PlanText;
using support::size_of;
using support::taken;
using support::tank_names;
using ::testing::ElementsAre;

constexpr const char* twenties = "20 L container of drinking water";
constexpr const char* in_twenties = "size: {containers: {drinking: [20 L]}}";

std::string can(const std::string& name, const std::string& more = "") {
  return "{name: " + name + ", holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.5 kg" +
         more + "}";
}

/// One person who drinks 4 L a day, with such containers. A drop of drinking water must be left, so
/// that none is drunk from what is there for utility.
PlanText drinker(int days, std::vector<std::string> containers) {
  PlanText plan;
  plan.margins = {"drinking_water: 0.01 L"};
  plan.containers = std::move(containers);
  plan.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(days) + "}"};
  return plan;
}

TEST(SizeKeeps, ThePlansOwnCansBeforeNewOnes) {
  const Sizing sizing =
      size_of(drinker(19, {can("can 1"),
                           "{name: can 2, holds: 20 L, filled: 5 L, for: drinking, "
                           "empty_mass: 1.5 kg}",
                           "{name: wash tank, holds: 50 L, filled: 50 L, for: utility}"}),
              in_twenties);
  const plan::Plan& plan = found(sizing).plan;
  EXPECT_THAT(container_names(plan), ElementsAre("can 1", "can 2", "can 3", "can 4", "wash tank"));
  // Everything that is sized is full; the plan's own weigh what they weigh, new ones the usual.
  for (std::size_t c = 0; c < 4; ++c) {
    EXPECT_EQ(plan.water.containers[c].filled_l, 20);
    EXPECT_DOUBLE_EQ(plan.water.containers[c].empty_kg, c < 2 ? 1.5 : 1.2);
  }
  EXPECT_NEAR(line_of(found(sizing), twenties).kg, 4 * 20 + 2 * 1.5 + 2 * 1.2, 1e-9);
  EXPECT_NEAR(line_of(found(sizing), twenties).plan_kg, 25 + 2 * 1.5, 1e-9);
}

TEST(SizeKeeps, WhatIsTooManyIsTakenOutFromTheEnd) {
  const Sizing sizing = size_of(
      drinker(9, {can("red"), can("green"), can("blue"), can("old"), can("older")}), in_twenties);
  EXPECT_THAT(container_names(found(sizing).plan), ElementsAre("red", "green"));
  EXPECT_EQ(line_of(found(sizing), twenties).plan_amount, 5);
}

TEST(SizeKeeps, ANewCanHasANameThatNothingElseHas) {
  const Sizing sizing =
      size_of(drinker(14, {can("can 1"), "{name: can 2, holds: 15 L, filled: 15 L, for: utility}",
                           "{name: can 4, holds: 15 L, filled: 15 L, for: utility}"}),
              in_twenties);
  EXPECT_THAT(container_names(found(sizing).plan),
              ElementsAre("can 1", "can 3", "can 5", "can 2", "can 4"));
}

TEST(SizeKeeps, ANewCanOfWhichThePlanHasNoneIsNamedByItsUse) {
  PlanText plan =
      drinker(9, {can("can 1"), "{name: tub, holds: 40 L, filled: 40 L, for: utility}"});
  plan.utility_use = {"washing: 6 L/day"};
  const Sizing sizing = size_of(
      plan,
      "size: {containers: {drinking: [{holds: 25 L, most: 2, empty_mass: 1 kg}], utility: [10 "
      "L]}}");
  const std::vector<std::string> names = container_names(found(sizing).plan);
  EXPECT_TRUE(std::ranges::find(names, "utility container 1") != names.end());
  EXPECT_TRUE(std::ranges::find(names, "utility container 2") != names.end());
  EXPECT_EQ(std::ranges::count_if(
                found(sizing).plan.water.containers,
                [](const plan::Container& each) { return each.use == plan::WaterUse::utility; }),
            3);
}

TEST(SizeKeeps, ANewCanStandsWhereTheOneThatItIsLikeDoes) {
  PlanText plan = drinker(9, {can("can 1", ", at: 2.6 m"), can("spare 7 L jug")});
  plan.containers.back() = "{name: jug, holds: 7 L, filled: 7 L, for: drinking}";
  const Sizing sizing = size_of(plan, "size: {containers: {drinking: [20 L]}, keep: jug}");
  const std::vector<plan::Container>& containers = found(sizing).plan.water.containers;
  ASSERT_THAT(container_names(found(sizing).plan), ElementsAre("can 1", "can 2", "jug"));
  EXPECT_EQ(containers[1].spot.at_m, 2.6);
}

TEST(SizeKeeps, WhatIsOpenedLastStays) {
  // 36 L are wanted, and two cans of 20 L would do.
  const Sizing sizing =
      size_of(drinker(9, {can("can 1"),
                          "{name: spare, holds: 10 L, filled: 10 L, for: drinking, "
                          "empty_mass: 0.7 kg, opened: last}"}),
              in_twenties);
  EXPECT_THAT(container_names(found(sizing).plan), ElementsAre("can 1", "can 2", "spare"));
  EXPECT_TRUE(line_of(found(sizing), "spare").kept);
  EXPECT_TRUE(found(sizing).plan.water.containers[2].opened_last);
}

TEST(SizeKeeps, CansOfNoSizeOnOfferAreUsedAndNoMoreOfThemTaken) {
  const Sizing sizing = size_of(
      drinker(8, {"{name: flask 1, holds: 15 L, filled: 15 L, for: drinking, empty_mass: 0.1 "
                  "kg}",
                  "{name: flask 2, holds: 15 L, filled: 15 L, for: drinking, empty_mass: 0.1 "
                  "kg}"}),
      in_twenties);
  EXPECT_EQ(taken(sizing, "15 L container of drinking water"), 1);
  EXPECT_EQ(taken(sizing, twenties), 1);
}

TEST(SizeKeeps, WhatIsPinnedStaysAsItIsAndIsCountedOn) {
  const PlanText plan =
      drinker(9, {can("can 1"),
                  "{name: can 2, holds: 20 L, filled: 8 L, for: drinking, empty_mass: "
                  "1.5 kg}",
                  can("can 3"), can("can 4")});
  const Sizing sizing = size_of(plan, "size: {containers: {drinking: [20 L]}, keep: can 2}");
  const plan::Plan& sized = found(sizing).plan;
  // 36 L: 8 L are there, so two more.
  EXPECT_THAT(container_names(sized), ElementsAre("can 1", "can 2", "can 3"));
  EXPECT_EQ(sized.water.containers[1].filled_l, 8);
  const SizedLine& line = line_of(found(sizing), "can 2");
  EXPECT_TRUE(line.kept);
  EXPECT_EQ(line.detail, "with 8 L");
  EXPECT_FALSE(line.one_fewer);
  EXPECT_FALSE(line_of(found(sizing), twenties).kept);
}

TEST(SizeKeeps, WhatAMishapOfThePlansOwnLosesStays) {
  PlanText plan = drinker(9, {can("can 1"), can("can 2"), can("can 3"), can("can 4")});
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: "
      "90 L}, {name: jerry 1, holds: 20 L, filled: 20 L, empty_mass: 4 kg}, {name: jerry 2, holds: "
      "20 L, filled: 20 L, empty_mass: 4 kg}]}"};
  const Sizing sizing =
      size_of(plan,
              "size: {containers: {drinking: [20 L]}, fuel_cans: {truck: [20 L]}}\nmishaps: "
              "{own: [{name: fall, loses: [can 4, jerry 2]}]}");
  const plan::Plan& sized = found(sizing).plan;
  EXPECT_THAT(container_names(sized), ElementsAre("can 1", "can 4"));
  EXPECT_THAT(tank_names(sized), ElementsAre("tank", "jerry 2"));
  // The mishap still means the same things, which stand elsewhere now.
  ASSERT_EQ(sized.mishaps.own.size(), 1U);
  EXPECT_THAT(sized.mishaps.own[0].containers, ElementsAre(1));
  ASSERT_EQ(sized.mishaps.own[0].tanks.size(), 1U);
  EXPECT_EQ(sized.mishaps.own[0].tanks[0].tank, 1);
  EXPECT_THAT(sizing.remarks, ::testing::Contains(::testing::HasSubstr("fall")));
}

TEST(SizeKeeps, WhatIsNotListedStays) {
  PlanText plan = drinker(5, {can("can 1"), can("can 2"), can("can 3")});
  plan.batteries = {"{name: bank, kind: agm, capacity: 300 Ah}"};
  plan.loads = {"{name: lamp, draw: 2 W}"};
  const plan::Plan whole =
      support::with_sections(plan, "size: {batteries: {bank: [30 Ah, 50 Ah]}}");
  const Sizing sizing = size_of(whole);
  EXPECT_EQ(found(sizing).plan.water.containers.size(), 3U);
  EXPECT_EQ(found(sizing).plan.food.front().meals, whole.food.front().meals);
  EXPECT_EQ(found(sizing).lines.size(), 1U);
  EXPECT_EQ(taken(sizing, "bank"), 50);  // 20 Ah are drawn, of which 30 Ah has but 15
}

TEST(SizeKeeps, NothingOfTheTrip) {
  PlanText plan = drinker(9, {can("can 1")});
  const Sizing sizing = size_of(plan, in_twenties);
  const plan::Plan before = plan.plan();
  EXPECT_EQ(found(sizing).plan.itinerary.size(), before.itinerary.size());
  EXPECT_EQ(found(sizing).plan.people.size(), before.people.size());
  EXPECT_FALSE(found(sizing).plan.size.lists_offers());
}

}  // namespace
}  // namespace drystage::answers::keep_test
