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

namespace drystage::engine {
namespace {

void tell(Timeline& timeline, const Event& event) {
  // A day may lie in two climates; the worse one counts.
  for (Event& known : timeline.events) {
    if (known.kind != event.kind || known.day != event.day || known.subject != event.subject) {
      continue;
    }
    if (std::abs(event.amount) > std::abs(known.amount)) {
      known.amount = event.amount;
      known.other = event.other;
    }
    return;
  }
  timeline.events.push_back(event);
}

Event on_day(EventKind kind, int day) {
  return {.kind = kind, .day = static_cast<std::int16_t>(day)};
}

void warn_of_heat(const plan::Plan& plan, int index, const PartyDay& day, const WeatherDay& weather,
                  Timeline& timeline) {
  constexpr double hot_c = 35;
  constexpr double adult_m2 = 1.8;
  const plan::Person& person = plan.people[static_cast<std::size_t>(index)];
  if (!person.acclimatised && weather.max_c >= hot_c) {
    Event event = on_day(EventKind::not_used_to_heat, day.day);
    event.subject = index;
    tell(timeline, event);
  }
  // The published ceiling is an adult's; smaller people get less of it.
  const double surface_m2 = models::body_surface_m2(person.mass_kg, person.height_m);
  const double ceiling_l = models::most_drinking_l_per_day * std::min(1.0, surface_m2 / adult_m2);
  const double factor = timeline.drinking_factors[static_cast<std::size_t>(index)];
  const PersonNeed need = person_drinking_l(person, day.loss_g_m2, weather.elevation_m, factor);
  // What somebody was once seen to drink does not make such heat safer.
  const double litres = std::max(need.by_model_l, need.planned_l);
  if (litres > ceiling_l) {
    Event event = on_day(EventKind::heat_ceiling, day.day);
    event.subject = index;
    event.amount = litres;
    event.other = ceiling_l;
    tell(timeline, event);
  }
  if (need.planned_l < far_under_model * need.by_model_l) {
    Event event = on_day(EventKind::observed_low, day.day);
    event.subject = index;
    event.amount = need.planned_l;
    event.other = need.by_model_l;
    tell(timeline, event);
  }
}

void warn_of_nights(const plan::Plan& plan, int from_day, Timeline& timeline) {
  const auto* start = std::get_if<plan::At>(&plan.itinerary.front());
  const double start_m =
      plan.places[static_cast<std::size_t>(start == nullptr ? 0 : start->place)].elevation_m;
  for (int d = from_day; d < static_cast<int>(timeline.days.size()); ++d) {
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
      tell(timeline, event);
    }
  }
}

}  // namespace

void warn_of_weather(const plan::Plan& plan, const std::vector<PartyDay>& needs, int from_day,
                     Timeline& timeline) {
  for (const PartyDay& day : needs) {
    if (day.activity != timeline.days[static_cast<std::size_t>(day.day)].schedule.activity) {
      continue;
    }
    const WeatherDay weather = timeline.place_days[static_cast<std::size_t>(day.place_day)].weather;
    const plan::Activity& activity = plan.activities[static_cast<std::size_t>(day.activity)];
    if (beyond_proven_heat(activity, weather)) {
      tell(timeline, on_day(EventKind::heat_unproven, day.day));
    }
    if (beyond_proven_wind(weather)) {
      Event event = on_day(EventKind::hot_wind, day.day);
      event.amount = *weather.wind_m_s;
      tell(timeline, event);
    }
    for (std::size_t p = 0; p < plan.people.size(); ++p) {
      warn_of_heat(plan, static_cast<int>(p), day, weather, timeline);
    }
  }
  for (auto d = static_cast<std::size_t>(from_day); d < timeline.days.size(); ++d) {
    if (timeline.days[d].min_c >= 0) continue;
    Event event = on_day(EventKind::frost, static_cast<int>(d));
    event.amount = timeline.days[d].min_c;
    tell(timeline, event);
  }
  warn_of_nights(plan, from_day, timeline);
}

}  // namespace drystage::engine
