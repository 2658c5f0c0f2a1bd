// Weather changes the conditions of a trip and nothing of its calendar: filled anew in place, they
// and the course that goes by them are those of a trip laid out in that weather.
#include "engine/conditions.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <boost/date_time/gregorian/gregorian.hpp>
#include <cstring>
#include <tuple>

#include "engine/engine.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Conditions;
using engine::Course;
using engine::Engine;
using engine::Timeline;

template <class Row>
bool same_bytes(const std::vector<Row>& a, const std::vector<Row>& b) {
  static_assert(sizeof(Row) % sizeof(double) == 0);  // rows of doubles: no padding
  return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof(Row)) == 0;
}

bool same(const Conditions& a, const Conditions& b) {
  if (a.place_days.size() != b.place_days.size()) return false;
  for (std::size_t h = 0; h < a.place_days.size(); ++h) {
    const auto& x = a.place_days[h];
    const auto& y = b.place_days[h];
    if (x.air_c != y.air_c || x.drink_l != y.drink_l) return false;
    if (x.weather.vapour_kpa != y.weather.vapour_kpa) return false;
    if (x.weather.radiation.global_wh_m2 != y.weather.radiation.global_wh_m2) return false;
  }
  return same_bytes(a.days, b.days) && same_bytes(a.steps, b.steps) &&
         same_bytes(a.party_days, b.party_days) && a.air_density_kg_m3 == b.air_density_kg_m3 &&
         a.drinking_factors == b.drinking_factors;
}

/// The plan with days of other weather, of the kind that answers lay over it.
plan::Plan in_other_weather(plan::Plan plan, int from_day, int days, double warmer_k,
                            plan::Spell spell) {
  plan::NamedDays other;
  other.from = plan.trip.start + boost::gregorian::days(from_day);
  other.to = other.from + boost::gregorian::days(days - 1);
  other.warmer_k = warmer_k;
  other.spell = spell;
  plan.weather.push_back(other);
  return plan;
}

RC_GTEST_PROP(Conditions, WeatherChangesNothingOfTheCalendar, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const plan::Plan plan = support::random_plan(pick).plan();
  const plan::Plan other =
      in_other_weather(plan, 0, engine::most_days, pick(-20, 20), plan::Spell::dull);
  const Timeline a = engine::lay_timeline(plan);
  const Timeline b = engine::lay_timeline(other);
  RC_ASSERT(a.steps.size() == b.steps.size());
  const auto when_and_where = [](const engine::TimeStep& s) {
    return std::tie(s.index, s.day, s.from_h, s.dt_h, s.dark_h, s.utility_l, s.potable_utility_l,
                    s.meals, s.distance_km, s.drive, s.ground, s.leg, s.place_day, s.party_day,
                    s.stop, s.last_of_day);
  };
  for (std::size_t s = 0; s < a.steps.size(); ++s) {
    RC_ASSERT(when_and_where(a.steps[s]) == when_and_where(b.steps[s]));
  }
  RC_ASSERT(a.place_days.size() == b.place_days.size());
  RC_ASSERT(a.party_days.size() == b.party_days.size());
  RC_ASSERT(a.pieces.size() == b.pieces.size());
  RC_ASSERT(a.events.size() == b.events.size());
}

RC_GTEST_PROP(Conditions, FilledAnewAreThoseOfATripLaidOutInThatWeather, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const plan::Plan plan = support::random_plan(pick).plan();
  const auto timeline = std::make_shared<Timeline>(engine::lay_timeline(plan));
  const int days = static_cast<int>(timeline->days.size());
  const int from = pick(0, days - 1);
  const int until = pick(from + 1, days);
  const plan::Plan other = in_other_weather(plan, from, until - from, pick(-3, 8),
                                            pick(0, 1) == 0 ? plan::Spell::hot : plan::Spell::dull);
  const auto anew = std::make_shared<const Timeline>(engine::lay_timeline(other));

  Course course = engine::compile(plan, timeline);
  engine::fill_days(timeline->conditions, other, *timeline, *timeline->almanac, from, until);
  RC_ASSERT(same(timeline->conditions, anew->conditions));
  Engine::refill(course, plan, from, until);
  const Course laid_out_anew = engine::recompile(other, anew, course);
  const engine::Record record = Engine::run(course);
  const engine::Record as_anew = Engine::run(laid_out_anew);
  RC_ASSERT(same_bytes(record.reserve_days, as_anew.reserve_days));
  RC_ASSERT(same_bytes(record.store_days, as_anew.store_days));

  // And back, from conditions that are there.
  const Timeline usual = engine::lay_timeline(plan);
  engine::take_days(timeline->conditions, usual.conditions, *timeline, from, until);
  RC_ASSERT(same(timeline->conditions, usual.conditions));
}

/// An almanac that other plans have filled answers as an empty one does.
RC_GTEST_PROP(Almanac, MayBeSharedByAnyPlans, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const plan::Plan plan = support::random_plan(pick).plan();
  plan::Plan hotter = in_other_weather(plan, 0, 3, 4, plan::Spell::usual);
  plan::Plan busier = plan;
  for (plan::Activity& activity : busier.activities) {
    activity.in_sun = 1 - activity.in_sun;
    std::swap(activity.hours[0], activity.hours[1]);
  }
  plan::Plan higher = plan;
  for (plan::Place& place : higher.places) place.elevation_m += 100;
  plan::Plan later = plan;
  later.trip.utc_offset_h += 1;
  const auto shared = engine::lay_timeline(plan).almanac;
  for (const plan::Plan& other : {hotter, busier, higher, later, plan}) {
    const Timeline by_itself = engine::lay_timeline(other);
    if (!by_itself.problems.empty()) continue;
    const Timeline sharing = engine::lay_timeline(other, {.almanac = shared});
    RC_ASSERT(same(by_itself.conditions, sharing.conditions));
  }
}

}  // namespace
}  // namespace drystage
