// What `size` answers as a whole: least mass or least cost, mishaps survived, supplies that nobody
// has confirmed, totals and remarks.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <string>
#include <utility>
#include <vector>

#include "support/size_of.h"
#include "support/trip.h"

namespace drystage::answers::size_test {
namespace {

using support::found;
using support::line_of;
using support::PlanText;
using support::size_of;
using support::taken;
using support::with_sections;
using ::testing::HasSubstr;

constexpr const char* twenties = "20 L container of drinking water";
constexpr const char* tens = "10 L container of drinking water";

/// One person who drinks 4 L a day for ten days.
PlanText ten_days() {
  PlanText plan;
  plan.containers = {"{name: can 1, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.2 kg}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 10}"};
  return plan;
}

TEST(Size, ChoosesByCostOtherwiseThanByMass) {
  const std::string offers =
      "size: {containers: {drinking: [{holds: 20 L, cost: 50}, {holds: 10 L, cost: 12}]}}";
  const Sizing light = size_of(ten_days(), offers);
  EXPECT_EQ(taken(light, twenties), 2);
  EXPECT_EQ(found(light).totals.cost, 100);
  EXPECT_TRUE(light.costs_given);
  const Sizing cheap = size_of(ten_days(), offers, {.least = Least::cost});
  EXPECT_EQ(taken(cheap, tens), 4);
  EXPECT_EQ(found(cheap).totals.cost, 48);
  EXPECT_GT(found(cheap).totals.kg, found(light).totals.kg);
  EXPECT_FALSE(size_of(ten_days(), "size: {containers: {drinking: [20 L]}}").costs_given);
}

TEST(Size, OfTwoThatWeighTheSameTheCheaperIsTaken) {
  // Two of 10 L weigh as much as one of 20 L.
  const auto twenties_for = [](const std::string& cost_of_ten) {
    PlanText plan = ten_days();
    plan.containers = {"{name: jug, holds: 5 L, filled: 5 L, for: drinking}"};
    return taken(size_of(plan,
                         "size: {containers: {drinking: [{holds: 20 L, empty_mass: 1 kg, cost: "
                         "30}, {holds: 10 L, empty_mass: 0.5 kg, cost: " +
                             cost_of_ten + "}]}, keep: jug}"),
                 twenties);
  };
  EXPECT_EQ(twenties_for("20"), 2);
  EXPECT_EQ(twenties_for("12"), 0);
}

TEST(Size, IsWhatTheSetItselfGivesWhenRun) {
  const Sizing sizing = size_of(ten_days(), "size: {containers: {drinking: [20 L]}}");
  const support::Trip again = support::travel(found(sizing).plan);
  EXPECT_TRUE(again.verdict.holds);
  EXPECT_TRUE(found(sizing).planned.verdict.holds);
  EXPECT_EQ(again.outlook("drinking_water").lowest,
            found(sizing).planned.verdict.reserves.at(0).lowest);
}

TEST(Size, SaysOfEachThingWhatOneFewerWouldDo) {
  const Sizing sizing =
      size_of(ten_days(), "size: {containers: {drinking: [20 L]}, food: {stores: 3 meals}}");
  const SizedLine& water = line_of(found(sizing), twenties);
  EXPECT_EQ(water.fewer, "1");
  ASSERT_TRUE(water.one_fewer && water.one_fewer->breach);
  EXPECT_EQ(water.one_fewer->breach->day, 5);  // 20 L are drunk after five days
  const SizedLine& food = line_of(found(sizing), "day of stores (3 meals)");
  EXPECT_EQ(food.fewer, "9");
  ASSERT_TRUE(food.one_fewer && food.one_fewer->breach);
  EXPECT_EQ(food.one_fewer->breach->day, 9);
  EXPECT_NEAR(food.one_fewer->breach->short_of, 3, 1e-6);
}

TEST(Size, SumsUpWhatItListsAndWhatThePlanHas) {
  PlanText plan = ten_days();
  plan.batteries = {"{name: bank, kind: agm, capacity: 200 Ah, mass: 60 kg}"};
  plan.loads = {"{name: lamp, draw: 2 W}"};
  plan.food = {"{item: stores, kept: dry, mass: 9 kg, meals: 45}"};
  const Sizing sizing = size_of(
      plan,
      "size: {containers: {drinking: [{holds: 20 L, cost: 20}]}, batteries: {bank: [{capacity: "
      "100 Ah, cost: 200, space: 13 L}, {capacity: 200 Ah, mass: 60 kg, cost: 380, space: 26 "
      "L}]}, food: {stores: {per_day: 3 meals, cost: 5}}}");
  Totals sum;
  for (const SizedLine& line : found(sizing).lines) {
    sum.kg += line.kg;
    sum.cost += line.cost;
    sum.space_l += line.space_l;
  }
  const Totals& totals = found(sizing).totals;
  EXPECT_NEAR(totals.kg, sum.kg, 1e-9);
  EXPECT_NEAR(totals.cost, sum.cost, 1e-9);
  EXPECT_NEAR(totals.space_l, sum.space_l, 1e-9);
  // Two containers, 100 Ah, ten days of food.
  EXPECT_NEAR(totals.kg, 2 * 21.2 + 30 + 10 * 0.6, 1e-6);
  EXPECT_NEAR(totals.cost, 2 * 20 + 200 + 10 * 5, 1e-9);
  EXPECT_NEAR(totals.space_l, 2 * 28 + 13 + 30, 1e-9);
  EXPECT_NEAR(sizing.plan_totals.kg, 21.2 + 60 + 9, 1e-6);
  EXPECT_NEAR(sizing.plan_totals.cost, 20 + 15 * 5, 1e-9);
}

TEST(Size, IsNotProofAgainstWhatCannotStrike) {
  // Nobody is stuck who never drives.
  const Sizing sizing =
      size_of(ten_days(), "size: {containers: {drinking: [20 L]}}",
              {.survive = std::vector{plan::MishapKind::stuck, plan::MishapKind::container}});
  ASSERT_TRUE(sizing.found);
  EXPECT_EQ(sizing.tried, std::vector{plan::MishapKind::container});
  const auto told = std::ranges::find_if(sizing.remarks, [](const std::string& remark) {
    return remark.find("not tried: stuck") != std::string::npos;
  });
  EXPECT_NE(told, sizing.remarks.end());
  const Sizing all = size_of(ten_days(), "size: {containers: {drinking: [20 L]}}",
                             {.survive = std::vector{plan::MishapKind::container}});
  EXPECT_EQ(all.remarks.size() + 1, sizing.remarks.size());
}

TEST(Size, ToSurviveAMishapTakesMore) {
  const std::string offers = "size: {containers: {drinking: [20 L]}}";
  const Sizing plain = size_of(ten_days(), offers);
  EXPECT_EQ(taken(plain, twenties), 2);
  // One container is lost with all that is in it, at worst in the first hour: 40 L must be left.
  const Sizing lost =
      size_of(ten_days(), offers, {.survive = std::vector{plan::MishapKind::container}});
  EXPECT_EQ(taken(lost, twenties), 3);
  ASSERT_TRUE(line_of(found(lost), twenties).one_fewer);
  EXPECT_EQ(line_of(found(lost), twenties).one_fewer->reason, Failing::Reason::mishap);
  // One more from the first day on drinks as much again by the model; nobody runs dry.
  const Sizing more =
      size_of(ten_days(), offers, {.survive = std::vector{plan::MishapKind::one_more}});
  EXPECT_GT(taken(more, twenties), 2);
  // Of no kind in particular: all that the plan does not leave out.
  const Sizing all = size_of(ten_days(), offers, {.survive = std::vector<plan::MishapKind>{}});
  EXPECT_GE(taken(all, twenties), std::max(taken(lost, twenties), taken(more, twenties)));
}

TEST(Size, OfMishapsThatThePlanLeavesOutNothingIsAsked) {
  const Sizing sizing = size_of(ten_days(),
                                "size: {containers: {drinking: [20 L]}}\nmishaps: {leave_out: "
                                "[container, one_more, heat_wave, "
                                "stuck]}",
                                {.survive = std::vector<plan::MishapKind>{}});
  EXPECT_EQ(taken(sizing, twenties), 2);
}

TEST(Size, SurvivesAMishapOfThePlansOwn) {
  PlanText plan = ten_days();
  plan.containers.emplace_back(
      "{name: glass, holds: 10 L, filled: 10 L, for: drinking, empty_mass: 1 kg}");
  const std::string sections =
      "size: {containers: {drinking: [20 L]}}\nmishaps: {own: [{name: glass breaks, loses: "
      "glass}]}";
  EXPECT_EQ(taken(size_of(plan, sections), twenties), 2);
  const Sizing kept = size_of(plan, sections, {.survive = std::vector{plan::MishapKind::own}});
  EXPECT_EQ(taken(kept, twenties), 2);  // 40 L beside it are enough without it
  EXPECT_TRUE(line_of(found(kept), "glass").kept);
}

/// Six days out and four on, with water to be had on the way that nobody has confirmed.
PlanText with_a_promise(const std::string& confirmed) {
  PlanText plan = ten_days();
  plan.margins = {"drinking_water: 2 L"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: "
      "90 L}]}"};
  plan.places = {PlanText::place("Base", "air"),
                 PlanText::place("Well", "air", "drinking_water: {confirmed: " + confirmed + "}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 6}",
                    "drive: {to: Well, distance: 40 km, surfaces: gravel}",
                    "resupply: {drinking_water: fill}", "stay: {nights: 6}"};
  return plan;
}

TEST(Size, CountsOnWhatNobodyHasConfirmedUnlessItIsToldNotTo) {
  const std::string offers = "size: {containers: {drinking: [20 L]}}";
  // To the well 24 to 28 L and 2 L, after it up to 24 L; 48 L in all.
  EXPECT_EQ(taken(size_of(with_a_promise("no"), offers), twenties), 2);
  const Sizing sure = size_of(with_a_promise("no"), offers, {.confirmed_only = true});
  EXPECT_EQ(taken(sure, twenties), 3);
  ASSERT_TRUE(line_of(found(sure), twenties).one_fewer);
  EXPECT_TRUE(line_of(found(sure), twenties).one_fewer->unconfirmed);
  EXPECT_EQ(taken(size_of(with_a_promise("yes"), offers, {.confirmed_only = true}), twenties), 2);
}

TEST(Size, RemarksOnWhatThePlanDoesNotWeigh) {
  PlanText plan = ten_days();
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  plan.loads = {"{name: lamp, draw: 2 W}"};
  plan.margins = {"drinking_water: 1 L"};
  const char* offers = "size: {batteries: {bank: [90 Ah, 100 Ah]}}";
  plan.containers.front().replace(plan.containers.front().find("holds: 20 L, filled: 20 L"), 25,
                                  "holds: 60 L, filled: 60 L");
  EXPECT_THAT(size_of(plan, offers).remarks, ::testing::Contains(HasSubstr("bank")));
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, mass: 28 kg}"};
  EXPECT_TRUE(size_of(plan, offers).remarks.empty());
}

TEST(Size, RemarksOnFoodThatThePlanDoesNotWeigh) {
  PlanText plan = ten_days();
  plan.food = {"{item: rice, kept: dry, meals: 60}"};
  EXPECT_THAT(size_of(plan, "size: {}").remarks,
              ::testing::Contains(HasSubstr("no mass is given for rice")));
  plan.food = {"{item: rice, kept: dry, meals: 60, mass: 30 kg}"};
  EXPECT_THAT(size_of(plan, "size: {}").remarks,
              ::testing::Not(::testing::Contains(HasSubstr("no mass is given for rice"))));
}

TEST(Size, StopsWhenItIsTold) {
  const support::Trip trip =
      support::travel(with_sections(ten_days(), "size: {containers: {drinking: [20 L]}}"));
  const std::atomic<bool> stop = true;
  const Sizing sizing = size_plan(trip, {}, {.stop = &stop});
  EXPECT_TRUE(sizing.stopped);
  EXPECT_FALSE(sizing.found);
}

TEST(Size, FindsTheSameEveryTime) {
  const support::Trip trip = support::travel(with_a_promise("no").plan());
  const Sizing first = size_plan(trip, {});
  for (int again = 0; again < 3; ++again) {
    const Sizing other = size_plan(trip, {});
    EXPECT_EQ(found(other).totals.kg, found(first).totals.kg);
    EXPECT_EQ(other.runs, first.runs);
    EXPECT_EQ(support::container_names(found(other).plan),
              support::container_names(found(first).plan));
  }
}

}  // namespace
}  // namespace drystage::answers::size_test
