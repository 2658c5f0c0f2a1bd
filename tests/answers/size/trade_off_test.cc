// What one more day of margin weighs.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "answers/size/ground.h"
#include "support/size_of.h"
#include "support/sizing.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using support::found;
using support::PlanText;
using support::taken;
using support::travel;
using support::with_sections;

constexpr const char* tens = "10 L container of drinking water";

/// One person who drinks 4 L and eats 3 meals a day, for ten days.
PlanText ten_days(std::vector<std::string> margins) {
  PlanText plan;
  plan.margins = std::move(margins);
  plan.containers = {"{name: can 1, holds: 10 L, filled: 10 L, for: drinking}"};
  plan.food = {"{item: stores, kept: dry, mass: 6 kg, meals: 30}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 10}"};
  return plan;
}

constexpr const char* offers = "size: {containers: {drinking: [10 L]}, food: {stores: 3 meals}}";

std::vector<TradeOff> rows_of(const plan::Plan& plan, const SizeOptions& options = {}) {
  const support::Trip trip = travel(plan);
  return trade_off(trip, options, size_plan(trip, options));
}

std::vector<double> days_of(const std::vector<TradeOff>& rows) {
  std::vector<double> days;
  for (const TradeOff& row : rows) days.push_back(row.more_days);
  return days;
}

TEST(TradeOffs, GoFromADayOfMarginToFourMoreThanPlanned) {
  const auto days = [](const std::string& margin) {
    return days_of(rows_of(with_sections(ten_days({"drinking_water: " + margin}), offers)));
  };
  EXPECT_EQ(days("3 days"), (std::vector<double>{-2, -1, 0, 1, 2, 3, 4}));
  EXPECT_EQ(days("1 day"), (std::vector<double>{0, 1, 2, 3, 4}));
  // A margin that is not in days has none to take off.
  EXPECT_EQ(days("7 L"), (std::vector<double>{0, 1, 2, 3, 4}));
}

TEST(TradeOffs, AreWhatTheSameMarginsInThePlanGive) {
  const std::vector<TradeOff> rows =
      rows_of(with_sections(ten_days({"drinking_water: 2 days", "food: 2 days"}), offers));
  for (const TradeOff& row : rows) {
    const std::string days = std::to_string(2 + static_cast<int>(row.more_days)) + " days";
    const Sizing stated =
        support::size_of(ten_days({"drinking_water: " + days, "food: " + days}), offers);
    EXPECT_EQ(taken(row.sizing, tens), taken(stated, tens)) << days;
    EXPECT_EQ(taken(row.sizing, "day of stores (3 meals)"),
              taken(stated, "day of stores (3 meals)"));
    EXPECT_DOUBLE_EQ(found(row.sizing).totals.kg, found(stated).totals.kg);
    // By hand: 4 L and 3 meals for each day of the trip and of the margin.
    const int all_days = 12 + static_cast<int>(row.more_days);
    EXPECT_EQ(taken(row.sizing, tens), (4 * all_days + 9) / 10);
    EXPECT_EQ(taken(row.sizing, "day of stores (3 meals)"), all_days);
  }
}

TEST(TradeOffs, AddDaysToAMarginThatIsInLitres) {
  for (const TradeOff& row : rows_of(with_sections(ten_days({"drinking_water: 7 L"}), offers))) {
    const int litres = 40 + 7 + 4 * static_cast<int>(row.more_days);
    EXPECT_EQ(taken(row.sizing, tens), (litres + 9) / 10) << row.more_days;
  }
}

TEST(TradeOffs, LeaveFuelAndChargeAsPlanned) {
  PlanText text = ten_days({"drinking_water: 1 L", "fuel: 30 L", "battery: 50 %"});
  text.food = PlanText{}.food;
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 25 L, "
      "filled: "
      "25 L}]}"};
  text.batteries = {"{name: bank, kind: agm, capacity: 100 Ah}"};
  text.loads = {"{name: lamp, draw: 2 W}"};
  const std::vector<TradeOff> rows = rows_of(with_sections(
      text,
      "size: {fuel_cans: {truck: [5 L]}, containers: {drinking: [10 L]}, batteries: {bank: [50 "
      "Ah, 90 Ah, 100 Ah]}}"));
  for (const TradeOff& row : rows) {
    EXPECT_EQ(taken(row.sizing, "5 L can of diesel"), 1);
    EXPECT_EQ(taken(row.sizing, "bank"), taken(rows.front().sizing, "bank"));
  }
  EXPECT_GT(taken(rows.back().sizing, tens), taken(rows.front().sizing, tens));
}

TEST(TradeOffs, HaveTheAnswerItselfAmongThemAndWeighMoreFromRowToRow) {
  const plan::Plan plan =
      with_sections(ten_days({"drinking_water: 3 days", "food: 2 days"}), offers);
  const std::vector<TradeOff> rows = rows_of(plan);
  const Sizing own = support::size_of(plan);
  const auto planned = std::ranges::find(rows, 0.0, &TradeOff::more_days);
  ASSERT_NE(planned, rows.end());
  EXPECT_EQ(found(planned->sizing).totals.kg, found(own).totals.kg);
  EXPECT_EQ(found(planned->sizing).lines.size(), found(own).lines.size());
  for (std::size_t r = 1; r < rows.size(); ++r) {
    EXPECT_GE(found(rows[r].sizing).totals.kg, found(rows[r - 1].sizing).totals.kg);
  }
}

TEST(TradeOffs, SayWhereMoreIsNotOnOffer) {
  PlanText text = ten_days({"drinking_water: 1 day"});
  const char* five = "size: {containers: {drinking: [{holds: 10 L, most: 5}]}}";
  // The food of the plan is for its ten days, and there is no more of it on offer.
  for (const TradeOff& row : rows_of(with_sections(text, five))) {
    EXPECT_EQ(row.sizing.found.has_value(), row.more_days < 1);
  }
  text.food = PlanText{}.food;
  for (const TradeOff& row : rows_of(with_sections(text, five))) {
    EXPECT_EQ(row.sizing.found.has_value(), row.more_days < 2);
  }
}

TEST(TradeOffs, AreTheSameOneFromAnotherAndEachByItself) {
  const support::Trip trip = travel(with_sections(
      ten_days({"drinking_water: 3 days", "food: 1 day"}),
      "size: {containers: {drinking: [{holds: 10 L, most: 4}, {holds: 5 L, most: 4}]}, food: "
      "{stores: 3 meals}}"));
  const SizeOptions options{.survive = std::vector{plan::MishapKind::container}};
  const std::vector<TradeOff> rows = trade_off(trip, options, size_plan(trip, options));
  for (const TradeOff& row : rows) {
    const PlanRun other = run_plan(trip.plan, trip.course.timeline, nullptr, row.more_days);
    const Sizing alone = least_set(other, options, {}, ground_of(trip, options));
    ASSERT_EQ(row.sizing.found.has_value(), alone.found.has_value()) << row.more_days;
    if (!alone.found) continue;
    EXPECT_EQ(support::told(row.sizing.found->lines), support::told(alone.found->lines));
  }
  EXPECT_TRUE(rows.front().sizing.found);
  EXPECT_FALSE(rows.back().sizing.found);
}

TEST(TradeOffs, CostMoreWhereTheyAreByCost) {
  PlanText text = ten_days({"drinking_water: 2 days"});
  text.food = PlanText{}.food;
  const plan::Plan plan = with_sections(
      text, "size: {containers: {drinking: [{holds: 10 L, cost: 9}, {holds: 20 L, cost: 30}]}}");
  const std::vector<TradeOff> rows = rows_of(plan, {.least = Least::cost});
  for (const TradeOff& row : rows) {
    EXPECT_EQ(found(row.sizing).totals.cost, 9 * taken(row.sizing, tens));
  }
}

}  // namespace
}  // namespace drystage::answers
