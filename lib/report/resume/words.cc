#include "report/resume/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "answers/base/laid_trip.h"
#include "answers/onward/return_way.h"
#include "engine/route_point.h"
#include "report/text/amounts.h"
#include "report/text/page.h"
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
    const double lasts = lasts_days(rest, r);
    if (!std::isfinite(lasts)) continue;
    std::string what = short_name(reserve_words(info), 12);
    if (info.id.family == engine::Family::drinking_water) what = "water";
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

std::string back_to_words(const answers::Resumed& resumed, units::System system) {
  std::vector<std::string> out;
  for (const answers::SupplyStretch& stretch : resumed.turn_back.stretches) {
    const engine::ReserveInfo& info = reserve_of(resumed.rest, stretch.reserve);
    if (!info.life_supporting || stretch.leaves.trip_h() > resumed.now.trip_h() + minute_h)
      continue;
    const auto way = answers::return_way(resumed.rest, stretch, resumed.now);
    if (!way) continue;
    out.push_back(
        fmt::format("{} ({})", name_in(resumed.rest.plan.places, way->place),
                    rounded_words(way->distance_km, units::Kind::distance, system, 0, Toward::up)));
  }
  return units::listed(units::each_once(std::move(out)), {}, " and ");
}

std::string doubt_words(const answers::PlanRun& rest, const answers::Doubt& doubt,
                        units::System system) {
  if (doubt.store >= 0) {
    const engine::StoreInfo& store = rest.course.stores[at(doubt.store)];
    return fmt::format(
        "{} has {} more than when it was last read, and no stop was made: read it "
        "again.",
        capital(name_words(store.name)),
        rounded_words(doubt.amount, units::Kind::volume, system, 1, Toward::down));
  }
  const engine::ReserveInfo& info = reserve_of(rest, doubt.reserve);
  if (doubt.kind == answers::Doubt::Kind::gained) {
    return fmt::format(
        "There is {} more of {} than before, and nothing was taken on: read it again.",
        amount_with_unit(info, doubt.amount, system), reserve_words(info));
  }
  const double days = std::max(doubt.days, 1.0);
  std::string why = "much more was used, or a leak";
  if (info.id.family == engine::Family::drinking_water) {
    why = "somebody is ill or drinks far more, or a leak";
  }
  if (info.id.family == engine::Family::fuel) {
    why = "softer ground, a stop that was not made, or a leak";
  }
  if (info.id.family == engine::Family::food) why = "eaten, given away or spoiled";
  const double a_day = doubt.amount / days;
  const int left = static_cast<int>(rest.record.days()) - answers::last_reading(rest).day - 1;
  std::string words = fmt::format("{} a day of {} more than planned go unexplained: {}.",
                                  amount_with_unit(info, a_day, system), reserve_words(info), why);
  if (left > 0) {
    words += fmt::format(" By the end of the trip that is {} more.",
                         amount_with_unit(info, a_day * left, system));
  }
  return words;
}

namespace {

/// The step of the first drive that is still to come; the number of steps where there is none.
std::size_t next_drive(const engine::CourseBase& course) {
  const std::vector<engine::TimeStep>& steps = course.timeline->steps;
  std::size_t step = course.judged_from();
  while (step < steps.size() && steps[step].drive < 0) ++step;
  return step;
}

/// Of nights left out where they are now: when they leave.
std::string leave_words(const answers::Resumed& resumed) {
  const engine::CourseBase& course = resumed.help.mend->course;
  const engine::CourseBase& before = resumed.rest.course;
  const std::size_t step = next_drive(course);
  const std::size_t step_before = next_drive(before);
  if (step >= course.timeline->steps.size() || step_before >= before.timeline->steps.size()) {
    return {};
  }
  const int day = course.timeline->steps[step].day;
  if (day == before.timeline->steps[step_before].day) return {};
  return fmt::format(" You leave on day {}, {}.", day + 1,
                     long_date(course.timeline->days[at(day)].schedule.date));
}

/// That a margin is broken, and nothing that life depends on runs out.
std::string dry_words(const answers::Resumed& resumed) {
  const auto& breaches = resumed.rest.verdict.breaches;
  const bool dry = std::ranges::any_of(breaches, [](const answers::Breach& breach) {
    return breach.harm == answers::Harm::runs_out_vital ||
           breach.harm == answers::Harm::utility_drunk;
  });
  return dry ? "" : "Nothing that life depends on runs out, but a margin is not whole. ";
}

std::string help_alone(const answers::Resumed& resumed, units::System system) {
  using Kind = answers::Help::Kind;
  const answers::Help& help = resumed.help;
  const answers::PlanRun& rest = resumed.rest;
  switch (help.kind) {
    case Kind::none:
      return "What helps most: nothing is needed. Go on as planned.";
    case Kind::change: {
      std::string changes;
      for (const answers::Change& change : help.mend->changes) {
        units::add_to(changes, engine::words(change.name), "; ");
      }
      return "What helps most: " + changes + "." + leave_words(resumed) + " Then the rest holds.";
    }
    case Kind::ration: {
      const engine::ReserveInfo& info = reserve_of(rest, help.ration->reserve);
      return fmt::format(
          "What helps most: use no more than {} of {} a day, all together. Then the "
          "rest holds. Never save on drinking water.",
          amount_toward(info, help.ration->l_day, system, Toward::down), reserve_words(info));
    }
    case Kind::turn_back:
      return fmt::format("What helps most: TURN BACK, at the latest on {}, to {}.",
                         moment_words(rest, help.turn_back->last, Toward::down, system),
                         back_to_words(resumed, system));
    case Kind::fill_up:
      return fmt::format(
          "What helps most: fill up at {} with all that there is room for, and ask again there. No "
          "change that was tried is enough.",
          name_in(rest.plan.places, help.place));
    case Kind::alarm:
      return "What helps most: RAISE THE ALARM NOW, while there is water to wait on. Stay with the "
             "vehicle, in the shade. No change that was tried is enough.";
    case Kind::not_found:
      return dry_words(resumed) + "No change that was tried keeps every margin.";
  }
  return {};
}

}  // namespace

std::string help_words(const answers::Resumed& resumed, units::System system) {
  // A slip is likelier than what would follow from it.
  const auto& doubts = resumed.rest.learned.doubts;
  const bool odd = !doubts.empty() && doubts.back().reading + 1 == resumed.readings.size();
  const bool odd_and_grave = odd && !resumed.rest.verdict.holds;
  return (odd_and_grave ? "Count again first, something does not fit (see below). " : "") +
         help_alone(resumed, system);
}

}  // namespace drystage::report
