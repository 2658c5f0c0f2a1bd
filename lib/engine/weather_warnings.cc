#include "engine/weather_warnings.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <variant>

#include "engine/drinking.h"
#include "engine/water_loss.h"
#include "models/altitude.h"
#include "models/heat_strain.h"
#include "models/water_need.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

/// Days come one after another. One may lie in two climates; the worse one counts.
void tell(std::vector<Event>& told, const Event& event) {
  for (auto known = told.rbegin(); known != told.rend() && known->day == event.day; ++known) {
    if (known->kind != event.kind || known->subject != event.subject) continue;
    if (std::abs(event.amount) > std::abs(known->amount)) {
      known->amount = event.amount;
      known->other = event.other;
    }
    return;
  }
  told.push_back(event);
}

Event on_day(EventKind kind, int day) {
  return {.kind = kind, .day = static_cast<std::int16_t>(day)};
}

/// What the party meets on a day, at one place and with one activity.
struct Met {
  int day = 0;
  const WeatherDay& weather;
  double loss_g_m2 = 0;
};

void warn_of_heat(const plan::Person& person, int index, double factor, const Met& met,
                  std::vector<Event>& told) {
  constexpr double hot_c = 35;
  constexpr double adult_m2 = 1.8;
  if (!person.acclimatised && met.weather.max_c >= hot_c) {
    Event event = on_day(EventKind::not_used_to_heat, met.day);
    event.subject = index;
    tell(told, event);
  }
  // The published ceiling is an adult's; smaller people get less of it.
  const double surface_m2 = models::body_surface_m2(person.mass_kg, person.height_m);
  const double ceiling_l = models::most_drinking_l_per_day * std::min(1.0, surface_m2 / adult_m2);
  const PersonNeed need = person_drinking_l(person, met.loss_g_m2, met.weather.elevation_m, factor);
  // What somebody was once seen to drink does not make such heat safer.
  const double litres = std::max(need.by_model_l, need.planned_l);
  if (litres > ceiling_l) {
    Event event = on_day(EventKind::heat_ceiling, met.day);
    event.subject = index;
    event.amount = litres;
    event.other = ceiling_l;
    tell(told, event);
  }
  if (need.planned_l < far_under_model * need.by_model_l) {
    Event event = on_day(EventKind::observed_low, met.day);
    event.subject = index;
    event.amount = need.planned_l;
    event.other = need.by_model_l;
    tell(told, event);
  }
}

void warn_of_nights(const plan::Plan& plan, const Timeline& timeline, std::vector<Event>& told) {
  const auto* start = std::get_if<plan::At>(&plan.itinerary.front());
  const double start_m = plan.places[at(start == nullptr ? 0 : start->place)].elevation_m;
  for (int d = 0; d < static_cast<int>(timeline.days.size()); ++d) {
    const auto day = static_cast<std::size_t>(d);
    const double night_m = timeline.days[day].night_m;
    const double before_m = d > 0 ? timeline.days[day - 1].night_m : start_m;
    const double rise_m = night_m - before_m;
    const bool first =
        night_m > models::illness_altitude_m && (d == 0 || before_m <= models::illness_altitude_m);
    const bool fast = night_m > models::slow_ascent_above_m && rise_m > models::most_ascent_m;
    for (const EventKind kind : {EventKind::altitude, EventKind::fast_ascent}) {
      if (!(kind == EventKind::altitude ? first : fast)) continue;
      Event event = on_day(kind, d);
      event.amount = night_m;
      event.other = rise_m;
      told.push_back(event);
    }
  }
}

}  // namespace

std::vector<Event> weather_warnings(const plan::Plan& plan, const Timeline& timeline) {
  const Conditions& conditions = timeline.conditions;
  std::vector<Event> told;
  for (std::size_t d = 0; d < timeline.party_days.size(); ++d) {
    const PartyDay& day = timeline.party_days[d];
    if (day.activity != timeline.days[at(day.day)].schedule.activity) {
      continue;
    }
    const plan::Activity& activity = plan.activities[at(day.activity)];
    const Met met{.day = day.day,
                  .weather = conditions.place_days[at(day.place_day)].weather,
                  .loss_g_m2 = conditions.party_days[d].loss_g_m2};
    if (beyond_proven_heat(activity, met.weather)) {
      tell(told, on_day(EventKind::heat_unproven, day.day));
    }
    if (beyond_proven_wind(met.weather)) {
      Event event = on_day(EventKind::hot_wind, day.day);
      event.amount = *met.weather.wind_m_s;
      tell(told, event);
    }
    for (std::size_t p = 0; p < plan.people.size(); ++p) {
      const int company = timeline.place_days[at(day.place_day)].company;
      if (timeline.companies[at(company)].people[p] == 0) continue;
      warn_of_heat(plan.people[p], static_cast<int>(p), conditions.drinking_factors[p], met, told);
    }
  }
  for (std::size_t d = 0; d < timeline.days.size(); ++d) {
    if (conditions.days[d].min_c >= 0) continue;
    Event event = on_day(EventKind::frost, static_cast<int>(d));
    event.amount = conditions.days[d].min_c;
    told.push_back(event);
  }
  warn_of_nights(plan, timeline, told);
  return told;
}

}  // namespace drystage::engine
