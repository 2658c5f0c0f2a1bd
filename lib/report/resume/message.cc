#include "report/resume/message.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <vector>

#include "answers/base/laid_trip.h"
#include "engine/route_point.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

/// Names in a message: cut to what is still told apart, and only where every telephone sends it.
std::string short_name(const std::string& name, std::size_t most) {
  const bool plain = std::ranges::all_of(name, [](char c) { return c >= ' ' && c <= '~'; });
  return plain ? name.substr(0, most) : std::string();
}

std::string degrees(double value_deg, char positive, char negative) {
  return fmt::format("{:.3f}{}", std::abs(value_deg), value_deg < 0 ? negative : positive);
}

/// "11 Mar": without the weekday.
std::string date_words(const answers::PlanRun& planned, int day) {
  return short_date(date_of(planned, day)).substr(4);
}

/// Rounded down to what `endurance` shows of it: a tenth below ten, else whole.
double floored(double lasts) {
  return lasts < 10 ? std::floor(10 * lasts) / 10 : std::floor(lasts);
}

/// For how long a reserve lasts from the last reading on: as it would be used where they are now,
/// or until it runs out on the way, if that is earlier. In what its endurance is said in.
double lasts_days(const answers::PlanRun& rest, std::size_t reserve) {
  const answers::Moment now = answers::last_reading(rest);
  double out = rest.record.reserve(at(now.day), reserve).endurance;
  if (rest.course.reserves[reserve].endurance != engine::Endurance::days) return out;
  for (std::size_t day = at(now.day); day < rest.record.days(); ++day) {
    const double dry_h = rest.record.reserve(day, reserve).short_h;
    if (dry_h < 0) continue;
    return std::min(out, (day_h * static_cast<double>(day) + dry_h - now.trip_h()) / day_h);
  }
  return out;
}

/// For how long what life depends on lasts from the last reading on: "water 8.2 days", "fuel 520
/// km".
std::vector<std::string> lasting_words(const answers::PlanRun& rest, units::System system) {
  std::vector<std::string> out;
  for (std::size_t r = 0; r < rest.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = rest.course.reserves[r];
    const bool food = info.id.family == engine::Family::food;
    if (!info.life_supporting && !food) continue;
    if (!rest.record.reserve(at(answers::last_reading(rest).day), r).judged) continue;
    const double lasts = lasts_days(rest, r);
    if (!std::isfinite(lasts)) continue;
    std::string what = short_name(reserve_words(info), 12);
    if (info.id.family == engine::Family::drinking_water)
      what = info.owner.empty() ? "water" : short_name("water " + info.owner, 12);
    if (info.id.family == engine::Family::fuel && rest.plan.vehicles.size() == 1) what = "fuel";
    if (what.empty()) continue;
    out.push_back(fmt::format("{} {} {}", what, endurance(info, floored(lasts), system),
                              endurance_unit(info, system)));
  }
  return out;
}

/// Where the party sleeps next at another place than now; -1: nowhere.
int next_camp_day(const answers::PlanRun& rest, const answers::Moment& now) {
  const auto& days = rest.course.timeline->days;
  const int here = engine::place_at(now.at);
  for (std::size_t d = at(now.day) + 1; d + 1 < days.size(); ++d) {
    const int place = engine::place_at(days[d].schedule.to);
    if (place >= 0 && place != here) return static_cast<int>(d);
  }
  return -1;
}

/// When the last drive is over, hours since the trip's first midnight.
double end_h(const answers::PlanRun& rest) {
  double out = day_h * static_cast<double>(rest.record.days());
  for (const engine::TimeStep& step : rest.course.timeline->steps) {
    if (step.drive >= 0) out = day_h * step.day + step.from_h + step.dt_h;
  }
  return out;
}

std::string hour_words(const answers::PlanRun& rest, double trip_h) {
  const int day = static_cast<int>(trip_h / day_h);
  return date_words(rest, day) + " " + clock(std::floor(trip_h - day_h * day));
}

std::string place_in_message(const answers::PlanRun& rest, const answers::Moment& now,
                             std::size_t most, units::System system) {
  const plan::Plan& plan = rest.plan;
  const int here = engine::place_at(now.at);
  if (here >= 0) {
    const plan::Place& place = plan.places[at(here)];
    std::string name = short_name(place.name, most);
    if (!name.empty()) name += ' ';
    return name + degrees(place.latitude_deg, 'N', 'S') + " " +
           degrees(place.longitude_deg, 'E', 'W');
  }
  const plan::Place& from = plan.places[at(now.at.from)];
  const plan::Place& to = plan.places[at(now.at.to)];
  const double done = units::display(units::Kind::distance, system).number(now.done_km);
  const std::string_view unit = units::display(units::Kind::distance, system).unit;
  const std::string begin = short_name(from.name, most);
  const std::string end = short_name(to.name, most);
  if (!begin.empty() && !end.empty()) {
    return fmt::format("{:.0f} {} from {} to {}", done, unit, begin, end);
  }
  const auto position = [](const plan::Place& place) {
    return degrees(place.latitude_deg, 'N', 'S') + " " + degrees(place.longitude_deg, 'E', 'W');
  };
  return fmt::format("{:.0f} {} from {} to {}", done, unit, position(from), position(to));
}

}  // namespace

double alarm_h(const answers::PlanRun& rest) {
  const double now_h = answers::last_reading(rest).trip_h();
  double out = end_h(rest) + day_h;
  for (std::size_t r = 0; r < rest.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = rest.course.reserves[r];
    if (!info.life_supporting || info.endurance != engine::Endurance::days) continue;
    const double lasts = lasts_days(rest, r);
    if (std::isfinite(lasts)) out = std::min(out, now_h + day_h * std::max(lasts - 1, lasts / 2));
  }
  return out;
}

std::string message_words(const answers::PlanRun& rest, units::System system, bool alarm_now) {
  const answers::Moment now = answers::last_reading(rest);
  const int camp = alarm_now ? -1 : next_camp_day(rest, now);
  std::string alarm = fmt::format("No word by {}: raise alarm.", hour_words(rest, alarm_h(rest)));
  const bool is_over = at(now.day) + 1 == rest.record.days() && end_h(rest) <= now.trip_h();
  if (is_over) alarm = "The trip is over.";
  if (alarm_now) alarm = "HELP: raise the alarm now.";
  std::vector<std::string> left = lasting_words(rest, system);
  std::size_t most = 24;
  while (true) {
    std::string next;
    if (camp >= 0) {
      const int place = engine::place_at(rest.course.timeline->days[at(camp)].schedule.to);
      const std::string name = short_name(name_in(rest.plan.places, place), most);
      if (!name.empty()) next = fmt::format(" Next {} {}.", name, date_words(rest, camp));
    }
    std::string out =
        fmt::format("{} {} {}.{}{} {}", date_words(rest, now.day), clock(now.hour),
                    place_in_message(rest, now, most, system),
                    left.empty() ? "" : " Left: " + units::listed(left) + ".", next, alarm);
    // Names first, then what life depends on last of all: the alarm always stays.
    if (out.size() <= most_message_signs || (most == 0 && left.empty())) return out;
    if (most > 0) {
      most = most > 6 ? most / 2 : 0;
    } else {
      left.pop_back();
    }
  }
}

}  // namespace drystage::report
