// Two vehicles at shared and limited supplies, against the same trip worked out by hand: levels,
// what breaks, and what must be there each morning, of some hundred plans of random make.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

#include "answers/needs.h"
#include "support/by_hand.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using support::Trip;

constexpr int plans = 400;
// "To next" takes a tenth of a microlitre more than it must.
constexpr double tiny = 1e-5;
// A need is found to a tenth of a millilitre, and never too low.
constexpr double fine = 1e-4;

struct Tally {
  int days = 0;
  int broken = 0;
  int dry = 0;
  int lacking = 0;
  int shared = 0;
};

void compare(const Trip& trip, const std::vector<std::vector<support::by_hand::Day>>& by_hand,
             Tally& tally) {
  const Needs needs = morning_needs(trip);
  const std::vector<std::string> names{"fuel:a", "fuel:b", "drinking_water"};
  ASSERT_EQ(trip.days(), by_hand.size());
  for (std::size_t day = 0; day < by_hand.size(); ++day) {
    for (std::size_t s = 0; s < names.size(); ++s) {
      const std::string& name = names[s];
      SCOPED_TRACE(name + " on day " + std::to_string(day + 1));
      const support::by_hand::Day& hand = by_hand[day][s];
      const engine::ReserveDay& row = trip.reserve(day, name);
      ASSERT_NEAR(row.end, hand.end_l, tiny);
      ASSERT_NEAR(row.short_of, hand.short_l, tiny);
      ASSERT_NEAR(row.slack, hand.slack_l, tiny);
      const bool near = std::abs(hand.slack_l) < tiny;
      const bool broken = hand.slack_l < 0 || hand.short_l > tiny;
      ASSERT_TRUE(near || (row.breach_h >= 0) == broken);
      const auto at = std::ranges::find(needs.reserves, support::reserve_index(trip.course, name));
      const Need& need = needs.need(day, static_cast<std::size_t>(at - needs.reserves.begin()));
      ASSERT_NEAR(need.has, hand.has_l, tiny);
      ASSERT_GE(need.must_have, hand.must_l - tiny);
      ASSERT_LE(need.must_have, hand.must_l + fine + tiny);
      ++tally.days;
      tally.broken += broken ? 1 : 0;
      tally.dry += hand.short_l > tiny ? 1 : 0;
      tally.lacking += need.lacks() ? 1 : 0;
    }
  }
}

bool shares(const Trip& trip) {
  const auto& orders = trip.course.orders;
  return std::ranges::any_of(orders, [&](const engine::OrderInfo& a) {
    return a.supply.most && a.open && std::ranges::any_of(orders, [&](const engine::OrderInfo& b) {
             return a.visit == b.visit && a.order.commodity == b.order.commodity &&
                    a.reserve != b.reserve;
           });
  });
}

TEST(TwoVehiclesByHand, ComeToTheSame) {
  std::mt19937 chance(2027);  // NOLINT(cert-msc51-cpp): the same plans each time
  const auto pick = [&chance](int low, int high) {
    return low + static_cast<int>(chance() % static_cast<unsigned>(high - low + 1));
  };
  Tally tally;
  for (int n = 0; n < plans; ++n) {
    const support::by_hand::Plan plan = support::by_hand::random_plan(pick);
    const support::PlanText text = support::by_hand::text_of(plan);
    SCOPED_TRACE("plan " + std::to_string(n) + "\n" + text.text());
    const Trip trip = support::travel(text);
    compare(trip, support::by_hand::work_out(plan), tally);
    if (HasFatalFailure()) return;
    tally.shared += shares(trip) ? 1 : 0;
  }
  // The plans are of all sorts.
  EXPECT_GT(tally.broken, tally.days / 20);
  EXPECT_LT(tally.broken, tally.days);
  EXPECT_GT(tally.dry, 50);
  EXPECT_GT(tally.lacking, 50);
  EXPECT_GT(tally.shared, plans / 10);
}

}  // namespace
}  // namespace drystage::answers
