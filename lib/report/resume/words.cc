#include "report/resume/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <vector>

#include "answers/base/laid_trip.h"
#include "answers/onward/return_way.h"
#include "report/text/amounts.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {

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
      // The plan's rates may be the true ones yet.
      if (!resumed.at_plan.holds && rest.rates == answers::Rates::learned) {
        return "What helps most: read again tomorrow. At the plan's rates of use it does not hold.";
      }
      return "What helps most: nothing is needed. Go on as planned.";
    case Kind::share:
      return "What helps most: SHARE the water and food of all vehicles from now on, whosever it "
             "is. "
             "Then the rest holds.";
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
