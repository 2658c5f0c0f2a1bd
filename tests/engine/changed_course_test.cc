// Going on from the moment at which something has struck comes to the same as a run from the start
// of a plan in which it always was so.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

#include "answers/mishaps/aftermath.h"
#include "answers/mishaps/all_mishaps.h"
#include "support/laid_out.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Course;
using engine::Engine;
using engine::Record;
using engine::Timeline;
using plan::MishapKind;
using support::all_scenarios;
using support::PlanText;
using support::Trip;

/// Mishaps before which nothing differs, so that the course after them can be run from the start.
bool leaves_the_past_alone(const answers::Mishap& mishap) {
  constexpr std::array kinds{MishapKind::stuck, MishapKind::shut, MishapKind::heat_wave,
                             MishapKind::soft_going};
  return std::ranges::find(kinds, mishap.failure.kind) != kinds.end();
}

/// How the levels of a run from the start and of one from a step on lie apart at the ends of the
/// days from then on, each by its own size.
double farthest_apart(const Course& course, const Record& whole, const Record& part, int from_day) {
  double worst = 0;
  for (auto d = static_cast<std::size_t>(from_day); d < whole.days(); ++d) {
    for (std::size_t s = 0; s < whole.stores; ++s) {
      const double apart = std::abs(whole.store(d, s).end - part.store(d, s).end);
      worst = std::max(worst, apart / std::max(1.0, course.stores[s].capacity));
    }
  }
  return worst;
}

/// The laid trip after a mishap, run from the start. What people need before it on the day on which
/// it strikes is what they needed when that was to be another day.
Record run_from_the_start(const answers::LaidTrip& laid, const answers::LaidTrip& after,
                          std::size_t step) {
  auto timeline = std::make_shared<Timeline>(*after.timeline);
  std::copy_n(laid.timeline->steps.begin(), step, timeline->steps.begin());
  std::copy_n(laid.timeline->conditions.steps.begin(), step, timeline->conditions.steps.begin());
  Course course = Engine::compile(*after.plan, std::move(timeline));
  for (std::size_t o = 0; o < course.orders.size(); ++o) {
    course.orders[o].order = after.course->orders[o].order;
    course.orders[o].up_to = after.course->orders[o].up_to;
  }
  return Engine::run(course);
}

/// Levels and later rows of a laid trip struck at a step, from there and from the start.
void expect_as_from_the_start(const answers::LaidTrip& laid, const answers::LaidTrip& after,
                              std::size_t step, const std::string& what) {
  Record planned = engine::blank_record(*laid.course);
  Engine::Standing before = Engine::begin(*laid.course, planned);
  Engine::go_on(*laid.course, before, step);
  const Course& course = *after.course;
  Record part = engine::blank_record(course);
  Engine::Standing standing = Engine::resume(before, course, step, part);
  Engine::lose_excess(course, standing);
  Engine::go_on(course, standing, course.timeline->steps.size());
  const Record whole = run_from_the_start(laid, after, step);
  const int day = course.timeline->steps[step].day;
  EXPECT_LE(farthest_apart(course, whole, part, day), 1e-9) << what;
  for (auto d = static_cast<std::size_t>(day) + 1; d < whole.days(); ++d) {
    for (std::size_t r = 0; r < whole.reserves; ++r) {
      const engine::ReserveDay& a = whole.reserve(d, r);
      const engine::ReserveDay& b = part.reserve(d, r);
      const double size = std::max(1.0, course.reserves[r].capacity);
      if (a.judged)
        EXPECT_NEAR(a.slack, b.slack, 1e-8 * size) << what << " " << course.reserves[r].name << d;
      EXPECT_NEAR(a.short_of, b.short_of, 1e-8 * size) << what << " " << course.reserves[r].name;
      EXPECT_NEAR(a.lowest, b.lowest, 1e-8 * size) << what << " " << course.reserves[r].name << d;
    }
  }
}

TEST(ChangedCourse, IsTheRunFromTheStartInEveryScenario) {
  for (const plan::Plan& plan : all_scenarios()) {
    const Trip trip = support::travel(plan);
    if (trip.days() > 20) continue;  // the rest are enough of them
    const answers::LaidTrip laid = answers::laid_trip_of(trip);
    engine::Course planned = trip.course;
    engine::make_up(planned, trip.record);
    for (const answers::Mishap& mishap : answers::mishaps_of(laid)) {
      if (!leaves_the_past_alone(mishap)) continue;
      const std::vector<std::size_t> strikes = mishap.strikes(laid);
      for (std::size_t n = 0; n < strikes.size(); n += 3) {
        const answers::LaidTrip after = answers::after(laid, mishap, strikes[n], planned);
        expect_as_from_the_start(laid, after, strikes[n],
                                 plan.trip.title + ": " + mishap.failure.name);
      }
    }
  }
}

/// A trip on which everything is used, and nothing remembers what it has been through but by its
/// level: no cold, no food that ages, nothing due every few days.
PlanText forgetful() {
  PlanText text;
  text.margins = {"drinking_water: 1 day", "fuel: 60 km", "battery: 50 %"};
  text.driving = "{most_per_day: 6 h, daylight_only: no, depart: \"08:00\"}";
  // Alike, and the same every day, so that a meal is one meal whoever there is and for how long.
  text.people = {"{name: Ada, mass: 75 kg, height: 175 cm, age: 35, sex: male}",
                 "{name: Ben, mass: 75 kg, height: 175 cm, age: 35, sex: male}"};
  text.activities = {"camp: {low: 5 h, moderate: 2 h}", "on_the_road: {low: 5 h, moderate: 2 h}"};
  text.containers = {"{name: a, holds: 40 L, filled: 40 L, for: drinking}",
                     "{name: b, holds: 30 L, filled: 30 L, for: drinking}",
                     "{name: tub, holds: 80 L, filled: 80 L, for: utility}"};
  text.utility_use = {"cooking: 3 L/day"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2600 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L, unusable: 5 L}, {name: jerry, holds: 20 L, filled: 20 L}], idle: 1 L/h}"};
  text.batteries = {
      "{name: bank, kind: agm, capacity: 100 Ah, filled: 90 %, floor: 50 %, cut_off: 40 %}"};
  text.charging = {"{name: alternator, current: 15 A}", "{name: panel, solar: 80 W}"};
  text.loads = {"{name: lamp, draw: 20 W, after_dark: 4 h/day}", "{name: radio, draw: 9 W}"};
  text.food = {"{item: rice, kept: dry, mass: 20 kg, meals: 90}",
               "{item: oats, kept: dry, mass: 9 kg, meals: 30}"};
  text.climate = {PlanText::climate_of("air", 36, 17, "25 %", "6 kWh/m2/day")};
  text.places = {PlanText::place("Base", "air"),
                 PlanText::place("Well", "air", "drinking_water: {}, utility_water: {}"),
                 PlanText::place("Pump", "air", "diesel: {most: 40 L}")};
  text.itinerary = {"{at: Base}",
                    "drive: {to: Well, distance: 180 km, surfaces: {gravel: 100 km, track: 80 km}}",
                    "stay: {nights: 3}",
                    "resupply: {drinking_water: 20 L, utility_water: fill}",
                    "drive: {to: Pump, distance: 300 km, surfaces: {track: 180 km, sand: 120 km}}",
                    "resupply: {diesel: fill}",
                    "stay: {nights: 2}",
                    "drive: {to: Base, distance: 330 km, surfaces: {gravel: 330 km}}"};
  return text;
}

/// The rest of that trip from the morning of a day as a trip of its own: it begins at Well, where
/// the first one is then, with what that has left.
plan::Plan rest_of(const Trip& trip, int day) {
  plan::Plan rest = trip.plan;
  const auto evening = static_cast<std::size_t>(day) - 1;
  rest.trip.start += boost::gregorian::days(day);
  rest.itinerary.erase(rest.itinerary.begin() + 1, rest.itinerary.begin() + 2);
  std::get<plan::At>(rest.itinerary[0]).place = 1;
  std::get<plan::Stay>(rest.itinerary[1]).nights -= day;
  for (plan::Container& can : rest.water.containers) {
    can.filled_l = trip.store(evening, can.name).end;
  }
  for (plan::Tank& tank : rest.vehicles[0].tanks) {
    tank.filled_l = trip.store(evening, tank.name).end;
  }
  plan::Bank& bank = rest.power.banks[0];
  bank.filled = trip.store(evening, bank.name).end / bank.capacity_ah;
  for (plan::FoodItem& item : rest.food) {
    const double left = trip.store(evening, item.name).end;
    item.mass_kg *= left / item.meals;
    item.meals = left;
  }
  return rest;
}

/// A plan in which what a mishap takes has never been there, as far as a plan can say that.
void take_for_good(plan::Plan& plan, const engine::Damage& damage) {
  for (const int can : damage.containers) {
    plan.water.containers[static_cast<std::size_t>(can)].filled_l = 0;
  }
  for (const plan::TankReference& tank : damage.tanks) {
    plan.vehicles[0].tanks[static_cast<std::size_t>(tank.tank)].filled_l = 0;
  }
  for (const int c : damage.chargers) {
    plan::Charger& charger = plan.power.chargers[static_cast<std::size_t>(c)];
    charger.current_a = charger.power_w = charger.hours_day = 0;
  }
  // A bank holds what it did, or what it still can.
  for (const engine::WornBank& worn : damage.banks) {
    plan::Bank& bank = plan.power.banks[static_cast<std::size_t>(worn.bank)];
    bank.capacity_ah *= worn.left;
    bank.filled = std::min(1.0, bank.filled / worn.left);
  }
}

/// A laid trip gone on with, in the course after a mishap, from a step.
Record gone_on(const Trip& trip, const Course& course, std::size_t step) {
  Record planned = engine::blank_record(trip.course);
  Engine::Standing before = Engine::begin(trip.course, planned);
  Engine::go_on(trip.course, before, step);
  Record part = engine::blank_record(course);
  Engine::Standing standing = Engine::resume(before, course, step, part);
  Engine::lose_excess(course, standing);
  Engine::go_on(course, standing, course.timeline->steps.size());
  return part;
}

/// The rest of a trip as a plan of its own, in which a mishap has happened before it begins.
Course own_course(const plan::Plan& rest, const answers::Mishap& mishap) {
  plan::Plan own = rest;
  if (mishap.change) mishap.change(own, answers::laid_trip_of(support::travel(rest)), 0);
  take_for_good(own, mishap.damage);
  engine::Layout layout;
  if (mishap.halt_h > 0) layout.detours.push_back({.at_h = 0, .halt_h = mishap.halt_h});
  Course course =
      Engine::compile(own, std::make_shared<const Timeline>(engine::lay_timeline(own, layout)));
  Engine::damage(course, own,
                 {.containers = mishap.damage.containers, .tanks = mishap.damage.tanks});
  return course;
}

void expect_the_same_days(const Course& alone, const Record& part, int day,
                          const std::string& name) {
  const Record record = Engine::run(alone);
  ASSERT_EQ(record.days() + static_cast<std::size_t>(day), part.days()) << name;
  ASSERT_EQ(record.stores, part.stores);
  for (std::size_t d = 0; d < record.days(); ++d) {
    const std::size_t on = d + static_cast<std::size_t>(day);
    for (std::size_t s = 0; s < record.stores; ++s) {
      EXPECT_NEAR(record.store(d, s).end, part.store(on, s).end, 1e-9)
          << name << ": " << alone.stores[s].name << " on day " << on;
    }
    // What is lost on the day itself is in the ledger of one alone.
    for (std::size_t r = 0; d > 0 && r < record.reserves; ++r) {
      const std::string where = name + ": " + alone.reserves[r].name;
      EXPECT_NEAR(record.reserve(d, r).slack, part.reserve(on, r).slack, 1e-8) << where;
      EXPECT_NEAR(record.reserve(d, r).short_of, part.reserve(on, r).short_of, 1e-8) << where;
      EXPECT_NEAR(record.reserve(d, r).used, part.reserve(on, r).used, 1e-8) << where;
    }
  }
}

TEST(ChangedCourse, AfterAMishapIsATripOfItsOwnThatBeginsThere) {
  const Trip trip = support::travel(forgetful());
  const answers::LaidTrip laid = answers::laid_trip_of(trip);
  std::set<MishapKind> met;
  for (const int day : {1, 2}) {
    const std::size_t step = answers::morning_step(*laid.timeline, day);
    const plan::Plan rest = rest_of(trip, day);
    for (const answers::Mishap& mishap : answers::mishaps_of(laid)) {
      const std::vector<std::size_t> strikes = mishap.strikes(laid);
      const bool can = mishap.halt_h > 0 || std::ranges::find(strikes, step) != strikes.end();
      if (!can || mishap.turns_back) continue;
      met.insert(mishap.failure.kind);
      const answers::LaidTrip after = answers::after(laid, mishap, step, trip.course);
      expect_the_same_days(own_course(rest, mishap), gone_on(trip, *after.course, step), day,
                           mishap.failure.name);
    }
  }
  EXPECT_THAT(met, testing::IsSupersetOf({MishapKind::container, MishapKind::stuck,
                                          MishapKind::charger, MishapKind::battery,
                                          MishapKind::heat_wave, MishapKind::one_more}));
}

/// Struck before anything has happened, a trip is that of the plan with the thing missing.
RC_GTEST_PROP(ChangedCourse, OfATripStruckAtItsBeginningIsThePlanWithoutTheThing, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const PlanText text = support::random_plan(pick);
  RC_LOG() << text.text();
  const Trip trip = support::travel(text);
  const answers::LaidTrip laid = answers::laid_trip_of(trip);
  std::vector<answers::Mishap> mishaps = answers::mishaps_of(laid);
  std::erase_if(mishaps, [](const answers::Mishap& mishap) {
    constexpr std::array kinds{MishapKind::compressor, MishapKind::charger, MishapKind::heat_wave,
                               MishapKind::one_more};
    return std::ranges::find(kinds, mishap.failure.kind) == kinds.end();
  });
  const answers::Mishap& mishap =
      mishaps[static_cast<std::size_t>(pick(0, static_cast<int>(mishaps.size()) - 1))];
  RC_LOG() << mishap.failure.name << "\n";
  plan::Plan own = *laid.plan;
  if (mishap.change) mishap.change(own, laid, 0);
  take_for_good(own, mishap.damage);
  auto timeline = std::make_shared<Timeline>(engine::lay_timeline(own));
  const answers::LaidTrip after = answers::after(laid, mishap, 0, trip.course);
  // What a meal is stays what it was, where one more person eats with the others.
  const bool meals_as_before = timeline->meal_kj == after.timeline->meal_kj;
  RC_PRE(meals_as_before);
  Course alone =
      Engine::compile(own, std::move(timeline), {.damage = {.cabinets = mishap.damage.cabinets}});
  const Course& course = *after.course;
  RC_ASSERT(alone.orders.size() == course.orders.size());
  for (std::size_t o = 0; o < course.orders.size(); ++o) {
    alone.orders[o].order.amount = course.orders[o].order.amount;
  }
  Record planned = engine::blank_record(trip.course);
  const Engine::Standing before = Engine::begin(trip.course, planned);
  Record part = engine::blank_record(course);
  Engine::Standing standing = Engine::resume(before, course, 0, part);
  Engine::lose_excess(course, standing);
  Engine::go_on(course, standing, course.timeline->steps.size());
  const Record whole = Engine::run(alone);
  RC_ASSERT(whole.days() == part.days());
  RC_ASSERT(farthest_apart(course, whole, part, 0) <= 1e-9);
}

}  // namespace
}  // namespace drystage
