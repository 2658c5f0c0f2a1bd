// The first days of a timeline, taken from another one, and the rest laid out: it is the same
// timeline in every field.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <tuple>

#include "engine/weather_warnings.h"
#include "support/laid_out.h"
#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage::same_days_test {
namespace {

using engine::Conditions;
using engine::DayConditions;
using engine::DayInfo;
using engine::Event;
using engine::Leg;
using engine::PartyConditions;
using engine::PartyDay;
using engine::PlaceConditions;
using engine::PlaceDay;
using engine::RoadPiece;
using engine::StepConditions;
using engine::Timeline;
using engine::TimeStep;
using engine::WeatherDay;
using support::all_scenarios;
using support::day_h;
using support::PlanText;

template <class Row>
bool same_bytes(const Row* a, const Row* b, std::size_t count) {
  static_assert(sizeof(Row) % sizeof(double) == 0);  // rows of doubles: no padding
  return std::memcmp(a, b, count * sizeof(Row)) == 0;
}

bool same(const engine::RoutePoint& a, const engine::RoutePoint& b) {
  return std::tie(a.from, a.to, a.share) == std::tie(b.from, b.to, b.share);
}

bool same(const TimeStep& a, const TimeStep& b) {
  const auto key = [](const TimeStep& s) {
    return std::tie(s.index, s.day, s.from_h, s.dt_h, s.dark_h, s.utility_l, s.meals, s.distance_km,
                    s.drive, s.ground, s.leg, s.place_day, s.party_day, s.stop, s.last_of_day);
  };
  return key(a) == key(b);
}

bool same(const WeatherDay& a, const WeatherDay& b) {
  const auto key = [](const WeatherDay& w) {
    return std::tie(w.max_c, w.min_c, w.vapour_kpa, w.wind_m_s, w.solar_minus_clock_h);
  };
  return key(a) == key(b) && same_bytes(&a.radiation, &b.radiation, 1);
}

bool same(const PlaceDay& a, const PlaceDay& b) {
  const auto key = [](const PlaceDay& h) {
    return std::tie(h.day, h.climate, h.place, h.at.latitude_deg, h.at.longitude_deg,
                    h.at.elevation_m, h.utility_l, h.meals, h.mains, h.camp);
  };
  return key(a) == key(b);
}

bool same(const PartyDay& a, const PartyDay& b) {
  return std::tie(a.day, a.place_day, a.activity) == std::tie(b.day, b.place_day, b.activity);
}

bool same(const PlaceConditions& a, const PlaceConditions& b) {
  return std::tie(a.air_c, a.drink_l) == std::tie(b.air_c, b.drink_l) && same(a.weather, b.weather);
}

bool same(const PartyConditions& a, const PartyConditions& b) { return same_bytes(&a, &b, 1); }
bool same(const StepConditions& a, const StepConditions& b) { return same_bytes(&a, &b, 1); }
bool same(const DayConditions& a, const DayConditions& b) { return same_bytes(&a, &b, 1); }

bool same(const RoadPiece& a, const RoadPiece& b) {
  const auto key = [](const RoadPiece& p) {
    return std::tie(p.surface, p.speed_km_h, p.distance_km, p.climb_m, p.descent_m, p.elevation_m,
                    p.fuel_factor);
  };
  return key(a) == key(b);
}

bool same(const Leg& a, const Leg& b) {
  const auto key = [](const Leg& l) {
    return std::tie(l.item, l.from, l.first_ground, l.distance_km);
  };
  const auto same_piece = [](const RoadPiece& x, const RoadPiece& y) { return same(x, y); };
  return key(a) == key(b) && std::ranges::equal(a.parts, b.parts, same_piece);
}

bool same(const DayInfo& a, const DayInfo& b) {
  const auto key = [](const DayInfo& d) {
    return std::tie(d.night_m, d.first_step, d.schedule.date, d.schedule.distance_km,
                    d.schedule.drive_h, d.schedule.sunrise_h, d.schedule.sunset_h,
                    d.schedule.activity);
  };
  return key(a) == key(b) && same(a.schedule.from, b.schedule.from) &&
         same(a.schedule.to, b.schedule.to);
}

bool same(const Event& a, const Event& b) {
  const auto key = [](const Event& e) {
    return std::tie(e.day, e.hour, e.kind, e.subject, e.amount, e.other);
  };
  return key(a) == key(b);
}

template <class Things>
bool all_same(const Things& a, const Things& b) {
  return std::ranges::equal(a, b, [](const auto& x, const auto& y) { return same(x, y); });
}

/// In an order that does not depend on who told of them first.
std::vector<Event> sorted(std::vector<Event> events) {
  std::ranges::sort(events, {}, [](const Event& e) {
    return std::tuple(e.day, e.hour, e.kind, e.subject, e.amount, e.other);
  });
  return events;
}

/// What differs between two timelines of a plan, in a word; nothing where they are one.
std::string difference(const plan::Plan& plan, const Timeline& a, const Timeline& b) {
  if (!all_same(a.days, b.days)) return "days";
  if (!all_same(a.steps, b.steps)) return "steps";
  if (!all_same(a.pieces, b.pieces)) return "pieces";
  if (!all_same(a.legs, b.legs)) return "legs";
  if (!all_same(a.place_days, b.place_days)) return "place days";
  if (!all_same(a.party_days, b.party_days)) return "party days";
  const Conditions& x = a.conditions;
  const Conditions& y = b.conditions;
  if (!all_same(x.days, y.days)) return "weather of days";
  if (!all_same(x.steps, y.steps)) return "weather of steps";
  if (x.air_density_kg_m3 != y.air_density_kg_m3) return "air on the road";
  if (!all_same(x.place_days, y.place_days)) return "weather of place days";
  if (!all_same(x.party_days, y.party_days)) return "drinking";
  if (!all_same(sorted(a.events), sorted(b.events))) return "events";
  const auto warnings = [&plan](const Timeline& of) {
    return sorted(engine::weather_warnings(plan, of));
  };
  if (!all_same(warnings(a), warnings(b))) return "warnings";
  if (a.meal_kj != b.meal_kj) return "meals";
  if (a.problems.size() != b.problems.size()) return "problems";
  return "";
}

TEST(SameDays, TakenFromAnotherTimelineMakeTheSameOneInEveryScenario) {
  for (const plan::Plan& plan : all_scenarios()) {
    const Timeline whole = engine::lay_timeline(plan);
    const int days = static_cast<int>(whole.days.size());
    // Every day of a trip of two weeks.
    for (int d = 0; d <= days; d += 1 + days / 20) {
      const Timeline part =
          engine::lay_timeline(plan, engine::Layout{.same = &whole, .same_days = d});
      EXPECT_EQ(difference(plan, whole, part), "") << plan.trip.title << " from day " << d;
    }
  }
}

RC_GTEST_PROP(SameDays, TakenFromAnotherTimelineMakeTheSameOne, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const PlanText text = support::random_plan(pick);
  RC_LOG() << text.text();
  const plan::Plan plan = text.plan();
  const Timeline whole = engine::lay_timeline(plan);
  for (int d = 0; d <= static_cast<int>(whole.days.size()); ++d) {
    const Timeline part =
        engine::lay_timeline(plan, engine::Layout{.same = &whole, .same_days = d});
    RC_LOG() << "from day " << d << "\n";
    RC_ASSERT(difference(plan, whole, part) == "");
  }
}

/// Of what is laid out for one plan, the days before a halt serve the plan with the halt.
RC_GTEST_PROP(SameDays, BeforeAHaltServeTheTripWithTheHalt, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  plan::Plan plan = support::random_plan(pick).plan();
  // What a meal is depends on the whole trip, and stays what it was.
  plan.activities[static_cast<std::size_t>(plan.camp_activity)] =
      plan.activities[static_cast<std::size_t>(plan.road_activity)];
  for (plan::ItineraryItem& item : plan.itinerary) {
    if (auto* stay = std::get_if<plan::Stay>(&item)) stay->activity.reset();
    if (auto* drive = std::get_if<plan::Drive>(&item)) drive->activity.reset();
  }
  const Timeline planned = engine::lay_timeline(plan);
  const double at_h = pick(0, 4 * 24 * static_cast<int>(planned.days.size()) - 1) / 4.0;
  engine::Layout layout{.detours = {{.at_h = at_h, .halt_h = pick(1, 200) / 4.0}}};
  Timeline whole = engine::lay_timeline(plan, layout);
  layout.same = &planned;
  layout.same_days = static_cast<int>(at_h / day_h);
  const Timeline part = engine::lay_timeline(plan, layout);
  RC_ASSERT(std::abs(whole.meal_kj - part.meal_kj) <= 1e-9 * whole.meal_kj);
  whole.meal_kj = part.meal_kj;
  RC_ASSERT(whole.steps.size() == part.steps.size());
  // A mean over more days may differ in its last digit.
  for (std::size_t s = 0; s < whole.steps.size(); ++s) {
    RC_ASSERT(std::abs(whole.steps[s].meals - part.steps[s].meals) <= 1e-12);
    whole.steps[s].meals = part.steps[s].meals;
  }
  for (std::size_t h = 0; h < whole.place_days.size(); ++h) {
    RC_ASSERT(std::abs(whole.place_days[h].meals - part.place_days.at(h).meals) <= 1e-9);
    whole.place_days[h].meals = part.place_days[h].meals;
  }
  RC_ASSERT(difference(plan, whole, part) == "");
}

}  // namespace
}  // namespace drystage::same_days_test
