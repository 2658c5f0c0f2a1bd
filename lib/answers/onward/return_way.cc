#include "answers/onward/return_way.h"

#include <algorithm>
#include <cmath>

#include "answers/onward/retreat.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

/// Whether one of the legs from one to another has another road as its way back.
bool has_own_way_back(const LaidTrip& laid, int from_leg, int to_leg) {
  const auto& legs = laid.timeline->legs;
  for (int leg = from_leg; leg <= to_leg && leg < static_cast<int>(legs.size()); ++leg) {
    const auto item = static_cast<std::size_t>(legs[at(leg)].item);
    if (std::get<plan::Drive>(laid.plan->itinerary[item]).back) return true;
  }
  return false;
}

}  // namespace

std::optional<ReturnWay> return_way(const PlanRun& planned, const SupplyStretch& stretch,
                                    const Moment& from) {
  const LaidTrip laid = laid_trip_on_what_is_certain(planned);
  const engine::Timeline& timeline = *laid.timeline;
  const std::vector<Passed> passed = passed_refuges(laid, stretch.reserve);
  const auto leaves = [&](const Passed& one) {
    return std::max(one.leaves, laid.course->judged_from());
  };
  // Of those left before the last reading it is the last.
  const auto behind = std::find_if(passed.rbegin(), passed.rend(), [&](const Passed& one) {
    return one.refuge.place == stretch.from_place && leaves(one) < timeline.steps.size() &&
           std::abs(moment_before(laid, leaves(one)).trip_h() - stretch.leaves.trip_h()) < minute_h;
  });
  if (behind == passed.rend()) return std::nullopt;
  std::size_t step = leaves(*behind);
  while (step + 1 < timeline.steps.size() &&
         moment_before(laid, step + 1).trip_h() <= from.trip_h()) {
    ++step;
  }
  const double begins_h = timeline.steps[step].from_h;
  const bool within = timeline.steps[step].day == from.day && from.hour > begins_h + minute_h / 4;
  const LaidTrip back =
      retreat(laid, {.step = step, .hour = within ? from.hour : begins_h, .to_leg = behind->to_leg},
              {stretch.reserve});
  const std::size_t then = within ? step + 1 : step;
  const auto refuge = next_refuge(back, then, stretch.reserve);
  if (!refuge) return std::nullopt;
  ReturnWay out{
      .place = refuge->place,
      .as_it_came = !has_own_way_back(laid, behind->to_leg, progress_before(timeline, then).leg)};
  for (std::size_t s = then; s < refuge->step; ++s) {
    const engine::TimeStep& step_back = back.timeline->steps[s];
    out.distance_km += step_back.distance_km;
    if (step_back.drive < 0) continue;
    const auto item = static_cast<std::size_t>(back.timeline->legs[at(step_back.leg)].item);
    if (std::get<plan::Drive>(back.plan->itinerary[item]).off_itinerary) out.by_road = true;
  }
  if (out.by_road) out.as_it_came = false;
  return out;
}

bool leads_on(const PlanRun& planned, const TurnBack& turn_back, const Window& window, bool vital) {
  const double from_h = window.from.trip_h();
  const double last_h = window.last.trip_h();
  if (window.from.to_go_km <= 0) return false;
  std::optional<int> leg;
  for (const engine::TimeStep& step : planned.course.timeline->steps) {
    const double begins_h = day_h * step.day + step.from_h;
    if (step.drive < 0 || begins_h + step.dt_h < from_h + minute_h || begins_h > last_h - minute_h)
      continue;
    if (leg && *leg != step.leg) return false;
    leg = step.leg;
  }
  if (!leg) return false;
  bool counted = false;
  for (const SupplyStretch& stretch : turn_back.stretches) {
    const auto& info = planned.course.reserves[static_cast<std::size_t>(stretch.reserve)];
    if (vital && !info.life_supporting) continue;
    if (from_h < stretch.leaves.trip_h() - minute_h ||
        from_h > stretch.arrives.trip_h() + minute_h) {
      continue;
    }
    const auto way = return_way(planned, stretch, window.from);
    if (!way || way->place != window.from.at.to) return false;
    counted = true;
  }
  return counted;
}

}  // namespace drystage::answers
