// Two vehicles at shared and limited supplies, against the same trip worked out by hand: levels,
// what breaks, the verdict, and what must be there each morning, of some hundred plans of random
// make.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

#include "answers/onward/needs.h"
#include "support/by_hand.h"
#include "support/by_hand_plans.h"
#include "support/trip.h"

namespace drystage::answers::two_vehicles_by_hand_test {
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
  int judged = 0;
  int hold = 0;
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

/// What fails of one thing, by hand: on which day first, on which day it runs out, by how much.
struct Failure {
  int day = -1;
  int dry_day = -1;
  double short_l = 0;
};

/// The verdict follows from the days: nothing fails, or what runs out first leads, or else what
/// falls below its margin first. False where a level that just meets its margin leaves it open.
bool compare_verdict(const Trip& trip,
                     const std::vector<std::vector<support::by_hand::Day>>& by_hand) {
  const std::vector<std::string> names{"fuel:a", "fuel:b", "drinking_water"};
  std::vector<Failure> failures(names.size());
  for (std::size_t day = 0; day < by_hand.size(); ++day) {
    for (std::size_t s = 0; s < names.size(); ++s) {
      const support::by_hand::Day& hand = by_hand[day][s];
      if (std::abs(hand.slack_l) < tiny) return false;
      const bool dry = hand.short_l > tiny;
      Failure& failure = failures[s];
      failure.short_l += hand.short_l;
      if (dry && failure.dry_day < 0) failure.dry_day = static_cast<int>(day);
      if ((dry || hand.slack_l < 0) && failure.day < 0) failure.day = static_cast<int>(day);
    }
  }
  int first_day = -1;
  int first_dry_day = -1;
  std::size_t fail = 0;
  const auto sooner = [](int day, int than) { return day >= 0 && (than < 0 || day < than); };
  for (std::size_t s = 0; s < names.size(); ++s) {
    const Failure& failure = failures[s];
    if (sooner(failure.day, first_day)) first_day = failure.day;
    if (sooner(failure.dry_day, first_dry_day)) first_dry_day = failure.dry_day;
    if (failure.day < 0) continue;
    ++fail;
    const int reserve = support::reserve_index(trip.course, names[s]);
    const auto breach = std::ranges::find(trip.verdict.breaches, reserve, &Breach::reserve);
    EXPECT_NE(breach, trip.verdict.breaches.end()) << names[s];
    if (breach == trip.verdict.breaches.end()) continue;
    const bool dry = failure.dry_day >= 0;
    EXPECT_EQ(breach->harm, dry ? Harm::runs_out_vital : Harm::margin_vital) << names[s];
    EXPECT_EQ(breach->day, dry ? failure.dry_day : failure.day) << names[s];
    EXPECT_NEAR(breach->short_of, failure.short_l, 10 * tiny) << names[s];
  }
  EXPECT_EQ(trip.verdict.breaches.size(), fail);
  EXPECT_EQ(trip.verdict.holds, fail == 0);
  if (fail == 0 || trip.verdict.holds) return true;
  EXPECT_EQ(trip.verdict.first_breach->day, first_day);
  const Breach& worst = trip.verdict.breaches.front();
  EXPECT_EQ(worst.day, first_dry_day >= 0 ? first_dry_day : first_day);
  EXPECT_EQ(worst.harm, first_dry_day >= 0 ? Harm::runs_out_vital : Harm::margin_vital);
  return true;
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
    const std::vector<std::vector<support::by_hand::Day>> by_hand =
        support::by_hand::work_out(plan);
    compare(trip, by_hand, tally);
    if (HasFatalFailure()) return;
    tally.judged += compare_verdict(trip, by_hand) ? 1 : 0;
    if (HasFailure()) return;
    tally.hold += trip.verdict.holds ? 1 : 0;
    tally.shared += shares(trip) ? 1 : 0;
  }
  // The plans are of all sorts.
  EXPECT_GT(tally.broken, tally.days / 20);
  EXPECT_LT(tally.broken, tally.days);
  EXPECT_GT(tally.dry, 50);
  EXPECT_GT(tally.lacking, 50);
  EXPECT_GT(tally.shared, plans / 10);
  EXPECT_GT(tally.judged, 200);
  EXPECT_GT(tally.hold, 10);
}

}  // namespace
}  // namespace drystage::answers::two_vehicles_by_hand_test
