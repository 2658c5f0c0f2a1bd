#include "answers/retreat.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace drystage::answers {
namespace {

constexpr double tiny_h = 1e-9;
constexpr int longest_wait_days = 14;
constexpr double day_h = 24;

const plan::Drive& drive_of(const Voyage& voyage, const engine::Leg& leg) {
  return std::get<plan::Drive>(voyage.plan->itinerary[static_cast<std::size_t>(leg.item)]);
}

/// A drive the other way, on the road that was come.
plan::Drive reversed(const plan::Drive& drive, int from) {
  plan::Drive back = drive;
  back.to = from;
  std::ranges::reverse(back.surfaces);
  back.climb_m = drive.descent_m;
  back.descent_m = drive.climb_m;
  back.back.reset();
  return back;
}

/// From the end of a drive to its beginning, by the road that is meant for it.
plan::Drive way_back(const plan::Drive& drive, int from) {
  plan::Drive back = reversed(drive, from);
  if (!drive.back) return back;
  back.distance_km = drive.back->distance_km;
  back.surfaces = drive.back->surfaces;
  back.climb_m = drive.back->climb_m;
  back.descent_m = drive.back->descent_m;
  return back;
}

}  // namespace

Voyage retreat(const Voyage& voyage, const Turn& turn, int reserve) {
  const engine::Timeline& timeline = *voyage.timeline;
  const engine::TimeStep& step = timeline.steps[turn.step];
  Progress progress = progress_before(timeline, turn.step);
  if (step.drive >= 0 && turn.hour > step.from_h + tiny_h) {
    progress = {.leg = step.leg, .done_km = 1, .under_way = true};
  }
  plan::Plan plan = *voyage.plan;
  const int first = static_cast<int>(plan.itinerary.size());
  for (int l = progress.leg; l >= turn.to_leg; --l) {
    const engine::Leg& leg = timeline.legs[static_cast<std::size_t>(l)];
    const plan::Drive& drive = drive_of(voyage, leg);
    const bool broken_off = l == progress.leg && progress.under_way;
    plan.itinerary.emplace_back(broken_off ? reversed(drive, leg.from) : way_back(drive, leg.from));
  }
  // Detours that lie ahead do not happen any more.
  const double at_h = day_h * step.day + turn.hour;
  std::vector<engine::Detour> detours;
  std::ranges::copy_if(voyage.detours, std::back_inserter(detours),
                       [at_h](const engine::Detour& other) { return other.at_h < at_h; });
  detours.push_back({.at_h = at_h, .halt_h = 0, .go_on_with = first});
  const auto lay = [&] {
    Voyage out = changed(voyage, std::make_shared<const plan::Plan>(plan), detours, step.day);
    out.course = std::make_shared<const engine::Course>(
        engine::recompile(*out.plan, out.timeline, *voyage.course, turn.step));
    return out;
  };
  Voyage out = lay();
  if (!next_refuge(out, turn.step, reserve)) {
    plan.itinerary.emplace_back(plan::Stay{.nights = longest_wait_days, .activity = {}});
    out = lay();
  }
  return out;
}

}  // namespace drystage::answers
