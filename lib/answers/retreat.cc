#include "answers/retreat.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace drystage::answers {
namespace {

constexpr double tiny_h = 1e-9;
constexpr int longest_wait_days = 14;  // ours
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

/// Drives that lead home, and how far.
struct WayHome {
  std::vector<plan::Drive> drives;
  double km = 0;

  void add(plan::Drive drive, double distance_km) {
    drives.push_back(std::move(drive));
    km += distance_km;
  }
};

/// From a place where the party has been before leg `leg`, back to where leg `to_leg` began: the
/// legs driven since, but for rounds that lead back to a place passed before.
void add_legs_home(const Voyage& voyage, int place, int leg, int to_leg, WayHome& way) {
  const std::vector<engine::Leg>& legs = voyage.timeline->legs;
  const auto from = [&](int l) { return legs[static_cast<std::size_t>(l)].from; };
  while (true) {
    for (int l = to_leg; l < leg; ++l) {
      if (from(l) == place) leg = l;
    }
    if (leg <= to_leg) return;
    --leg;
    const plan::Drive home =
        way_back(drive_of(voyage, legs[static_cast<std::size_t>(leg)]), from(leg));
    way.add(home, home.distance_km);
    place = from(leg);
  }
}

/// The shorter of turning round and, where the leg under way leads to a place passed before, going
/// on to it.
WayHome way_home(const Voyage& voyage, const Progress& progress, int to_leg, bool may_go_on) {
  const std::vector<engine::Leg>& legs = voyage.timeline->legs;
  WayHome back;
  if (progress.leg < to_leg) return back;
  const engine::Leg& leg = legs[static_cast<std::size_t>(progress.leg)];
  const plan::Drive& drive = drive_of(voyage, leg);
  if (!progress.under_way) {
    add_legs_home(voyage, drive.to, progress.leg + 1, to_leg, back);
    return back;
  }
  back.add(reversed(drive, leg.from), progress.done_km);
  add_legs_home(voyage, leg.from, progress.leg, to_leg, back);
  const bool passed = std::any_of(legs.begin() + to_leg, legs.begin() + progress.leg + 1,
                                  [&](const engine::Leg& other) { return other.from == drive.to; });
  if (!may_go_on || !passed || drive.to == leg.from) return back;
  WayHome on;
  on.add(drive, leg.distance_km - progress.done_km);
  add_legs_home(voyage, drive.to, progress.leg + 1, to_leg, on);
  return on.km < back.km ? on : back;
}

/// Whether a supply of a reserve has been met by a step.
bool lies_behind(const Voyage& voyage, std::size_t step, int reserve) {
  const std::vector<Passed> passed = passed_refuges(voyage, reserve);
  return !passed.empty() && passed.front().refuge.step <= step;
}

}  // namespace

Voyage retreat(const Voyage& voyage, const Turn& turn, const std::vector<int>& reserves) {
  const engine::Timeline& timeline = *voyage.timeline;
  const engine::TimeStep& step = timeline.steps[turn.step];
  Progress progress = progress_before(timeline, turn.step);
  if (step.drive >= 0 && turn.hour > step.from_h + tiny_h) {
    const double share = (turn.hour - step.from_h) / step.dt_h;
    const double before_km = progress.leg == step.leg && progress.under_way ? progress.done_km : 0;
    progress = {
        .leg = step.leg, .done_km = before_km + share * step.distance_km, .under_way = true};
  }
  plan::Plan plan = *voyage.plan;
  const int first = static_cast<int>(plan.itinerary.size());
  for (plan::Drive& drive : way_home(voyage, progress, turn.to_leg, turn.may_go_on).drives) {
    plan.itinerary.emplace_back(std::move(drive));
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
  const bool waits = std::ranges::any_of(reserves, [&](int reserve) {
    return lies_behind(voyage, turn.step, reserve) && !next_refuge(out, turn.step, reserve);
  });
  if (waits) {
    plan.itinerary.emplace_back(plan::Stay{.nights = longest_wait_days, .activity = {}});
    out = lay();
  }
  return out;
}

bool leads_over(const Voyage& voyage, std::size_t step, int to_leg, int leg) {
  const engine::Leg& shut = voyage.timeline->legs[static_cast<std::size_t>(leg)];
  const int shut_to = drive_of(voyage, shut).to;
  const Progress progress = progress_before(*voyage.timeline, step);
  int place = progress.under_way ? -1
              : progress.leg < 0 ? shut.from
                                 : moment_before(voyage, step).at.to;
  for (const plan::Drive& drive : way_home(voyage, progress, to_leg, false).drives) {
    if (place == shut.from && drive.to == shut_to) return true;
    place = drive.to;
  }
  return false;
}

}  // namespace drystage::answers
