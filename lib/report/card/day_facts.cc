#include "report/card/day_facts.h"

#include <cmath>

#include "engine/spot.h"
#include "report/words.h"

namespace drystage::report {
namespace {

constexpr double day_h = 24;

/// An hour as a clock shows it: the sun's may lie on the day before or after.
std::string on_the_clock(double hour) {
  constexpr double half_minute_h = 1.0 / 120;
  const double turned = hour - day_h * std::floor((hour + half_minute_h) / day_h);
  return clock(turned);
}

std::string sun_words(const engine::ScheduledDay& day) {
  constexpr double minute_h = 1.0 / 60;
  const double up_h = day.sunset_h - day.sunrise_h;
  if (up_h >= day_h - minute_h) return "sun all day";
  if (up_h <= minute_h) return "no sun";
  return on_the_clock(day.sunrise_h) + "\u2013" + on_the_clock(day.sunset_h);
}

}  // namespace

DayFacts day_facts(const answers::Trial& trial, std::size_t day, units::System system) {
  const engine::ScheduledDay& schedule = trial.course.timeline->days[day].schedule;
  DayFacts out{.number = std::to_string(day + 1),
               .date = short_date(schedule.date),
               .sun = sun_words(schedule),
               .from = engine::spot_name(trial.plan, schedule.from),
               .to = {},
               .distance = {},
               .hours = {}};
  if (schedule.distance_km <= 0) return out;
  out.to = engine::spot_name(trial.plan, schedule.to);
  const double shown = units::display(units::Kind::distance, system).number(schedule.distance_km);
  out.distance = units::format(schedule.distance_km, units::Kind::distance, system,
                               units::decimals(shown < 9.95 ? 1 : 0));
  out.hours = units::format_number(schedule.drive_h, units::decimals(1)) + " h";
  return out;
}

}  // namespace drystage::report
