// The levels that a plan goes through, against what its run has recorded.
#include "answers/base/levels.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using answers::Level;
using answers::Levels;
using engine::ReserveDay;
using engine::ReserveInfo;
using support::PlanText;
using support::travel;
using support::Trip;

bool keeps_above(const ReserveInfo& info) { return info.sense == engine::Sense::keep_above; }

double slack(const ReserveInfo& info, const Level& level) {
  return keeps_above(info) ? level.level - level.margin : level.margin - level.level;
}

/// What levels written down one by one say of a day.
struct SeenDay {
  double start = 0;
  double end = 0;
  double worst = 0;
  double slack = std::numeric_limits<double>::infinity();
};

/// Of a day, by its levels alone. The engine looks before a stop and at the end of a step: not
/// after a stop, which is a second entry at the same hour, and not before the trip has begun.
SeenDay see(const ReserveInfo& info, const std::vector<Level>& levels, int day) {
  SeenDay out;
  const auto is_worse = [&](double a, double b) { return keeps_above(info) ? a < b : a > b; };
  const Level* before = nullptr;
  const Level* last = nullptr;
  for (const Level& level : levels) {
    if (level.day < day) before = &level;
    if (level.day != day) continue;
    last = &level;
  }
  // What is taken on where the trip begins is on board when it does.
  const Level* first = before;
  if (before == nullptr) {
    out.start = levels.front().level;
    for (const Level& level : levels) {
      if (level.hour <= 0) first = &level;
    }
  } else {
    out.start = before->level;
  }
  out.end = last != nullptr ? last->level : out.start;
  // The levels of what is kept cold are the warmest of each step, and the last of the day before is
  // none of this day.
  out.worst = keeps_above(info) ? first->level : -std::numeric_limits<double>::infinity();
  double at_h = first->hour;
  for (const Level& level : levels) {
    if (level.day != day) continue;
    if (level.hour > at_h) {
      if (is_worse(level.level, out.worst)) out.worst = level.level;
      out.slack = std::min(out.slack, slack(info, level));
    }
    at_h = level.hour;
  }
  return out;
}

/// How much more there was of a reserve after its stops, by the two entries at one hour.
double taken_on(const std::vector<Level>& levels) {
  double sum = 0;
  for (std::size_t i = 1; i < levels.size(); ++i) {
    if (levels[i].hour == levels[i - 1].hour) sum += levels[i].level - levels[i - 1].level;
  }
  return sum;
}

/// Ten days at 4 L with a well on the fourth morning.
PlanText with_a_well() {
  PlanText plan;
  plan.margins = {"drinking_water: 2 days"};
  plan.containers = {"{name: can, holds: 60 L, filled: 30 L, for: drinking}"};
  plan.places = {PlanText::place("Base", "air", "drinking_water: {most: 20 L}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 3}", "resupply: {drinking_water: fill}",
                    "stay: {nights: 6}"};
  return plan;
}

TEST(Levels, OfWaterAreWhatIsLeftAfterSoManyHours) {
  const Trip trip = travel(with_a_well());
  const Levels got = answers::levels(trip);
  const int water = support::reserve_index(trip.course, "drinking_water");
  const std::vector<Level>& levels = got.reserves[static_cast<std::size_t>(water)];
  double added_l = 0;
  double before_h = -1;
  for (const Level& level : levels) {
    if (level.hour == before_h) added_l += 20;
    before_h = level.hour;
    EXPECT_NEAR(level.level, 30 + added_l - 4 * level.hour / 24, 1e-9) << level.hour;
    EXPECT_NEAR(level.margin, 8, 1e-9) << level.hour;
    EXPECT_EQ(level.day, std::max(0, static_cast<int>(std::ceil(level.hour / 24)) - 1));
  }
  EXPECT_EQ(added_l, 20);
  EXPECT_EQ(levels.front().hour, 0);
  EXPECT_EQ(levels.back().hour, 24.0 * static_cast<double>(trip.days()));
  // Hour by hour, and once more at the well.
  EXPECT_EQ(levels.size(), 24 * trip.days() + 2);
}

TEST(Levels, StandTwiceAtTheHourOfARefill) {
  const Trip trip = travel(with_a_well());
  const std::vector<Level> levels = answers::levels(trip).reserves[static_cast<std::size_t>(
      support::reserve_index(trip.course, "drinking_water"))];
  const auto after = std::ranges::adjacent_find(
      levels, [](const Level& a, const Level& b) { return a.hour == b.hour; });
  ASSERT_NE(after, levels.end());
  const engine::OrderInfo& order = trip.course.orders.at(0);
  EXPECT_EQ(after->hour, 24 * order.day + order.hour);
  EXPECT_NEAR(after[1].level - after[0].level, trip.record.order_taken.at(0), 1e-12);
  EXPECT_EQ(after[1].level, trip.record.order_left.at(0));
  // What is kept above a margin of days is tested before and not after.
  EXPECT_NEAR(after[1].margin, after[0].margin, 1e-12);
}

TEST(Levels, BeginWithWhatTheTripBeginsWithAndThenWhatIsTakenOnThere) {
  PlanText plan = with_a_well();
  plan.itinerary = {"{at: Base}", "resupply: {drinking_water: fill}", "stay: {nights: 2}"};
  const Trip trip = travel(plan);
  const std::vector<Level> levels = answers::levels(trip).reserves.at(0);
  EXPECT_EQ(levels.at(0).hour, 0);
  EXPECT_EQ(levels.at(0).level, 30);
  EXPECT_EQ(levels.at(1).hour, 0);
  EXPECT_EQ(levels.at(1).level, 50);
  EXPECT_GT(levels.at(2).hour, 0);
  // No rate is known before the first step; that of the first one serves.
  EXPECT_NEAR(levels.at(0).margin, 8, 1e-9);
  EXPECT_NEAR(levels.at(1).margin, 8, 1e-9);
}

TEST(Levels, HaveWhatBrackishWaterSpoilsLostAtItsHour) {
  PlanText plan = with_a_well();
  plan.containers.emplace_back("{name: tub, holds: 40 L, filled: 10 L, for: utility}");
  plan.places = {PlanText::place("Base", "air", "utility_water: {quality: brackish}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 3}", "resupply: {utility_water: fill}",
                    "stay: {nights: 1}"};
  const Trip trip = travel(plan);
  const Levels got = answers::levels(trip);
  for (const char* name : {"drinking_water", "utility_water"}) {
    const int reserve = support::reserve_index(trip.course, name);
    const std::vector<Level>& levels = got.reserves[static_cast<std::size_t>(reserve)];
    EXPECT_NEAR(taken_on(levels),
                trip.sum(&ReserveDay::gained, name) - trip.sum(&ReserveDay::lost, name), 1e-9)
        << name;
  }
}

TEST(Levels, OfAReserveThatNothingFillsStandOnceAtEachHour) {
  const Trip trip = travel(with_a_well());
  const int food = support::reserve_index(trip.course, "food");
  const std::vector<Level> levels = answers::levels(trip).reserves[static_cast<std::size_t>(food)];
  EXPECT_EQ(levels.size(), 24 * trip.days() + 1);
  EXPECT_TRUE(std::ranges::is_sorted(levels, std::less_equal<>{}, &Level::hour));
}

RC_GTEST_PROP(Levels, SayOfEveryDayWhatTheRecordSays, ()) {
  const support::PlanText text = support::random_plan(support::rapidcheck_pick());
  RC_LOG() << text.text();
  const Trip trip = travel(text);
  const Levels got = answers::levels(trip);
  RC_ASSERT(got.reserves.size() == trip.course.reserves.size());
  for (std::size_t r = 0; r < got.reserves.size(); ++r) {
    const ReserveInfo& info = trip.course.reserves[r];
    for (std::size_t d = 0; d < trip.days(); ++d) {
      const ReserveDay& row = trip.record.reserve(d, r);
      const SeenDay seen = see(info, got.reserves[r], static_cast<int>(d));
      RC_LOG() << info.name << " day " << d << "\n";
      if (keeps_above(info)) {
        RC_ASSERT(seen.start == row.start);
        RC_ASSERT(seen.end == row.end);
        RC_ASSERT(seen.worst == row.lowest);
      } else {
        RC_ASSERT(seen.end >= row.end);
        RC_ASSERT(std::max(seen.worst, row.start) == row.lowest);
      }
      // What is below its margin before the first use is judged then, by the margin of then.
      if (d == 0) {
        RC_ASSERT(row.slack <= seen.slack + 1e-12);
      } else {
        RC_ASSERT(std::abs(row.slack - seen.slack) <= 1e-12);
      }
    }
  }
}

RC_GTEST_PROP(Levels, AreInTimeOrderAndReachFromTheFirstMidnightToTheLast, ()) {
  const Trip trip = travel(support::random_plan(support::rapidcheck_pick()));
  const Levels got = answers::levels(trip);
  for (const std::vector<Level>& levels : got.reserves) {
    RC_ASSERT(levels.front().hour == 0);
    RC_ASSERT(std::abs(levels.back().hour - 24.0 * static_cast<double>(trip.days())) < 1e-6);
    RC_ASSERT(std::ranges::is_sorted(levels, {}, &Level::hour));
    RC_ASSERT(std::ranges::is_sorted(levels, {}, &Level::day));
    for (const Level& level : levels) {
      RC_ASSERT(std::isfinite(level.level));
      RC_ASSERT(std::isfinite(level.margin));
    }
  }
}

/// Water and fuel come at stops alone, and are lost there alone.
RC_GTEST_PROP(Levels, RiseAtStopsByWhatIsTakenOnThere, ()) {
  const support::PlanText text = support::random_plan(support::rapidcheck_pick());
  RC_LOG() << text.text();
  const Trip trip = travel(text);
  const Levels got = answers::levels(trip);
  for (std::size_t r = 0; r < got.reserves.size(); ++r) {
    const ReserveInfo& info = trip.course.reserves[r];
    // A consumable may perish at any time.
    if (info.unit != "L" || info.id.family == engine::Family::consumable) continue;
    const double gained = trip.sum(&ReserveDay::gained, info.name);
    const double lost = trip.sum(&ReserveDay::lost, info.name);
    RC_ASSERT(std::abs(taken_on(got.reserves[r]) - (gained - lost)) <=
              1e-9 * std::max(1.0, gained + lost));
  }
}

}  // namespace
}  // namespace drystage
