#include "answers/resume/resume.h"

#include <algorithm>
#include <memory>
#include <utility>

#include "answers/base/laid_trip.h"
#include "answers/onward/return_way.h"
#include "engine/readings.h"
#include "engine/timeline.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;

std::vector<ReadingFound> readings_found(const PlanRun& planned, const PlanRun& rest) {
  const engine::Course& course = rest.course;
  const engine::Timeline& as_planned = *planned.course.timeline;
  const std::vector<plan::Reading> all = engine::all_readings(rest.plan);
  std::vector<ReadingFound> out;
  for (std::size_t i = 0; i < course.readings.size(); ++i) {
    const engine::ReadingInfo& reading = course.readings[i];
    const engine::TimeStep& step = course.timeline->steps[reading.step];
    const std::size_t then = engine::step_of(all[i], as_planned);
    const std::vector<double> now = levels_before(course, reading.step, true);
    std::vector<double> by_plan;
    if (then < as_planned.steps.size()) by_plan = levels_before(planned.course, then, false);
    ReadingFound& made =
        out.emplace_back(ReadingFound{.day = step.day, .hour = step.from_h, .found = {}});
    for (std::size_t r = 0; r < course.reserves.size(); ++r) {
      const int reserve = static_cast<int>(r);
      const engine::Extent extent = engine::extent_of(rest.plan, course, reading, reserve);
      if (extent == engine::Extent::nothing) continue;
      made.found.push_back({.reserve = reserve,
                            .planned = {},
                            .found = now[r],
                            .partly = extent == engine::Extent::some});
      if (!by_plan.empty()) made.found.back().planned = by_plan[r];
    }
  }
  return out;
}

/// The rest with another use of utility water.
Verdict with_utility(const PlanRun& rest, double share) {
  engine::Course course = rest.course;
  course.learned.back().utility_water *= share;
  return verdict(course, Engine::run(course));
}

/// What the whole party wants of a reserve a day, mean over the days that are whole.
double wanted_a_day(const PlanRun& rest, int reserve) {
  double sum = 0;
  const std::size_t first = at(rest.course.first_judged_day()) + 1;
  for (std::size_t d = first; d < rest.record.days(); ++d) {
    const engine::ReserveDay& day = rest.record.reserve(d, at(reserve));
    sum += day.used + day.short_of;
  }
  return sum / std::max(1.0, static_cast<double>(rest.record.days()) - static_cast<double>(first));
}

/// Where utility water alone fails: with how much less of it a day it lasts.
std::optional<Ration> ration(const PlanRun& rest) {
  const int utility = engine::find_reserve(rest.course, {.family = engine::Family::utility_water});
  const bool alone = std::ranges::all_of(rest.verdict.breaches, [utility](const Breach& breach) {
    return breach.reserve == utility && breach.load < 0;
  });
  // Less than that is no offer: there must be something to cook with (ours).
  constexpr double least = 0.25;
  if (utility < 0 || !alone || !with_utility(rest, least).holds) return std::nullopt;
  double enough = least;
  double too_much = 1;
  constexpr double near = 1e-3;
  while (too_much - enough > near) {
    const double share = (enough + too_much) / 2;
    (with_utility(rest, share).holds ? enough : too_much) = share;
  }
  return Ration{.reserve = utility, .share = enough, .l_day = enough * wanted_a_day(rest, utility)};
}

/// A run before a step; `read`: with the reading that is taken there. The record must outlive it.
engine::Run run_before(const engine::Course& course, std::size_t step, bool read,
                       engine::Record& record) {
  Engine::Standing now = Engine::begin(course, record);
  Engine::go_on(course, now, step);
  if (read) Engine::begin_step(course, now);
  return std::move(now.run);
}

/// Whether the rest holds if all water and food is common from now on.
bool holds_if_shared(const PlanRun& rest) {
  using engine::Family;
  plan::Plan plan = rest.plan;
  bool any = false;
  for (plan::Vehicle& vehicle : plan.vehicles) {
    any = any || !vehicle.own.empty();
    vehicle.own.clear();
  }
  if (!any) return false;
  engine::Record record = engine::blank_record(rest.course);
  const engine::Run now = run_before(rest.course, rest.course.readings.back().step, true, record);
  engine::Course course = engine::compile(plan, rest.course.timeline, nullptr, rest.course);
  engine::ReadingInfo& reading = course.readings.back();
  const auto is_stock = [](Family family) {
    return family == Family::drinking_water || family == Family::utility_water ||
           family == Family::food;
  };
  std::erase_if(reading.reserves, [&](const engine::ReadingInfo::Level& level) {
    return is_stock(course.reserves[at(level.of)].id.family);
  });
  std::erase_if(reading.stores, [&](const engine::ReadingInfo::Level& level) {
    return is_stock(course.stores[at(level.of)].family);
  });
  // Containers come first among the stores, in the order of the plan, whoever uses them.
  for (std::size_t s = 0; s < course.stores.size(); ++s) {
    if (course.stores[s].family != Family::drinking_water) continue;
    const int store = static_cast<int>(s);
    if (now.is_here(store)) reading.stores.push_back({.of = store, .level = now.level(store)});
  }
  double meals = 0;
  for (std::size_t r = 0; r < rest.course.reserves.size(); ++r) {
    if (rest.course.reserves[r].id.family != Family::food) continue;
    meals += now.reserve_level(static_cast<int>(r));
  }
  const int food = engine::find_reserve(course, {.family = Family::food});
  if (food >= 0) reading.reserves.push_back({.of = food, .level = meals});
  return verdict(course, Engine::run(course)).holds;
}

/// The time within which turning back is still possible, if that is now.
std::optional<Window> open_window(const Resumed& resumed) {
  const double now_h = resumed.now.trip_h();
  for (const Window& window : resumed.turn_back.vital) {
    // Where the way back is the way on, turning back is going on.
    if (leads_on(resumed.rest, resumed.turn_back, window, true)) continue;
    if (window.from.trip_h() <= now_h + minute_h && window.last.trip_h() > now_h + minute_h) {
      return window;
    }
  }
  return std::nullopt;
}

/// The sure supply that comes first, where everything that life depends on and that runs out has
/// one before that; else -1.
int supply_before_dry(const Resumed& resumed) {
  int first = -1;
  double first_h = engine::without_limit;
  for (const Breach& breach : resumed.rest.verdict.breaches) {
    const bool dry = breach.harm == Harm::runs_out_vital || breach.harm == Harm::utility_drunk;
    if (!dry) continue;
    const double dry_h = day_h * breach.day + breach.hour;
    bool any = false;
    for (const Leaving& leaving : resumed.leavings) {
      const double leaves_h = leaving.leaves.trip_h();
      const bool ahead = leaves_h > resumed.now.trip_h() + minute_h && leaves_h < dry_h;
      if (leaving.reserve != breach.reserve || !ahead) continue;
      any = true;
      if (leaves_h < first_h) first = leaving.place;
      first_h = std::min(first_h, leaves_h);
    }
    if (!any) return -1;
  }
  return first;
}

Help help_for(const Resumed& resumed) {
  using Kind = Help::Kind;
  const PlanRun& rest = resumed.rest;
  if (rest.verdict.holds) return {};
  if (holds_if_shared(rest)) return {.kind = Kind::share};
  if (auto less = ration(rest)) return {.kind = Kind::ration, .ration = less};
  if (auto mend = smallest_mend(rest)) return {.kind = Kind::change, .mend = std::move(mend)};
  const auto harms = [&](Harm harm) {
    return std::ranges::find(rest.verdict.breaches, harm, &Breach::harm) !=
           rest.verdict.breaches.end();
  };
  const bool dry = harms(Harm::runs_out_vital) || harms(Harm::utility_drunk);
  if (!dry && !harms(Harm::margin_vital)) return {.kind = Kind::not_found};
  if (const auto window = open_window(resumed)) {
    return {.kind = Kind::turn_back, .turn_back = window};
  }
  if (!dry) return {.kind = Kind::not_found};
  const int place = supply_before_dry(resumed);
  if (place >= 0) return {.kind = Kind::fill_up, .place = place};
  return {.kind = Kind::alarm};
}

/// The verdict on the rest at the plan's rates of use.
Verdict at_the_plans_rates(const PlanRun& rest) {
  engine::Course course = rest.course;
  course.learned.back() = {};
  return verdict(course, Engine::run(course));
}

}  // namespace

std::vector<double> levels_before(const engine::Course& course, std::size_t step, bool read) {
  engine::Record record = engine::blank_record(course);
  const engine::Run now = run_before(course, step, read, record);
  std::vector<double> out;
  for (std::size_t r = 0; r < course.reserves.size(); ++r) {
    out.push_back(now.reserve_level(static_cast<int>(r)));
  }
  return out;
}

const UseFound* Resumed::use_of(int reserve) const {
  const std::size_t last = rest.course.readings.size() - 1;
  for (const UseFound& use : rest.learned.uses) {
    if (use.reserve == reserve && use.reading == last) return &use;
  }
  return nullptr;
}

Resumed resume(const plan::Plan& plan, const std::shared_ptr<const engine::Timeline>& timeline,
               Rates rates) {
  plan::Plan alone = plan.as_planned ? *plan.as_planned : plan;
  alone.readings.clear();
  alone.changes.clear();
  auto as_planned = std::make_shared<const engine::Timeline>(
      engine::lay_timeline(alone, {.almanac = timeline->almanac}));
  Resumed out;
  out.planned = run_plan(std::move(alone), std::move(as_planned));
  out.rest = run_plan(plan, timeline, nullptr, 0, rates);
  out.at_plan = at_the_plans_rates(out.rest);
  out.now = last_reading(out.rest);
  out.late_days =
      static_cast<int>(out.rest.record.days()) - static_cast<int>(out.planned.record.days());
  out.readings = readings_found(out.planned, out.rest);
  out.needs = morning_needs(out.rest);
  out.turn_back = turn_back_points(out.rest);
  out.leavings = leavings(out.rest);
  out.help = help_for(out);
  return out;
}

}  // namespace drystage::answers
