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

/// For how long what life depends on lasts from the last reading on: "water 8.2 days, fuel 520 km".
std::string lasting_words(const answers::PlanRun& rest, const answers::Moment& now,
                          units::System system) {
  std::string out;
  for (std::size_t r = 0; r < rest.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = rest.course.reserves[r];
    const bool food = info.id.family == engine::Family::food;
    if (!info.life_supporting && !food) continue;
    const double lasts = rest.record.reserve(at(now.day), r).endurance;
    if (!std::isfinite(lasts)) continue;
    const std::string what = info.id.family == engine::Family::drinking_water ? "water"
                             : info.id.family == engine::Family::fuel
                                 ? "fuel"
                                 : short_name(reserve_words(info), 12);
    if (what.empty()) continue;
    units::add_to(out, fmt::format("{} {} {}", what, endurance(info, lasts, system),
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
  return fmt::format("{:.0f} {} from {} to {}", done,
                     units::display(units::Kind::distance, system).unit,
                     short_name(from.name, most), short_name(to.name, most));
}

}  // namespace

double alarm_h(const answers::PlanRun& rest) {
  const answers::Moment now = answers::last_reading(rest);
  const double now_h = now.trip_h();
  double out = end_h(rest) + day_h;
  for (std::size_t r = 0; r < rest.course.reserves.size(); ++r) {
    const engine::ReserveInfo& info = rest.course.reserves[r];
    if (!info.life_supporting || info.endurance != engine::Endurance::days) continue;
    const double lasts = rest.record.reserve(at(now.day), r).endurance;
    if (std::isfinite(lasts)) out = std::min(out, now_h + day_h * (lasts - 1));
  }
  return std::max(out, now_h + day_h);
}

std::string message_words(const answers::PlanRun& rest, units::System system) {
  const answers::Moment now = answers::last_reading(rest);
  const int camp = next_camp_day(rest, now);
  std::string out;
  for (const std::size_t most :
       {std::size_t{24}, std::size_t{12}, std::size_t{6}, std::size_t{0}}) {
    std::string next;
    if (camp >= 0) {
      const int place = engine::place_at(rest.course.timeline->days[at(camp)].schedule.to);
      const std::string name = short_name(name_in(rest.plan.places, place), most);
      if (!name.empty()) next = fmt::format(" Next {} {}.", name, date_words(rest, camp));
    }
    out =
        fmt::format("{} {} {}. Left: {}.{} No word by {}: raise alarm.", date_words(rest, now.day),
                    clock(now.hour), place_in_message(rest, now, most, system),
                    lasting_words(rest, now, system), next, hour_words(rest, alarm_h(rest)));
    if (out.size() <= most_message_signs) break;
  }
  return out.substr(0, most_message_signs);
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
  const bool fuel = info.id.family == engine::Family::fuel;
  const double days = std::max(doubt.days, 1.0);
  return fmt::format("{} a day of {} more than planned go unexplained: {}, or a leak. Look.",
                     amount_with_unit(info, doubt.amount / days, system), reserve_words(info),
                     fuel ? "softer ground" : "more is used");
}

namespace {

/// Of nights left out: when the party drives on.
std::string leave_words(const answers::Resumed& resumed) {
  const answers::Mend& mend = *resumed.help.mend;
  if (!mend.moves_days) return {};
  const std::vector<engine::TimeStep>& steps = mend.course.timeline->steps;
  const auto now = steps.begin() + static_cast<std::ptrdiff_t>(mend.course.judged_from());
  const auto drive =
      std::find_if(now, steps.end(), [](const engine::TimeStep& step) { return step.drive >= 0; });
  if (drive == steps.end()) return {};
  return fmt::format(" You leave on {}.", day_words(resumed.rest, drive->day));
}

}  // namespace

std::string help_words(const answers::Resumed& resumed, units::System system) {
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
    case Kind::alarm:
      return "What helps most: RAISE THE ALARM NOW, while there is water to wait on. Stay with the "
             "vehicle, in the shade. No change that was tried is enough.";
    case Kind::not_found:
      return "What helps most: none of the changes that were tried is enough.";
  }
  return {};
}

}  // namespace drystage::report
