#include "report/card/day_facts.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/route_point.h"
#include "models/sun.h"
#include "report/text/amounts.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

/// An hour as a clock shows it: the sun's may lie on the day before or after.
std::string on_the_clock(double hour) {
  constexpr double half_minute_h = 1.0 / 120;
  const double turned = hour - day_h * std::floor((hour + half_minute_h) / day_h);
  return clock(turned);
}

models::SunTimes sun_at(const plan::Plan& plan, plan::Date date, const engine::RoutePoint& spot) {
  const engine::Position at = engine::position(plan, spot);
  return models::sun_times(date.year(), date.month(), date.day(), at.latitude_deg, at.longitude_deg,
                           plan.trip.utc_offset_h);
}

std::string none_words(const models::SunTimes& sun) {
  if (sun.always_up) return "sun all day";
  return sun.always_down ? "no sun" : std::string();
}

/// Up where the day begins, down where it ends.
std::string sun_words(const plan::Plan& plan, const engine::ScheduledDay& day) {
  const models::SunTimes morning = sun_at(plan, day.date, day.from);
  const models::SunTimes evening = sun_at(plan, day.date, day.to);
  std::string none = none_words(morning);
  const std::string later = none_words(evening);
  if (none.empty() && later.empty()) {
    return on_the_clock(morning.rise_h) + "\u2013" + on_the_clock(evening.set_h);
  }
  if (none == later) return none;
  return (none.empty() ? on_the_clock(morning.rise_h) : none) + "\u2013" +
         (later.empty() ? on_the_clock(evening.set_h) : later);
}

/// The places at which legs end on a day, but for the last.
std::string places_between(const answers::PlanRun& planned, std::size_t day) {
  const engine::Timeline& timeline = *planned.course.timeline;
  std::string out;
  int leg = -1;
  for (const engine::TimeStep& step : timeline.steps) {
    if (at(step.day) != day || step.drive < 0 || step.leg == leg) continue;
    if (leg >= 0) {
      const int place = timeline.legs[at(step.leg)].from;
      units::add_to(out, name_in(planned.plan.places, place));
    }
    leg = step.leg;
  }
  return out;
}

std::string distance_words(double distance_km, units::System system) {
  const units::Display display = units::display(units::Kind::distance, system);
  const double whole = std::round(display.number(distance_km));
  return (whole < 1 ? std::string("<1") : units::format_number(whole, units::decimals(0))) + " " +
         std::string(display.unit);
}

std::string air_words(double air_c, Toward toward, units::System system) {
  return rounded_words(air_c, units::Kind::temperature, system, 0, toward);
}

}  // namespace

std::string trip_words(const answers::PlanRun& planned, bool with_fuel) {
  const plan::Plan& plan = planned.plan;
  const std::size_t days = planned.record.days();
  const std::string last = long_date(date_of(planned, static_cast<int>(days) - 1));
  std::string words = days == 1 ? last : long_date(plan.trip.start) + " to " + last;
  words += ", " + counted(days, "day", "days") + ".";
  std::string people;
  for (const plan::Person& person : plan.people) units::add_to(people, person.name);
  if (!people.empty()) words += " People: " + people + ".";
  std::string vehicles;
  for (const plan::Vehicle& vehicle : plan.vehicles) {
    const bool diesel = vehicle.fuel == plan::FuelKind::diesel;
    units::add_to(vehicles, vehicle.name + (!with_fuel ? "" : diesel ? " (diesel)" : " (petrol)"));
  }
  if (vehicles.empty()) return words;
  return words + (plan.vehicles.size() == 1 ? " Vehicle: " : " Vehicles: ") + vehicles + ".";
}

DayFacts day_facts(const answers::PlanRun& planned, std::size_t day, units::System system) {
  const engine::ScheduledDay& schedule = planned.course.timeline->days[day].schedule;
  const engine::DayConditions& weather = planned.course.timeline->conditions.days[day];
  DayFacts out{.number = std::to_string(day + 1),
               .date = short_date(schedule.date),
               .sun = sun_words(planned.plan, schedule),
               .by = {},
               .from = engine::route_point_name(planned.plan, schedule.from),
               .to = {},
               .distance = {},
               .hours = {},
               .warmest = air_words(weather.max_c, Toward::up, system),
               .coldest = weather.min_c < 0 ? air_words(weather.min_c, Toward::down, system) : ""};
  if (schedule.distance_km <= 0) return out;
  out.to = engine::route_point_name(planned.plan, schedule.to);
  if (out.to == out.from) out.by = places_between(planned, day);
  out.distance = distance_words(schedule.distance_km, system);
  out.hours = units::format_number(schedule.drive_h, units::decimals(1)) + " h";
  return out;
}

}  // namespace drystage::report
