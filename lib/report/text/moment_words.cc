#include "report/text/moment_words.h"

#include <fmt/core.h>

#include "report/text/words.h"
#include "units/index.h"

namespace drystage::report {
namespace {

const std::string& place_name(const answers::PlanRun& planned, int place) {
  return planned.plan.places[at(place)].name;
}

Toward other(Toward toward) { return toward == Toward::up ? Toward::down : Toward::up; }

/// A distance in whole units, to a tenth below ten.
double shown_distance(double distance_km, Toward toward, units::System system) {
  const double number = units::display(units::Kind::distance, system).number(distance_km);
  return rounded(number, number < 10 ? 1 : 0, toward);
}

}  // namespace

std::string when_words(const answers::PlanRun& planned, const answers::Moment& moment,
                       Toward toward) {
  constexpr double minutes_per_hour = 60;
  const double minutes = rounded(moment.hour * minutes_per_hour, 0, toward);
  const auto& day = planned.course.timeline->days[at(moment.day)];
  return fmt::format("day {}, {}, {}", moment.day + 1, short_date(day.schedule.date),
                     clock(minutes / minutes_per_hour));
}

std::string where_words(const answers::PlanRun& planned, const answers::Moment& moment,
                        Toward toward, units::System system) {
  const int here = engine::place_at(moment.at);
  if (here >= 0) return "at " + place_name(planned, here);
  const double done = shown_distance(moment.done_km, toward, system);
  const double to_go = shown_distance(moment.to_go_km, other(toward), system);
  if (done <= 0) return "at " + place_name(planned, moment.at.from);
  if (to_go <= 0) return "at " + place_name(planned, moment.at.to);
  const auto text = [system](double distance) {
    return fmt::format("{} {}",
                       units::format_number(distance, units::decimals(distance < 10 ? 1 : 0)),
                       units::display(units::Kind::distance, system).unit);
  };
  return fmt::format("{} after {}, {} before {}", text(done), place_name(planned, moment.at.from),
                     text(to_go), place_name(planned, moment.at.to));
}

std::string moment_words(const answers::PlanRun& planned, const answers::Moment& moment,
                         Toward toward, units::System system) {
  return when_words(planned, moment, toward) + ", " + where_words(planned, moment, toward, system);
}

}  // namespace drystage::report
