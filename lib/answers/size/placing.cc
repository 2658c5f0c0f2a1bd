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

template <class Thing>
bool is_new(const std::vector<Thing>& before, const std::string& name) {
  return std::ranges::find(before, name, &Thing::name) == before.end();
}

bool is_added(const plan::Plan& before, const engine::StoreInfo& store) {
  switch (store.family) {
    case Family::drinking_water:
    case Family::utility_water:
      return is_new(before.water.containers, store.name);
    case Family::fuel:
      return is_new(before.vehicles[at(store.of)].tanks, store.name);
    case Family::consumable:
      return is_new(before.consumables[at(store.of)].stores, store.name);
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
    out.push_back(store && is_added(before, sized.course.stores[at(thing.index)]) ? 1 : 0);
  }
  return out;
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
    const Moves found = least_moves(sized, trace, loads, sized.course.scales,
                                    {.which = added(before, sized, loads), .may_leave = false});
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

void give_bays(const plan::Plan& before, PlanRun& sized) {
  for (std::size_t s = 0; s < sized.course.stores.size(); ++s) {
    const engine::StoreInfo store = sized.course.stores[s];
    const bool carried = store.vehicle >= 0 && at(store.vehicle) < sized.plan.vehicles.size();
    if (!carried || sized.plan.vehicles[at(store.vehicle)].bays.empty()) continue;
    if (store.spot.bay || store.spot.at_m || !is_added(before, store)) continue;
    const std::vector<double> room_kg = weigh(sized).vehicles[at(store.vehicle)].room_kg;
    int best = -1;
    for (std::size_t b = 0; b < room_kg.size(); ++b) {
      if (engine::is_seat(sized.plan, store.vehicle, static_cast<int>(b))) continue;
      const auto& bay = sized.plan.vehicles[at(store.vehicle)].bays[b];
      if (bay.on_roof || (best >= 0 && room_kg[b] <= room_kg[at(best)])) continue;
      best = static_cast<int>(b);
    }
    if (best < 0) continue;
    plan::Plan plan = sized.plan;
    spot_of(plan, store).bay = best;
    run_again(sized, std::move(plan));
  }
}

}  // namespace drystage::answers
