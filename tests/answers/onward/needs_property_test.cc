// What holds of needs and turning back for every plan.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "answers/base/supplies.h"
#include "answers/onward/needs.h"
#include "answers/onward/turn_back.h"
#include "support/random_plan.h"
#include "support/tight.h"
#include "support/trip.h"

namespace drystage::answers::needs_property_test {
namespace {

using engine::Engine;
using support::random_plan;
using support::rapidcheck_pick;
using support::travel;
using support::Trip;

constexpr double day_h = 24;
constexpr double tiny = 1e-6;
constexpr double minute_h = 1.0 / 60;

double trip_h(const Moment& moment) { return day_h * moment.day + moment.hour; }

/// A trip short enough that turning back at each of its hours is soon worked out.
Trip short_trip() {
  support::PlanText text = random_plan(rapidcheck_pick());
  constexpr std::size_t most_items = 5;
  if (text.itinerary.size() > most_items) text.itinerary.resize(most_items);
  return travel(text);
}

/// What is certain, for one reserve.
engine::Course certain(engine::Course course, int reserve) {
  for (engine::OrderInfo& order : course.orders) {
    if (!order.supply.confirmed) order.open = false;
  }
  // How a limited supply is divided, two_vehicles_by_hand_test.cc looks into.
  return taking_all_there_is(course, reserve, parts_of_what_there_is(course));
}

/// The step at which a morning is looked at: on the first day, once what is taken on at the outset
/// is on board.
std::size_t morning(const engine::Timeline& timeline, std::size_t day) {
  auto step = static_cast<std::size_t>(timeline.days[day].first_step);
  while (day == 0 && timeline.steps[step].stop >= 0 && timeline.steps[step].from_h <= 0) ++step;
  return step;
}

RC_GTEST_PROP(NeedsProperty, AreMetExactlyWhereTheTripKeepsItsMargin, ()) {
  const Trip trip = travel(random_plan(rapidcheck_pick()));
  const Needs needs = morning_needs(trip);
  const engine::Timeline& timeline = *trip.course.timeline;
  RC_ASSERT(needs.table.size() == trip.days() * needs.reserves.size());
  bool met = true;
  for (std::size_t i = 0; i < needs.reserves.size(); ++i) {
    const int reserve = needs.reserves[i];
    const engine::ReserveInfo& info = trip.course.reserves[static_cast<std::size_t>(reserve)];
    const engine::Course after = certain(trip.course, reserve);
    engine::Record before = engine::blank_record(trip.course);
    Engine::Standing standing = Engine::begin(trip.course, before);
    for (std::size_t day = 0; day < trip.days(); ++day) {
      const Need& need = needs.need(day, i);
      Engine::go_on(trip.course, standing, morning(timeline, day));
      RC_ASSERT(!std::isnan(need.must_have) && need.must_have >= 0);
      RC_ASSERT(std::abs(need.has - standing.run.reserve_level(reserve)) < tiny);
      RC_ASSERT(need.until_day >= static_cast<int>(day) &&
                need.until_day < static_cast<int>(trip.days()));
      met = met && !need.lacks();
      const auto slack_with = [&](std::optional<double> level) {
        engine::Record record = engine::blank_record(after);
        Engine::Standing now = Engine::resume(standing, after, standing.next, record);
        if (level) Engine::set_level(after, now, reserve, *level);
        return support::go_on_watching(
                   after, now, record,
                   support::supplied_at(trip.plan, timeline, standing.next, info), reserve)
            .slack;
      };
      // A battery that has cut its loads off keeps what it has, and not for the better: it is asked
      // as though it were found so.
      const double planned = slack_with(info.commodity ? std::nullopt : std::optional(need.has));
      RC_LOG() << info.name << " day " << day + 1 << " must " << need.must_have << " has "
               << need.has << " slack " << planned << "\n";
      if (std::abs(planned) > tiny) RC_ASSERT(need.lacks() == (planned < 0));
      // Where there is nothing to hold it, no level can be tried.
      const bool holds_any = info.capacity > 0 || info.commodity == plan::Commodity::food;
      if (holds_any && std::isfinite(need.must_have)) {
        RC_ASSERT(slack_with(need.must_have) > -tiny);
      }
    }
  }
  RC_ASSERT(needs.met() == met);
}

RC_GTEST_PROP(NeedsProperty, NeverGrowWhenAMarginShrinks, ()) {
  Trip trip = travel(random_plan(rapidcheck_pick()));
  const Needs whole = morning_needs(trip);
  for (engine::ReserveInfo& reserve : trip.course.reserves) {
    reserve.margin.fixed *= 0.5;
    reserve.margin.days *= 0.5;
    reserve.margin.km *= 0.5;
  }
  const Needs half = morning_needs(trip);
  for (std::size_t i = 0; i < whole.reserves.size(); ++i) {
    const auto& info = trip.course.reserves[static_cast<std::size_t>(whole.reserves[i])];
    // A battery sheds loads as it gets low, so that it is not so simple there.
    if (!info.commodity) continue;
    for (std::size_t day = 0; day < trip.days(); ++day) {
      RC_LOG() << info.name << " day " << day + 1 << " " << half.need(day, i).must_have << " "
               << whole.need(day, i).must_have << "\n";
      // Where most of the food spoils, a meal more helps little, and is found less finely.
      const bool food = info.commodity == plan::Commodity::food;
      const double near = food ? 1e-3 * whole.need(day, i).must_have : 2e-4;
      RC_ASSERT(half.need(day, i).must_have <= whole.need(day, i).must_have + near);
    }
  }
}

/// Whether turning back is possible.
bool possible(const SupplyStretch& stretch, double at_h) {
  return std::ranges::any_of(stretch.windows, [at_h](const Window& window) {
    return at_h > trip_h(window.from) - tiny && at_h < trip_h(window.last) + tiny;
  });
}

bool is_near_an_end(const SupplyStretch& stretch, double at_h) {
  return std::ranges::any_of(stretch.windows, [at_h](const Window& window) {
    return std::abs(trip_h(window.from) - at_h) < minute_h ||
           std::abs(trip_h(window.last) - at_h) < minute_h;
  });
}

bool is_in_order(const SupplyStretch& stretch) {
  double before_h = trip_h(stretch.leaves);
  for (const Window& window : stretch.windows) {
    if (trip_h(window.from) < before_h - tiny) return false;
    if (trip_h(window.last) < trip_h(window.from) + minute_h - tiny) return false;
    before_h = trip_h(window.last);
  }
  if (before_h > trip_h(stretch.arrives) + tiny) return false;
  before_h = trip_h(stretch.leaves);
  for (const auto& moment : {stretch.last, stretch.again, std::optional(stretch.arrives)}) {
    if (!moment) continue;
    if (trip_h(*moment) < before_h - tiny) return false;
    before_h = trip_h(*moment);
  }
  return true;
}

RC_GTEST_PROP(TurnBackProperty, StretchesAreInOrderAndWithinTheTrip, ()) {
  const Trip trip = short_trip();
  std::map<int, double> end_h;
  for (const SupplyStretch& stretch : turn_back_points(trip).stretches) {
    RC_ASSERT(is_in_order(stretch));
    RC_ASSERT(trip_h(stretch.leaves) >= end_h[stretch.reserve] - tiny);
    end_h[stretch.reserve] = trip_h(stretch.arrives);
    RC_ASSERT(trip_h(stretch.arrives) <= day_h * static_cast<double>(trip.days()) + tiny);
    RC_ASSERT(trip_h(stretch.leaves) < trip_h(stretch.arrives));
    if (stretch.always) RC_ASSERT(!stretch.last && !stretch.again);
    if (stretch.last) RC_ASSERT(trip_h(*stretch.last) < trip_h(stretch.arrives) - tiny);
    if (stretch.even) {
      RC_ASSERT(trip_h(*stretch.even) >= trip_h(stretch.leaves) - tiny);
      RC_ASSERT(trip_h(*stretch.even) <= trip_h(stretch.arrives) + tiny);
      RC_ASSERT(stretch.even_need >= 0 && std::isfinite(stretch.even_need));
    }
  }
}

RC_GTEST_PROP(TurnBackProperty, WindowsAreWhereEveryStretchAllowsIt, ()) {
  const Trip trip = short_trip();
  const TurnBack answer = turn_back_points(trip);
  double before_h = 0;
  for (const Window& window : answer.windows) {
    RC_ASSERT(trip_h(window.from) >= before_h - tiny);
    RC_ASSERT(trip_h(window.last) >= trip_h(window.from) - tiny);
    before_h = trip_h(window.last);
  }
  for (const engine::TimeStep& step : trip.course.timeline->steps) {
    const double at_h = day_h * step.day + step.from_h;
    bool open = false;
    bool known = false;
    bool all = true;
    bool near = false;
    for (const SupplyStretch& stretch : answer.stretches) {
      if (at_h < trip_h(stretch.leaves) - tiny || at_h > trip_h(stretch.arrives) - tiny) continue;
      known = true;
      all = all && possible(stretch, at_h);
      near = near || is_near_an_end(stretch, at_h);
    }
    for (const Window& window : answer.windows) {
      open = open || (at_h > trip_h(window.from) - tiny && at_h < trip_h(window.last) + tiny);
    }
    if (!known) continue;
    // Within a minute of an end either may be said.
    near = near || std::ranges::any_of(answer.windows, [at_h](const Window& window) {
             return std::abs(trip_h(window.from) - at_h) < minute_h ||
                    std::abs(trip_h(window.last) - at_h) < minute_h;
           });
    RC_LOG() << "at " << at_h << "\n";
    RC_ASSERT(near || open == all);
  }
}

}  // namespace
}  // namespace drystage::answers::needs_property_test
