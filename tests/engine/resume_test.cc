// Going on from a moment in the middle comes to the same, to the last bit, as running from the
// start. (On a course that has changed: changed_course_test.cc.)
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cstring>
#include <tuple>

#include "support/laid_out.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Course;
using engine::Engine;
using engine::Event;
using engine::Record;
using support::all_scenarios;
using support::PlanText;
using support::Trip;

template <class Row>
bool same_bytes(const Row* a, const Row* b, std::size_t count) {
  static_assert(sizeof(Row) % sizeof(double) == 0);  // rows of doubles: no padding
  return std::memcmp(a, b, count * sizeof(Row)) == 0;
}

bool same(const Event& a, const Event& b) {
  const auto key = [](const Event& e) {
    return std::tie(e.day, e.hour, e.kind, e.subject, e.amount, e.other);
  };
  return key(a) == key(b);
}

/// A run from the start, with where it stands before each step and what it has told by then.
struct Whole {
  Record record;
  std::vector<Engine::Standing> before;
  std::vector<std::size_t> told;

  explicit Whole(const Course& course) : record(engine::blank_record(course)) {
    Engine::Standing standing = Engine::begin(course, record);
    const std::size_t steps = course.timeline->steps.size();
    for (std::size_t s = 0; s < steps; ++s) {
      Engine::go_on(course, standing, s);
      before.push_back(standing);
      told.push_back(record.events.size());
    }
    Engine::go_on(course, standing, steps);
    before.push_back(standing);
  }
};

/// What differs between a run from the start and one from a step on, over the days after the
/// step's; nothing where they are one.
std::string difference(const Course& course, const Record& whole, const Record& part, int day,
                       std::size_t told_before) {
  const auto later = static_cast<std::size_t>(day) + 1;
  const std::size_t days = whole.days();
  if (part.days() != days) return "number of days";
  if (!same_bytes(whole.store_days.data() + later * whole.stores,
                  part.store_days.data() + later * whole.stores, (days - later) * whole.stores)) {
    return "stores";
  }
  if (!same_bytes(whole.reserve_days.data() + later * whole.reserves,
                  part.reserve_days.data() + later * whole.reserves,
                  (days - later) * whole.reserves)) {
    return "reserves";
  }
  for (std::size_t s = 0; s < whole.stores; ++s) {
    if (whole.store(later - 1, s).end != part.store(later - 1, s).end) return "that day's stores";
  }
  for (std::size_t r = 0; r < whole.reserves; ++r) {
    if (whole.reserve(later - 1, r).end != part.reserve(later - 1, r).end) return "that day's end";
  }
  for (std::size_t o = 0; o < course.orders.size(); ++o) {
    if (course.orders[o].day <= day) continue;
    if (whole.order_taken[o] != part.order_taken[o]) return "orders";
    if (whole.order_left[o] != part.order_left[o]) return "what orders left";
  }
  const std::vector<Event> rest(whole.events.begin() + static_cast<std::ptrdiff_t>(told_before),
                                whole.events.end());
  const bool same_events = std::ranges::equal(
      rest, part.events, [](const Event& a, const Event& b) { return same(a, b); });
  return same_events ? "" : "events";
}

std::string resumed_difference(const Course& course, const Whole& whole, std::size_t step) {
  Record part = engine::blank_record(course);
  Engine::Standing standing = Engine::resume(whole.before[step], course, step, part);
  Engine::go_on(course, standing, course.timeline->steps.size());
  const Engine::Standing& end = whole.before.back();
  for (int s = 0; s < static_cast<int>(course.stores.size()); ++s) {
    if (standing.run.level(s) != end.run.level(s))
      return "level of " + course.stores[static_cast<std::size_t>(s)].name;
  }
  for (int v = 0; v < static_cast<int>(course.vehicle_kg.size()); ++v) {
    if (standing.run.vehicle_kg(v) != end.run.vehicle_kg(v)) return "mass";
  }
  return difference(course, whole.record, part, course.timeline->steps[step].day, whole.told[step]);
}

RC_GTEST_PROP(Resume, OnTheSameCourseIsTheRunFromTheStart, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const PlanText text = support::random_plan(pick);
  RC_LOG() << text.text();
  const Trip trip = support::travel(text);
  const Whole whole(trip.course);
  const auto& steps = trip.course.timeline->steps;
  const auto check = [&](std::size_t s) {
    RC_LOG() << "from step " << s << " day " << steps[s].day << " hour " << steps[s].from_h << "\n";
    RC_ASSERT(resumed_difference(trip.course, whole, s) == "");
  };
  for (int n = 0; n < 4; ++n) {
    check(static_cast<std::size_t>(pick(0, static_cast<int>(steps.size()) - 1)));
  }
  // And from between the stops of one visit.
  for (std::size_t s = 1; s < steps.size(); ++s) {
    if (steps[s - 1].stop >= 0) check(s);
  }
}

TEST(Resume, OnTheSameCourseIsTheRunFromTheStartInEveryScenario) {
  for (const plan::Plan& plan : all_scenarios()) {
    const Trip trip = support::travel(plan);
    const Whole whole(trip.course);
    const std::size_t steps = trip.course.timeline->steps.size();
    for (std::size_t s = 0; s < steps; s += 1 + steps / 97) {
      EXPECT_EQ(resumed_difference(trip.course, whole, s), "")
          << plan.trip.title << " from step " << s;
    }
  }
}

TEST(Resume, BetweenTwoStopsOfAVisitKnowsWhatThePlaceHasGiven) {
  PlanText text;
  text.containers = {"{name: can, holds: 60 L, filled: 10 L, for: drinking}"};
  text.places = {PlanText::place("Base", "air", "drinking_water: {most: 25 L}, food: {}")};
  text.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {drinking_water: 20 L}",
                    "resupply: {drinking_water: fill}", "stay: {nights: 2}"};
  const Trip trip = support::travel(text);
  EXPECT_NEAR(trip.sum(&engine::ReserveDay::gained, "drinking_water"), 25, 1e-9);
  const Whole whole(trip.course);
  const auto& steps = trip.course.timeline->steps;
  const std::size_t first = engine::step_at(*trip.course.timeline, 1, 8);
  ASSERT_EQ(steps[first].stop, 2);
  ASSERT_EQ(steps[first + 1].stop, 3);
  for (const std::size_t step : {first, first + 1, first + 2}) {
    Record part = engine::blank_record(trip.course);
    Engine::Standing standing = Engine::resume(whole.before[step], trip.course, step, part);
    Engine::go_on(trip.course, standing, steps.size());
    EXPECT_NEAR(standing.run.level(0), 10 + 25 - 4 * 3, 1e-9) << step - first;
  }
}

}  // namespace
}  // namespace drystage
