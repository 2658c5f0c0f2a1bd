// The same plan gives the same bytes, and a step's length hardly matters.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <variant>

#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using support::Trip;

template <class Row>
bool same_bytes(const std::vector<Row>& a, const std::vector<Row>& b) {
  static_assert(sizeof(Row) % sizeof(double) == 0);  // rows of doubles: no padding
  return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof(Row)) == 0;
}

RC_GTEST_PROP(Repeatable, ARunTwiceGivesTheSameBytes, ()) {
  const support::PlanText text = support::random_plan(support::rapidcheck_pick());
  const Trip once = support::travel(text);
  const Trip again = support::travel(text);
  RC_ASSERT(same_bytes(once.record.store_days, again.record.store_days));
  RC_ASSERT(same_bytes(once.record.reserve_days, again.record.reserve_days));
  RC_ASSERT(once.record.events.size() == again.record.events.size());
  for (std::size_t e = 0; e < once.record.events.size(); ++e) {
    const engine::Event& a = once.record.events[e];
    const engine::Event& b = again.record.events[e];
    RC_ASSERT(a.kind == b.kind);
    RC_ASSERT(a.day == b.day);
    RC_ASSERT(a.hour == b.hour);
    RC_ASSERT(a.subject == b.subject);
    RC_ASSERT(a.amount == b.amount);
  }
}

/// A record that is used again leaves nothing behind.
RC_GTEST_PROP(Repeatable, ARunIntoAWipedRecordIsAsIntoABlankOne, ()) {
  const Trip trip = support::travel(support::random_plan(support::rapidcheck_pick()));
  engine::Record record = engine::Engine::run(trip.course);
  engine::wipe(record);
  engine::Engine::run(trip.course, record);
  RC_ASSERT(same_bytes(trip.record.store_days, record.store_days));
  RC_ASSERT(same_bytes(trip.record.reserve_days, record.reserve_days));
  RC_ASSERT(trip.record.events.size() == record.events.size());
  RC_ASSERT(trip.record.order_slack == record.order_slack);
  RC_ASSERT(trip.record.order_taken == record.order_taken);
}

struct Needs {
  std::array<double, 4> sum{};
  double most_drink_l_h = 0;
};

Needs needs_of(const engine::Timeline& timeline) {
  Needs needs;
  for (const engine::TimeStep& step : timeline.steps) {
    const double drink_l = timeline.conditions.steps[step.index].drink_l;
    const std::array<double, 4> part{drink_l, step.utility_l, step.meals, step.distance_km};
    for (std::size_t i = 0; i < part.size(); ++i) needs.sum.at(i) += part.at(i);
    if (step.dt_h <= 0) continue;
    needs.most_drink_l_h = std::max(needs.most_drink_l_h, drink_l / step.dt_h);
  }
  return needs;
}

/// What is drunk, eaten and driven does not depend on the length of the step. Half way along a leg
/// the climate changes from one place's to the other's, at the end of a step: up to half a step is
/// lived in the other climate.
RC_GTEST_PROP(Repeatable, HalfTheStepNeedsTheSameWaterMealsAndRoad, ()) {
  const support::PlanText text = support::random_plan(support::rapidcheck_pick());
  RC_LOG() << text.text();
  const plan::Plan plan = text.plan();
  const Needs whole = needs_of(engine::lay_timeline(plan, 1.0));
  const Needs half = needs_of(engine::lay_timeline(plan, 0.5));
  const auto legs = static_cast<double>(std::ranges::count_if(
      plan.itinerary,
      [](const plan::ItineraryItem& item) { return std::holds_alternative<plan::Drive>(item); }));
  const std::array<double, 4> slack{0.5 * legs * whole.most_drink_l_h, 0, 0, 0};
  for (std::size_t i = 0; i < slack.size(); ++i) {
    const double a = whole.sum.at(i);
    RC_LOG() << i << ": " << a << " and " << half.sum.at(i) << "\n";
    RC_ASSERT(std::abs(a - half.sum.at(i)) <= 1e-6 * std::max(1.0, a) + slack.at(i));
  }
}

/// So do the levels of water and fuel, day by day, on any plan. (Batteries, cabinets and the food
/// in them have switches in them, which a plan chosen by chance may set off an hour earlier.)
RC_GTEST_PROP(Repeatable, HalfTheStepGivesNearlyTheSameWaterAndFuel, ()) {
  support::PlanText text = support::random_plan(support::rapidcheck_pick());
  text.climate[1] = text.climate[0];  // one climate all the way
  text.climate[1].replace(0, 2, "c1");
  RC_LOG() << text.text();
  const plan::Plan plan = text.plan();
  const Trip whole = support::travel(plan, 1.0);
  const Trip half = support::travel(plan, 0.5);
  // Utility water may be drunk from the step after that in which the last brackish is used up.
  const double drunk_l_h = needs_of(*whole.course.timeline).most_drink_l_h;
  for (std::size_t r = 0; r < whole.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = whole.course.reserves[r];
    if (info.unit != "L") continue;
    const double an_hour_l = info.vehicle ? 0 : drunk_l_h;
    for (std::size_t d = 0; d < whole.days(); ++d) {
      const double a = whole.record.reserve(d, r).end;
      const double b = half.record.reserve(d, r).end;
      RC_LOG() << info.name << " on day " << d << ": " << a << " and " << b << "\n";
      RC_ASSERT(std::abs(a - b) <= 0.005 * std::max(1.0, info.capacity) + an_hour_l);
    }
  }
}

}  // namespace
}  // namespace drystage
