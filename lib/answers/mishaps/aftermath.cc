#include "answers/mishaps/aftermath.h"

#include <algorithm>
#include <numeric>
#include <utility>

#include "answers/onward/retreat.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Engine;

/// The leg that leads away from the last supply of a reserve that has been met by a step; nothing
/// where there is none.
std::optional<int> leg_from_last_supply(const LaidTrip& laid, std::size_t step, int reserve) {
  std::optional<int> out;
  for (const Passed& passed : passed_refuges(laid, reserve)) {
    if (passed.refuge.step <= step) out = passed.to_leg;
  }
  return out;
}

/// Back to the farthest of the last supplies of some reserves. `shut`: a leg whose road is; -1:
/// none.
LaidTrip back_to_supplies(const LaidTrip& laid, std::size_t step, const std::vector<int>& reserves,
                          int shut) {
  return retreat(laid,
                 {.step = step,
                  .hour = laid.timeline->steps[step].from_h,
                  .to_leg = leg_to_last_supplies(laid, step, reserves),
                  .shut = shut},
                 reserves);
}

/// Each reserve to where it can be topped up; what cannot be, to where all that life depends on has
/// been. What follows, waiting included, is no part of getting back.
std::vector<std::size_t> to_own_supplies(const LaidTrip& laid, std::size_t step) {
  const std::size_t end = laid.timeline->steps.size();
  const auto until_of = [&](int reserve) {
    const std::optional<Refuge> refuge = next_refuge(laid, step, reserve);
    return refuge ? refuge->step : end;
  };
  std::size_t safe = 0;
  for (const int reserve : vital_reserves(*laid.course)) safe = std::max(safe, until_of(reserve));
  std::vector<std::size_t> until;
  for (std::size_t r = 0; r < laid.course->reserves.size(); ++r) {
    const std::size_t own = until_of(static_cast<int>(r));
    until.push_back(own < end ? own : safe);
  }
  return until;
}

/// Goes on to where each reserve is judged, and visits the reserves in the order of their ends.
template <class Visit>
void go_on_to_each_end(const engine::Course& course, Engine::Standing& standing,
                       const std::vector<std::size_t>& until, const Visit& visit) {
  std::vector<std::size_t> order(until.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t r) { return until[r]; });
  for (const std::size_t r : order) {
    Engine::go_on(course, standing, until[r]);
    visit(r);
  }
}

Fate fate_of(const engine::Record& record, std::size_t reserve, int from_day, int to_day) {
  Fate out;
  for (int day = from_day; day <= to_day; ++day) {
    const engine::ReserveDay& row = record.reserve(static_cast<std::size_t>(day), reserve);
    out.slack = std::min(out.slack, row.slack);
    out.short_of += row.short_of;
    out.stood_in += row.stood_in;
  }
  return out;
}

Outcome outcome_of(const engine::ReserveInfo& info, const Fate& fate, const Fate& planned) {
  if (fate.short_of > planned.short_of + noticeable) {
    return info.life_supporting ? Outcome::runs_out_vital : Outcome::runs_out;
  }
  const bool eats = fate.slack < -engine::rounding && fate.slack < planned.slack - noticeable;
  const bool replaced = fate.stood_in > planned.stood_in + noticeable;
  return eats || replaced ? Outcome::eats_margin : Outcome::holds;
}

/// What is over its limit, and heavier than in the plan itself: the most of it.
void tell_overload(Finding& finding, const engine::Course& course, const engine::Record& record,
                   std::span<const engine::Heaviest> planned) {
  constexpr double noticeable_kg = 0.5;
  for (std::size_t s = 0; s < planned.size(); ++s) {
    const double kg = record.heaviest[s].kg;
    const double over_kg = kg - course.scales[s].limit_kg;
    if (over_kg <= noticeable_kg || kg <= planned[s].kg + noticeable_kg) continue;
    if (over_kg <= finding.over_kg) continue;
    finding.over_kg = over_kg;
    finding.over_scale = static_cast<int>(s);
  }
}

/// Where the party is at a moment, also in the middle of a step of driving.
engine::RoutePoint route_point_at(const LaidTrip& laid, int day, double hour) {
  const engine::Timeline& timeline = *laid.timeline;
  const std::size_t next = engine::step_at(timeline, day, hour);
  if (next > 0) {
    const engine::TimeStep& step = timeline.steps[next - 1];
    const double gone_h = hour - step.from_h;
    if (step.day == day && step.drive >= 0 && gone_h < step.dt_h - engine::tiny_h) {
      const Progress before = progress_before(timeline, next - 1);
      const engine::Leg& leg = timeline.legs[at(step.leg)];
      const auto& drive = std::get<plan::Drive>(laid.plan->itinerary[at(leg.item)]);
      const double before_km = before.leg == step.leg && before.under_way ? before.done_km : 0;
      const double done_km = before_km + gone_h / step.dt_h * step.distance_km;
      return {.from = leg.from, .to = drive.to, .share = done_km / leg.distance_km};
    }
  }
  return moment_before(laid, next).at;
}

/// Whether a mishap changes which way leads back to supplies, or what is taken on there.
bool changes_ways_back(plan::MishapKind kind) {
  return kind == plan::MishapKind::supply || kind == plan::MishapKind::vehicle;
}

/// When and where a reserve first ran dry, and for how long.
void tell_dry(Finding& finding, const LaidTrip& laid, const engine::Record& record,
              std::size_t until) {
  const engine::Timeline& timeline = *laid.timeline;
  double since_h = -1;
  double to_h = until < timeline.steps.size()
                    ? day_h * timeline.steps[until].day + timeline.steps[until].from_h
                    : day_h * static_cast<double>(timeline.days.size());
  for (const engine::Event& event : record.events) {
    const double at_h = day_h * event.day + event.hour;
    if (since_h < 0) {
      if (event.kind != engine::EventKind::short_of || event.subject != finding.reserve) continue;
      since_h = at_h;
      finding.dry_day = event.day;
      finding.dry_hour = event.hour;
    } else if (event.kind == engine::EventKind::refill &&
               laid.course->orders[at(event.subject)].reserve == finding.reserve) {
      to_h = std::min(to_h, at_h);
    }
  }
  // It was dry already when the mishap struck.
  if (since_h < 0) {
    finding.dry_day = finding.day;
    finding.dry_hour = finding.hour;
    since_h = day_h * finding.day + finding.hour;
  }
  finding.dry_for_h = to_h - since_h;
  const engine::RoutePoint point = route_point_at(laid, finding.dry_day, finding.dry_hour);
  finding.where = engine::route_point_name(*laid.plan, point);
  finding.in_bush = engine::place_at(point) < 0;
}

}  // namespace

std::vector<int> vital_reserves(const engine::CourseBase& course) {
  std::vector<int> out;
  for (std::size_t r = 0; r < course.reserves.size(); ++r) {
    if (course.reserves[r].life_supporting) out.push_back(static_cast<int>(r));
  }
  return out;
}

int leg_to_last_supplies(const LaidTrip& laid, std::size_t step, const std::vector<int>& reserves) {
  int to_leg = -1;
  for (const int r : reserves) {
    if (!laid.course->reserves[at(r)].commodity) continue;
    const int leg = leg_from_last_supply(laid, step, r).value_or(0);
    if (to_leg < 0 || leg < to_leg) to_leg = leg;
  }
  return std::max(to_leg, 0);
}

LaidTrip laid_after(const LaidTrip& before, const Mishap& mishap, std::size_t step) {
  const engine::Timeline& timeline = *before.timeline;
  LaidTrip out = before;
  out.kept_as = {.mishap = mishap.number, .step = step};
  if (mishap.change) {
    auto other = std::make_shared<plan::Plan>(*before.plan);
    mishap.change(*other, before, step);
    out.plan = std::move(other);
  }
  if (!mishap.lays_anew && mishap.halt_h <= 0) return out;
  std::vector<engine::Detour> detours = before.detours;
  const int day = timeline.steps[step].day;
  if (mishap.halt_h > 0) {
    // Before setting out that day, if it is a day of driving and not begun.
    std::size_t from = step;
    while (from + 1 < timeline.steps.size() && timeline.steps[from].drive < 0 &&
           timeline.steps[from + 1].day == day) {
      ++from;
    }
    if (timeline.steps[from].drive < 0) from = step;
    const engine::Detour halt{.at_h = day_h * day + timeline.steps[from].from_h,
                              .halt_h = mishap.halt_h};
    detours.insert(std::ranges::upper_bound(detours, halt.at_h, {}, &engine::Detour::at_h), halt);
  }
  const auto plan = out.plan;
  return changed(out, plan, std::move(detours), day);
}

LaidTrip after(const LaidTrip& before, const Mishap& mishap, std::size_t step,
               const engine::Course& planned) {
  LaidTrip out = laid_after(before, mishap, step);
  const std::size_t ready_from = mishap.moves_time() ? step : before.course->first_step;
  const bool same =
      out.plan == before.plan && out.timeline == planned.timeline && !mishap.damage.is_compiled();
  auto course = std::make_shared<engine::Course>(
      same ? planned
           : engine::recompile(*out.plan, out.timeline, planned, ready_from, mishap.damage));
  if (same) Engine::damage(*course, *out.plan, mishap.damage);
  out.course = std::move(course);
  if (mishap.turns_back) {
    out = back_to_supplies(out, step, vital_reserves(*out.course), out.timeline->steps[step].leg);
  }
  out.kept_as = {};
  if (mishap.moves_time() || changes_ways_back(mishap.failure.kind)) out.kept = nullptr;
  return out;
}

std::vector<std::size_t> judged_until(const LaidTrip& laid, const Mishap& mishap,
                                      std::size_t step) {
  if (mishap.turns_back) return to_own_supplies(laid, step);
  std::vector<std::size_t> until(laid.course->reserves.size());
  std::ranges::fill(until, laid.timeline->steps.size());
  return until;
}

std::vector<Fate> fate_from_each_step(
    const engine::Course& course, engine::Record& record,
    const std::function<void(std::size_t step, const Engine::Standing&)>& before) {
  const std::vector<engine::TimeStep>& steps = course.timeline->steps;
  engine::make_blank(record, course);
  Engine::Standing now = Engine::begin(course, record);
  std::vector<Fate> out(steps.size() * record.reserves);
  for (std::size_t s = 0; s < steps.size(); ++s) {
    if (before) before(s, now);
    const auto day = static_cast<std::size_t>(steps[s].day);
    for (std::size_t r = 0; r < record.reserves; ++r) {
      record.reserve_days[day * record.reserves + r].slack = engine::without_limit;
      record.reserve_days[day * record.reserves + r].short_of = 0;
      record.reserve_days[day * record.reserves + r].stood_in = 0;
    }
    Engine::go_on(course, now, s + 1);
    for (std::size_t r = 0; r < record.reserves; ++r) {
      const engine::ReserveDay& row = record.reserve(day, r);
      out[s * record.reserves + r] = {
          .slack = row.slack, .short_of = row.short_of, .stood_in = row.stood_in};
    }
  }
  for (std::size_t s = steps.size(); s-- > 1;) {
    for (std::size_t r = 0; r < record.reserves; ++r) {
      Fate& fate = out[(s - 1) * record.reserves + r];
      const Fate& later = out[s * record.reserves + r];
      fate.slack = std::min(fate.slack, later.slack);
      fate.short_of += later.short_of;
      fate.stood_in += later.stood_in;
    }
  }
  return out;
}

Finding finding_after(const LaidTrip& laid, const Engine::Standing& standing, std::size_t step,
                      const std::vector<std::size_t>& until, std::span<const Fate> planned,
                      engine::Record& record, std::span<const engine::Heaviest> planned_heaviest) {
  const engine::Course& course = *laid.course;
  const engine::TimeStep& first = course.timeline->steps[step];
  engine::make_blank(record, course);
  Engine::Standing now = Engine::resume(standing, course, step, record);
  Engine::lose_excess(course, now);
  Finding out;
  out.day = first.day;
  out.hour = first.from_h;
  double worst_share = 0;
  go_on_to_each_end(course, now, until, [&](std::size_t r) {
    const engine::ReserveInfo& info = course.reserves[r];
    const Fate fate = fate_of(record, r, first.day, now.run.day());
    const Outcome outcome = outcome_of(info, fate, planned[r]);
    const double scale = std::max(1.0, info.capacity);
    const double share = (std::min(fate.slack, 0.0) - fate.short_of - fate.stood_in) / scale;
    if (outcome == Outcome::holds) return;
    if (std::pair(outcome, -share) <= std::pair(out.outcome, -worst_share)) return;
    worst_share = share;
    out.outcome = outcome;
    out.reserve = static_cast<int>(r);
    out.slack = fate.slack;
    out.short_of = fate.short_of;
    out.stood_in = fate.stood_in;
  });
  if (out.outcome >= Outcome::runs_out) {
    tell_dry(out, laid, record, until[at(out.reserve)]);
  }
  tell_overload(out, course, record, planned_heaviest);
  return out;
}

std::optional<bool> retreat_saves(const LaidTrip& after, const Mishap& mishap, int reserve,
                                  const Engine::Standing& standing, std::size_t step) {
  if (mishap.turns_back) return std::nullopt;
  const engine::Course& course = *after.course;
  engine::Record record = engine::blank_record(course);
  Engine::Standing now = Engine::resume(standing, course, step, record);
  Engine::lose_excess(course, now);
  // Nobody turns back before the wheels are free again.
  std::size_t turn = step;
  if (mishap.halt_h > 0) {
    for (const engine::Detour& halt : after.detours) {
      const double end_h = halt.at_h + halt.halt_h;
      const int day = static_cast<int>(end_h / day_h);
      const std::size_t free = engine::step_at(*after.timeline, day, end_h - day_h * day);
      turn = std::max(turn, free);
    }
  }
  if (turn >= after.timeline->steps.size()) return std::nullopt;
  // Nobody who has not set out can turn back.
  if (progress_before(*after.timeline, turn).leg < 0) return std::nullopt;
  Engine::go_on(course, now, turn);
  std::vector<int> kept = vital_reserves(course);
  const engine::ReserveInfo& asked = course.reserves[at(reserve)];
  if (!asked.life_supporting) kept.push_back(reserve);
  for (const int r : kept) {
    const bool supplied = course.reserves[at(r)].commodity.has_value();
    if (supplied && !leg_from_last_supply(after, turn, r)) return std::nullopt;
  }
  const LaidTrip back = back_to_supplies(after, turn, kept, -1);
  engine::Record back_record = engine::blank_record(*back.course);
  Engine::Standing home = Engine::resume(now, *back.course, turn, back_record);
  const auto ran_dry = [](const engine::Record& run, std::size_t r) {
    for (std::size_t day = 0; day < run.days(); ++day) {
      if (run.reserve(day, r).short_of > engine::rounding) return true;
    }
    return false;
  };
  bool saves = true;
  go_on_to_each_end(*back.course, home, to_own_supplies(back, turn), [&](std::size_t r) {
    if (std::ranges::find(kept, static_cast<int>(r)) == kept.end()) return;
    saves = saves && !ran_dry(back_record, r) && !ran_dry(record, r);
  });
  return saves;
}

}  // namespace drystage::answers
