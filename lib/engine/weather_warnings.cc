#include "engine/weather_warnings.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "engine/party.h"
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
    if (std::abs(event.amount) > std::abs(known.amount)) known.amount = event.amount;
    return;
  }
  timeline.events.push_back(event);
}

Event on_day(EventKind kind, int day) {
  return {.kind = kind, .day = static_cast<std::int16_t>(day)};
}

void warn_of_heat(const plan::Plan& plan, int index, const PartyDay& day, const WeatherDay& weather,
                  double party_l, Timeline& timeline) {
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
  if (person.drinking_l_day || party_l <= ceiling_l) return;
  const plan::Activity& activity = plan.activities[static_cast<std::size_t>(day.activity)];
  const double litres = person_drinking_l_day(person, activity, weather);
  if (litres <= ceiling_l) return;
  Event event = on_day(EventKind::heat_ceiling, day.day);
  event.subject = index;
  event.amount = litres;
  event.other = ceiling_l;
  tell(timeline, event);
}

}  // namespace

void warn_of_weather(const plan::Plan& plan, const std::vector<PartyDay>& needs, int from_day,
                     Timeline& timeline) {
  for (const PartyDay& day : needs) {
    if (day.activity != timeline.days[static_cast<std::size_t>(day.day)].schedule.activity) {
      continue;
    }
    const auto here = std::ranges::find_if(timeline.heres, [&](const Here& other) {
      return other.day == day.day && other.climate == day.climate;
    });
    const plan::Activity& activity = plan.activities[static_cast<std::size_t>(day.activity)];
    if (beyond_proven_heat(activity, here->weather)) {
      tell(timeline, on_day(EventKind::heat_unproven, day.day));
    }
    double party_l = 0;
    for (const double litres : day.drink_l_h) party_l += litres;
    for (std::size_t p = 0; p < plan.people.size(); ++p) {
      warn_of_heat(plan, static_cast<int>(p), day, here->weather, party_l, timeline);
    }
  }
  for (auto d = static_cast<std::size_t>(from_day); d < timeline.days.size(); ++d) {
    if (timeline.days[d].min_c >= 0) continue;
    Event event = on_day(EventKind::frost, static_cast<int>(d));
    event.amount = timeline.days[d].min_c;
    tell(timeline, event);
  }
}

}  // namespace drystage::engine
