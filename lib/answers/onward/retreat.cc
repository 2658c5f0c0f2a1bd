#include "answers/onward/retreat.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

#include "units/day.h"

namespace drystage::answers {
namespace {

using engine::tiny_h;

constexpr double same_km = 1e-9;
constexpr double slight_km = 1e-6;

const plan::Drive& drive_of(const LaidTrip& laid, const engine::Leg& leg) {
  return std::get<plan::Drive>(laid.plan->itinerary[static_cast<std::size_t>(leg.item)]);
}

/// A drive the other way, on the road that was come.
plan::Drive reversed(const plan::Drive& drive, int from) {
  plan::Drive back = drive;
  back.to = from;
  std::ranges::reverse(back.surfaces);
  back.climb_m = drive.descent_m;
  back.descent_m = drive.climb_m;
  // The wind that blew against them now helps; nothing is counted on it.
  back.kind.headwind_m_s = 0;
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
  back.kind = drive.back->kind;
  return back;
}

/// Drives that lead home, and how far.
struct WayHome {
  std::vector<plan::Drive> drives;
  double km = std::numeric_limits<double>::infinity();
};

/// The shortest ways back to where leg `to_leg` began, from every place passed since, over the
/// roads of the legs from that one to before leg `end`, either way; not over that of leg `shut`.
class WaysHome {
 public:
  WaysHome(const LaidTrip& laid, int to_leg, int end, int shut)
      : laid_(laid), next_(laid.plan->places.size()) {
    const std::vector<engine::Leg>& legs = laid.timeline->legs;
    const auto at = [&](int l) -> const engine::Leg& { return legs[static_cast<std::size_t>(l)]; };
    // Who was turned back in the middle of a leg does not know that it leads through.
    std::vector<double> driven_km(legs.size());
    for (const engine::TimeStep& step : laid.timeline->steps) {
      if (step.drive >= 0) driven_km[static_cast<std::size_t>(step.leg)] += step.distance_km;
    }
    const int shut_from = shut < 0 ? -1 : at(shut).from;
    const int shut_to = shut < 0 ? -1 : drive_of(laid, at(shut)).to;
    next(at(to_leg).from).km = 0;
    const auto take = [&](const Road& road) {
      if (road.from == shut_from && road.to == shut_to) return false;
      const double km = road.km + next(road.to).km;
      if (!(km < next(road.from).km - same_km)) return false;
      next(road.from) = {.km = km, .road = road};
      return true;
    };
    for (bool shorter = true; shorter;) {
      shorter = false;
      for (int l = to_leg; l < end; ++l) {
        if (driven_km[static_cast<std::size_t>(l)] < at(l).distance_km - slight_km) continue;
        const plan::Drive& drive = drive_of(laid, at(l));
        const double back_km = drive.back ? drive.back->distance_km : drive.distance_km;
        const int from = at(l).from;
        const bool back = take({drive.to, from, l, true, back_km});
        const bool again = take({from, drive.to, l, false, drive.distance_km});
        shorter = shorter || back || again;
      }
    }
  }

  /// From a place; endlessly far where none leads home.
  [[nodiscard]] double km(int place) const { return next_[static_cast<std::size_t>(place)].km; }

  /// The drives from a place, after some others.
  [[nodiscard]] WayHome from(int place, WayHome way) const {
    way.km += km(place);
    if (std::isinf(way.km)) return {};
    while (next_[static_cast<std::size_t>(place)].km > 0) {
      const Road& road = next_[static_cast<std::size_t>(place)].road;
      const plan::Drive& drive =
          drive_of(laid_, laid_.timeline->legs[static_cast<std::size_t>(road.leg)]);
      way.drives.push_back(road.back ? way_back(drive, road.to) : drive);
      place = road.to;
    }
    return way;
  }

 private:
  /// The road of a leg, one way.
  struct Road {
    int from = -1;
    int to = -1;
    int leg = -1;
    bool back = false;  ///< against the leg
    double km = 0;
  };
  /// How far home is, and the road that leads there.
  struct Next {
    double km = std::numeric_limits<double>::infinity();
    Road road{};
  };

  Next& next(int place) { return next_[static_cast<std::size_t>(place)]; }

  const LaidTrip& laid_;
  std::vector<Next> next_;  ///< by place
};

/// The shorter of turning round and, where the leg under way leads to a place passed before, going
/// on to it. Endlessly long where what is shut leaves none.
WayHome way_home(const LaidTrip& laid, const Progress& progress, int to_leg, int shut) {
  const std::vector<engine::Leg>& legs = laid.timeline->legs;
  if (progress.leg < to_leg) return {.drives = {}, .km = 0};
  const engine::Leg& leg = legs[static_cast<std::size_t>(progress.leg)];
  const plan::Drive& drive = drive_of(laid, leg);
  if (!progress.under_way) {
    return WaysHome(laid, to_leg, progress.leg + 1, shut).from(drive.to, {.drives = {}, .km = 0});
  }
  const WaysHome ways(laid, to_leg, progress.leg, shut);
  WayHome back =
      ways.from(leg.from, {.drives = {reversed(drive, leg.from)}, .km = progress.done_km});
  if (progress.leg == shut || drive.to == leg.from) return back;
  WayHome on = ways.from(drive.to, {.drives = {drive}, .km = leg.distance_km - progress.done_km});
  return on.km < back.km ? on : back;
}

/// Fuel of this kind, by vehicle; else once for all.
std::vector<std::optional<int>> takers(const LaidTrip& laid, plan::Commodity commodity) {
  const bool diesel = commodity == plan::Commodity::diesel;
  if (!diesel && commodity != plan::Commodity::petrol) return {std::nullopt};
  const plan::FuelKind fuel = diesel ? plan::FuelKind::diesel : plan::FuelKind::petrol;
  std::vector<std::optional<int>> out;
  for (int v = 0; v < static_cast<int>(laid.plan->vehicles.size()); ++v) {
    const bool burns_it = laid.plan->vehicles[static_cast<std::size_t>(v)].fuel == fuel;
    if (burns_it && !engine::is_among(laid.course->damage.vehicles, v)) out.emplace_back(v);
  }
  return out;
}

/// What is taken at a place on the way back where supplies that are sure give at most so much: all
/// of it that there is room for. Vehicles have equal parts, and then what others have left.
plan::Resupply taking_what_there_is(const LaidTrip& laid, int place) {
  plan::Resupply out;
  for (const plan::Supply& supply : laid.plan->places[static_cast<std::size_t>(place)].supplies) {
    const bool brackish = supply.quality == plan::WaterQuality::brackish;
    if (!supply.confirmed || !supply.most || brackish || !is_taken_on(supply.commodity)) continue;
    const std::vector<std::optional<int>> all = takers(laid, supply.commodity);
    const auto order = [&](std::optional<int> vehicle, double amount) {
      plan::Order one;
      one.commodity = supply.commodity;
      one.take = plan::Take::amount;
      one.amount = amount;
      one.vehicle = vehicle;
      out.orders.push_back(one);
    };
    const double part = *supply.most / static_cast<double>(std::max<std::size_t>(1, all.size()));
    for (const std::optional<int>& vehicle : all) order(vehicle, part);
    if (all.size() < 2) continue;
    for (const std::optional<int>& vehicle : all) order(vehicle, *supply.most);
  }
  return out;
}

/// The place where the party is; -1 on the road.
int stands_at(const LaidTrip& laid, const Progress& progress) {
  if (progress.under_way) return -1;
  if (progress.leg < 0) return engine::place_at(laid.timeline->days.front().schedule.from);
  return drive_of(laid, laid.timeline->legs[static_cast<std::size_t>(progress.leg)]).to;
}

/// Whether a supply of a reserve has been met by a step.
bool lies_behind(const LaidTrip& laid, std::size_t step, int reserve) {
  const std::vector<Passed> passed = passed_refuges(laid, reserve);
  return !passed.empty() && passed.front().refuge.step <= step;
}

}  // namespace

LaidTrip retreat(const LaidTrip& laid, const Turn& turn, const std::vector<int>& reserves) {
  const engine::Timeline& timeline = *laid.timeline;
  const engine::TimeStep& step = timeline.steps[turn.step];
  Progress progress = progress_before(timeline, turn.step);
  if (step.drive >= 0 && turn.hour > step.from_h + tiny_h) {
    const double share = (turn.hour - step.from_h) / step.dt_h;
    const double before_km = progress.leg == step.leg && progress.under_way ? progress.done_km : 0;
    progress = {
        .leg = step.leg, .done_km = before_km + share * step.distance_km, .under_way = true};
  }
  plan::Plan plan = *laid.plan;
  const int first = static_cast<int>(plan.itinerary.size());
  std::vector<int> added_stops = laid.added_stops;
  const auto call_at = [&](int place) {
    if (place < 0) return;
    plan::Resupply stop = taking_what_there_is(laid, place);
    if (stop.orders.empty()) return;
    added_stops.push_back(static_cast<int>(plan.itinerary.size()));
    plan.itinerary.emplace_back(std::move(stop));
  };
  call_at(stands_at(laid, progress));
  for (plan::Drive& drive : way_home(laid, progress, turn.to_leg, turn.shut).drives) {
    const int to = drive.to;
    plan.itinerary.emplace_back(std::move(drive));
    call_at(to);
  }
  // Detours that lie ahead do not happen any more.
  const double at_h = day_h * step.day + turn.hour;
  std::vector<engine::Detour> detours;
  std::ranges::copy_if(laid.detours, std::back_inserter(detours),
                       [at_h](const engine::Detour& other) { return other.at_h < at_h; });
  detours.push_back({.at_h = at_h, .halt_h = 0, .go_on_with = first});
  const auto lay = [&] {
    LaidTrip out = changed(laid, std::make_shared<const plan::Plan>(plan), detours, step.day);
    out.course = std::make_shared<const engine::Course>(
        engine::recompile(*out.plan, out.timeline, *laid.course, turn.step));
    out.added_stops = added_stops;
    return out;
  };
  LaidTrip out = lay();
  const bool waits = std::ranges::any_of(reserves, [&](int reserve) {
    return lies_behind(laid, turn.step, reserve) && !next_refuge(out, turn.step, reserve);
  });
  if (waits) {
    plan.itinerary.emplace_back(plan::Stay{.nights = longest_wait_days, .activity = {}});
    out = lay();
  }
  return out;
}

bool leads_home(const LaidTrip& laid, std::size_t step, int to_leg, int shut) {
  const Progress progress = progress_before(*laid.timeline, step);
  return !std::isinf(way_home(laid, progress, to_leg, shut).km);
}

}  // namespace drystage::answers
