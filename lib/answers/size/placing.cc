#include "answers/size/placing.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "answers/weigh/weighing.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

using engine::Carried;
using engine::Family;

/// Whether a list had nothing of this name, or another of another size.
template <class Thing>
bool is_new(const std::vector<Thing>& before, const engine::StoreInfo& store) {
  const auto same = std::ranges::find(before, store.name, &Thing::name);
  if (same == before.end() || same->empty_kg != store.empty_kg) return true;
  if constexpr (requires { same->holds_l; }) {
    return same->holds_l != store.capacity;
  } else {
    return same->holds != store.capacity;
  }
}

/// What can be put anywhere of what a sized plan adds, or has in another size.
bool is_added(const plan::Plan& before, const engine::StoreInfo& store) {
  switch (store.family) {
    case Family::drinking_water:
    case Family::utility_water:
      return is_new(before.water.containers, store);
    case Family::fuel:
      return is_new(before.vehicles[at(store.of)].tanks, store);
    case Family::consumable:
      return is_new(before.consumables[at(store.of)].stores, store);
    default:
      return false;
  }
}

plan::Spot& spot_of(plan::Plan& plan, const engine::StoreInfo& store) {
  if (store.family == Family::fuel) {
    return plan.vehicles[at(store.of)].tanks[at(store.index)].spot;
  }
  if (store.family == Family::consumable) {
    return plan.consumables[at(store.of)].stores[at(store.index)].spot;
  }
  return plan.water.containers[at(store.index)].spot;
}

/// By thing of a vehicle: whether it was added.
std::vector<char> added(const plan::Plan& before, const PlanRun& sized, const Loads& loads) {
  std::vector<char> out;
  for (const Carried& thing : loads.things()) {
    const bool store = thing.sort == Carried::Sort::store;
    const bool can = store && thing.movable;
    out.push_back(can && is_added(before, sized.course.stores[at(thing.index)]) ? 1 : 0);
  }
  return out;
}

/// No seat, not the roof, and fuel only where fuel is.
bool may_hold(const PlanRun& sized, const engine::StoreInfo& store, int bay) {
  if (engine::is_seat(sized.plan, store.vehicle, bay)) return false;
  if (sized.plan.vehicles[at(store.vehicle)].bays[at(bay)].on_roof) return false;
  if (store.family != Family::fuel) return true;
  return std::ranges::any_of(sized.course.stores, [&](const engine::StoreInfo& other) {
    return other.family == Family::fuel && other.vehicle == store.vehicle && other.spot.bay == bay;
  });
}

void run_again(PlanRun& sized, plan::Plan plan) {
  sized = run_plan(std::move(plan), sized.course.timeline, &sized.course,
                   sized.course.more_margin_days, sized.rates);
}

}  // namespace

bool place_added(const plan::Plan& before, PlanRun& sized) {
  const Trace trace = trace_of(sized);
  plan::Plan plan = sized.plan;
  bool any = false;
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    const Loads loads(sized, trace, static_cast<int>(v));
    const Moves found =
        least_moves(sized, trace, loads, sized.course.scales,
                    {.which = added(before, sized, loads), .may_leave = false, .whole_only = true});
    for (const Move& move : found.moves) {
      for (const Carried& thing : loads.things()) {
        if (thing.sort != Carried::Sort::store || thing.name != move.name) continue;
        const engine::StoreInfo& store = sized.course.stores[at(thing.index)];
        if (is_added(before, store)) spot_of(plan, store) = move.to;
      }
      any = true;
    }
  }
  if (any) run_again(sized, std::move(plan));
  return any;
}

bool is_over_wherever_put(const PlanRun& sized, std::size_t scale) {
  const engine::Scale& it = sized.course.scales[scale];
  const plan::Plan& plan = sized.plan;
  const plan::Vehicle& vehicle = plan.vehicles[at(it.vehicle)];
  const Trace trace = trace_of(sized);
  const Loads loads(sized, trace, it.vehicle);
  const auto first = std::ranges::find_if(
      loads.moments(), [&](std::size_t moment) { return !trace.moments[moment].past; });
  if (first == loads.moments().end()) return false;
  const auto moment = static_cast<std::size_t>(first - loads.moments().begin());
  double least_share = engine::share_of(vehicle, it, {});
  for (std::size_t b = 0; b < vehicle.bays.size(); ++b) {
    if (engine::is_seat(plan, it.vehicle, static_cast<int>(b))) continue;
    least_share =
        std::min(least_share, engine::share_of(vehicle, it, {.bay = static_cast<int>(b)}));
  }
  for (const Carried& thing : loads.things()) {
    least_share = std::min(least_share, engine::share_of(vehicle, it, thing.spot));
  }
  if (least_share < 0) return false;
  double kg = scale_kg(it, trace, *first);
  for (std::size_t t = 0; t < loads.things().size(); ++t) {
    const Carried& thing = loads.things()[t];
    if (thing.sort != Carried::Sort::store) continue;
    const engine::StoreInfo& store = sized.course.stores[at(thing.index)];
    const bool fitted = store.family == Family::fuel && !thing.movable && plan.size.tanks.empty();
    if (fitted || store.family == Family::battery) continue;
    kg += loads.kg(t, moment) * (least_share - engine::share_of(vehicle, it, thing.spot));
  }
  constexpr double tiny_kg = 1e-6;
  return kg > it.limit_kg + tiny_kg;
}

std::vector<Placed> placed(const plan::Plan& before, const PlanRun& sized) {
  std::vector<Placed> out;
  for (const engine::StoreInfo& store : sized.course.stores) {
    if (!store.spot.bay || !is_added(before, store)) continue;
    out.push_back({.name = store.name, .vehicle = store.vehicle, .bay = *store.spot.bay});
  }
  return out;
}

void give_bays(const plan::Plan& before, PlanRun& sized) {
  for (std::size_t s = 0; s < sized.course.stores.size(); ++s) {
    const engine::StoreInfo store = sized.course.stores[s];
    const bool carried = store.vehicle >= 0 && at(store.vehicle) < sized.plan.vehicles.size();
    if (!carried || sized.plan.vehicles[at(store.vehicle)].bays.empty()) continue;
    if (store.spot.bay || store.spot.at_m || !is_added(before, store)) continue;
    const double most_kg =
        engine::own_kg(store) + (store.fills ? 0 : store.capacity * store.kg_per_unit);
    const std::vector<double> room_kg = weigh(sized).vehicles[at(store.vehicle)].room_kg;
    int best = -1;
    for (std::size_t b = 0; b < room_kg.size(); ++b) {
      if (room_kg[b] < most_kg || !may_hold(sized, store, static_cast<int>(b))) continue;
      if (best < 0 || room_kg[b] > room_kg[at(best)]) best = static_cast<int>(b);
    }
    if (best < 0) continue;
    plan::Plan plan = sized.plan;
    spot_of(plan, store).bay = best;
    run_again(sized, std::move(plan));
  }
}

}  // namespace drystage::answers
