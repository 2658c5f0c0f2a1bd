#include "answers/onward/retreat.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <map>
#include <utility>

#include "plan/way_back.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::tiny_h;
using plan::reversed;
using plan::way_back;

constexpr double same_km = 1e-9;
constexpr double slight_km = 1e-6;

const plan::Drive& drive_of(const LaidTrip& laid, const engine::Leg& leg) {
  return std::get<plan::Drive>(laid.plan->itinerary[static_cast<std::size_t>(leg.item)]);
}

/// Drives that lead home, and how far.
struct WayHome {
  std::vector<plan::Drive> drives;
  double km = std::numeric_limits<double>::infinity();
};

/// The shortest ways to some places, from every place that legs and the plan's roads lead to: over
/// the legs from `first` to before `end`, either way, and the roads. Of the legs not over that of
/// leg `shut`; the roads are other ones.
class WaysHome {
 public:
  WaysHome(const LaidTrip& laid, const std::vector<int>& homes, int first, int end, int shut)
      : next_(laid.plan->places.size()) {
    const std::vector<engine::Leg>& legs = laid.timeline->legs;
    const auto at = [&](int l) -> const engine::Leg& { return legs[static_cast<std::size_t>(l)]; };
    // Who was turned back in the middle of a leg does not know that it leads through.
    std::vector<double> driven_km(legs.size());
    for (const engine::TimeStep& step : laid.timeline->steps) {
      if (step.drive >= 0) driven_km[static_cast<std::size_t>(step.leg)] += step.distance_km;
    }
    const int shut_from = shut < 0 ? -1 : at(shut).from;
    const int shut_to = shut < 0 ? -1 : drive_of(laid, at(shut)).to;
    for (const int home : homes) next(home).km = 0;
    const auto take = [&](const Way& way) {
      const double km = way.km + next(way.to).km;
      if (!(km < next(way.from).km - same_km)) return false;
      next(way.from) = {.km = km, .way = way};
      return true;
    };
    const auto take_leg = [&](const Way& way) {
      return (way.from != shut_from || way.to != shut_to) && take(way);
    };
    for (bool shorter = true; shorter;) {
      shorter = false;
      for (int l = first; l < end; ++l) {
        if (driven_km[static_cast<std::size_t>(l)] < at(l).distance_km - slight_km) continue;
        const plan::Drive& drive = drive_of(laid, at(l));
        const double back_km = drive.back ? drive.back->distance_km : drive.distance_km;
        const int from = at(l).from;
        const bool back = take_leg({drive.to, from, &drive, true, back_km});
        const bool again = take_leg({from, drive.to, &drive, false, drive.distance_km});
        shorter = shorter || back || again;
      }
      for (const plan::Road& road : laid.plan->roads) {
        const plan::Drive& drive = road.drive;
        const bool there = take({road.from, drive.to, &drive, false, drive.distance_km});
        const bool back =
            !road.one_way && take({drive.to, road.from, &drive, true, drive.distance_km});
        shorter = shorter || there || back;
      }
    }
  }

  /// The drives from a place, after some others. Endlessly far where none leads home.
  [[nodiscard]] WayHome from(int place, WayHome way) const {
    way.km += next_[static_cast<std::size_t>(place)].km;
    if (std::isinf(way.km)) return {};
    while (next_[static_cast<std::size_t>(place)].km > 0) {
      const Way& taken = next_[static_cast<std::size_t>(place)].way;
      way.drives.push_back(taken.back ? way_back(*taken.drive, taken.to) : *taken.drive);
      place = taken.to;
    }
    return way;
  }

 private:
  /// A leg or a road, one way.
  struct Way {
    int from = -1;
    int to = -1;
    const plan::Drive* drive = nullptr;
    bool back = false;  ///< against the drive
    double km = 0;
  };
  /// How far home is, and the way that leads there.
  struct Next {
    double km = std::numeric_limits<double>::infinity();
    Way way{};
  };

  Next& next(int place) { return next_[static_cast<std::size_t>(place)]; }

  std::vector<Next> next_;  ///< by place
};

/// To the nearest of some places, over the legs from `first` on: the shorter of turning round and,
/// where a way is known from the end of the leg under way, going on to it. Endlessly long where
/// what is shut leaves none.
WayHome way_to(const LaidTrip& laid, const Progress& progress, const std::vector<int>& places,
               int first, int shut) {
  const engine::Leg& leg = laid.timeline->legs[at(progress.leg)];
  const plan::Drive& drive = drive_of(laid, leg);
  if (!progress.under_way) {
    const WaysHome ways(laid, places, first, progress.leg + 1, shut);
    return ways.from(drive.to, {.drives = {}, .km = 0});
  }
  const WaysHome ways(laid, places, first, progress.leg, shut);
  WayHome back =
      ways.from(leg.from, {.drives = {reversed(drive, leg.from)}, .km = progress.done_km});
  if (progress.leg == shut || drive.to == leg.from) return back;
  WayHome on = ways.from(drive.to, {.drives = {drive}, .km = leg.distance_km - progress.done_km});
  return on.km < back.km ? on : back;
}

/// A supply that can be counted on whatever the day.
bool is_always_there(const plan::Supply* supply) {
  return supply != nullptr && can_be_counted_on(*supply) && supply->open_weekdays.all() &&
         supply->open_dates.empty() && supply->shut_dates.empty();
}

/// The last supply of each reserve that has been met by a step.
std::map<int, Passed> last_supplies(const LaidTrip& laid, std::size_t step) {
  std::map<int, Passed> out;
  for (std::size_t r = 0; r < laid.course->reserves.size(); ++r) {
    const engine::ReserveInfo& info = laid.course->reserves[r];
    if (!info.commodity || info.sense != engine::Sense::keep_above) continue;
    for (const Passed& passed : passed_refuges(laid, static_cast<int>(r))) {
      if (passed.refuge.step <= step) out.insert_or_assign(static_cast<int>(r), passed);
    }
  }
  return out;
}

/// The places off the trip's way that always have all that is surely to be had behind.
std::vector<int> refuges_aside(const LaidTrip& laid, const std::map<int, Passed>& behind) {
  std::vector<int> out;
  if (behind.empty()) return out;
  for (int place = 0; place < static_cast<int>(laid.plan->places.size()); ++place) {
    const bool on_the_way = std::ranges::any_of(laid.timeline->legs, [&](const engine::Leg& leg) {
      return leg.from == place || drive_of(laid, leg).to == place;
    });
    const bool has_all = std::ranges::all_of(behind, [&](const auto& last) {
      return is_always_there(supply_at(laid, place, last.first));
    });
    if (!on_the_way && has_all) out.push_back(place);
  }
  return out;
}

/// The way back to where leg `to_leg` began; or to a place aside, where that is nearer than every
/// last supply behind. All reserves then ask for the same way.
WayHome way_home(const LaidTrip& laid, std::size_t step, const Progress& progress, int to_leg,
                 int shut) {
  if (progress.leg < to_leg) return {.drives = {}, .km = 0};
  const bool has_roads = !laid.plan->roads.empty();
  // Roads may lead to where the party was before.
  const auto way = [&](const std::vector<int>& places, int leg) {
    return way_to(laid, progress, places, has_roads ? 0 : leg, shut);
  };
  const auto home = [&](int leg) { return way({laid.timeline->legs[at(leg)].from}, leg); };
  WayHome back = home(to_leg);
  if (!has_roads) return back;
  const std::map<int, Passed> behind = last_supplies(laid, step);
  WayHome aside = way(refuges_aside(laid, behind), 0);
  const bool nearest = aside.km < back.km && std::ranges::all_of(behind, [&](const auto& last) {
                         const int leg = last.second.to_leg;
                         return leg <= progress.leg && aside.km < home(leg).km;
                       });
  return nearest ? aside : back;
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
  for (plan::Drive& drive : way_home(laid, turn.step, progress, turn.to_leg, turn.shut).drives) {
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
  // With roads the way depends on what reserves there are, and so on the plan's stores.
  LaidTrip before = laid;
  if (!plan.roads.empty()) before.kept = nullptr;
  const auto lay = [&] {
    LaidTrip out = changed(before, std::make_shared<const plan::Plan>(plan), detours, step.day);
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
  return !std::isinf(way_home(laid, step, progress, to_leg, shut).km);
}

}  // namespace drystage::answers
