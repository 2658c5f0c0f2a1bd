#include "engine/reserves/water.h"

#include <algorithm>

namespace drystage::engine::reserves {
namespace {

using plan::Commodity;
using plan::WaterQuality;
using plan::WaterUse;

void add_can(const plan::Container& can, Water::Compiled& compiled, CourseBase& course) {
  const int store = add_store(course, {.name = can.name,
                                       .unit = "L",
                                       .capacity = can.holds_l,
                                       .initial = can.filled_l,
                                       .kg_per_unit = 1,
                                       .vehicle = can.vehicle});
  const bool brackish = can.quality == WaterQuality::brackish;
  compiled.cans.push_back({.store = store,
                           .holds_l = can.lost ? 0 : can.holds_l,
                           .drinking = can.use == WaterUse::drinking && !brackish,
                           .brackish = brackish,
                           .moved_into = can.moved ? can.vehicle : -1});
}

int reserve_of(const Water::Compiled& compiled, const Water::CanState& can) {
  return can.drinking ? compiled.drinking : compiled.utility;
}

void set_levels(const Water::Compiled& compiled, const Water::State& state, Run& run) {
  double drinking = 0;
  double utility = 0;
  for (std::size_t i = 0; i < compiled.cans.size(); ++i) {
    (state.cans[i].drinking ? drinking : utility) += run.level(compiled.cans[i].store);
  }
  run.reserve_level(compiled.drinking) = drinking;
  if (compiled.utility >= 0) run.reserve_level(compiled.utility) = utility;
}

/// Takes up to `wanted` from the containers of one pool, in order of use; answers what was got.
double draw(const Water::Compiled& compiled, const Water::State& state, Run& run, bool drinking,
            double wanted) {
  double got = 0;
  for (std::size_t i = 0; i < compiled.cans.size() && got < wanted; ++i) {
    if (state.cans[i].drinking != drinking) continue;
    const int store = compiled.cans[i].store;
    const double part = std::min(wanted - got, run.level(store));
    if (part <= 0) continue;
    run.use(store, reserve_of(compiled, state.cans[i]), part);
    got += part;
  }
  return got;
}

double brackish_left(const Water::Compiled& compiled, const Water::State& state, const Run& run) {
  double left = 0;
  for (std::size_t i = 0; i < compiled.cans.size(); ++i) {
    if (state.cans[i].brackish) left += run.level(compiled.cans[i].store);
  }
  return left;
}

void drink(const Water::Compiled& compiled, Water::State& state, Run& run, const TimeStep& step) {
  double missing = step.drink_l - draw(compiled, state, run, true, step.drink_l);
  if (missing <= 1e-12) {
    state.told_utility = false;
    return;
  }
  const double brackish = brackish_left(compiled, state, run);
  if (brackish <= 0) {
    const double got = draw(compiled, state, run, false, missing);
    if (got > 0 && !state.told_utility) {
      run.tell(EventKind::utility_drunk, step.from_h, compiled.utility, got);
    }
    state.told_utility = got > 0;
    missing -= got;
  }
  if (run.fall_short(compiled.drinking, missing, step.from_h) && brackish > 0) {
    run.tell(EventKind::only_brackish, step.from_h, compiled.drinking, brackish);
  }
}

/// Before filling: a container that is empty and has been cleaned is as good as new.
void clean(const Water::Compiled& compiled, Water::State& state, const Run& run) {
  for (std::size_t i = 0; i < compiled.cans.size(); ++i) {
    if (run.level(compiled.cans[i].store) > 0) continue;
    state.cans[i] = {.drinking = compiled.cans[i].drinking, .brackish = false};
  }
}

void spoil_can(const Water::Compiled& compiled, Water::CanState& can, Run& run, int store,
               double hour) {
  if (can.brackish) return;
  if (can.drinking) run.reassign(compiled.drinking, compiled.utility, run.level(store));
  can = {.drinking = false, .brackish = true};
  run.tell(EventKind::brackish_in, hour, store);
}

}  // namespace

Water::Compiled Water::compile(const plan::Plan& plan, CourseBase& course) {
  Compiled compiled;
  double drinking_l = 0;
  double utility_l = 0;
  for (const bool last : {false, true}) {
    for (const plan::Container& can : plan.water.containers) {
      if (can.opened_last != last) continue;
      add_can(can, compiled, course);
      (compiled.cans.back().drinking ? drinking_l : utility_l) += can.holds_l;
    }
  }
  compiled.drinking = add_reserve(course, plan,
                                  {.name = "drinking_water",
                                   .title = "Drinking",
                                   .unit = "L",
                                   .capacity = drinking_l,
                                   .life_supporting = true,
                                   .commodity = Commodity::drinking_water});
  if (utility_l > 0 || !plan.water.utility_uses.empty()) {
    compiled.utility = add_reserve(course, plan,
                                   {.name = "utility_water",
                                    .title = "Utility",
                                    .unit = "L",
                                    .capacity = utility_l,
                                    .commodity = Commodity::utility_water});
  }
  for (OrderInfo& order : course.orders) {
    if (order.order.commodity == Commodity::drinking_water) order.reserve = compiled.drinking;
    if (order.order.commodity == Commodity::utility_water) order.reserve = compiled.utility;
  }
  return compiled;
}

Water::State Water::begin(const Compiled& compiled, Run& run) {
  State state;
  state.cans.reserve(compiled.cans.size());
  for (const Can& can : compiled.cans) {
    state.cans.push_back({.drinking = can.drinking, .brackish = can.brackish});
  }
  set_levels(compiled, state, run);
  return state;
}

void Water::supply(const Compiled& compiled, State& state, Run& run, int order) {
  const OrderInfo& info = run.course().orders[static_cast<std::size_t>(order)];
  const bool drinking = info.reserve == compiled.drinking;
  if (info.reserve < 0 || (!drinking && info.reserve != compiled.utility)) return;
  if (info.cleaned) clean(compiled, state, run);
  const bool brackish = info.supply.quality == WaterQuality::brackish;
  double room = run.order_room(order);
  double taken = 0;
  for (std::size_t i = 0; i < compiled.cans.size() && room > 0; ++i) {
    CanState& can = state.cans[i];
    if (can.drinking != drinking) continue;
    const int store = compiled.cans[i].store;
    const double part = std::min(room, compiled.cans[i].holds_l - run.level(store));
    if (part <= 0) continue;
    if (brackish) spoil_can(compiled, can, run, store, info.hour);
    run.gain(store, reserve_of(compiled, can), part);
    room -= part;
    taken += part;
  }
  run.ordered(order, info.reserve, taken);
}

void Water::advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step) {
  const Here& here = run.course().timeline->heres[static_cast<std::size_t>(step.here)];
  drink(compiled, state, run, step);
  run.use_per_day(compiled.drinking) = here.drink_l;
  if (compiled.utility >= 0) {
    const double got = draw(compiled, state, run, false, step.utility_l);
    run.fall_short(compiled.utility, step.utility_l - got, step.from_h);
    run.use_per_day(compiled.utility) = here.utility_l;
  }
}

void Water::conform(const Compiled& compiled, State& state, Run& run) {
  for (std::size_t i = 0; i < compiled.cans.size(); ++i) {
    const Can& can = compiled.cans[i];
    double lost = run.level(can.store) - can.holds_l;
    // What a vehicle takes over and may not carry: utility water goes first.
    if (can.moved_into >= 0 && !state.cans[i].drinking) {
      lost = std::max(lost, std::min(run.level(can.store), run.over_limit_kg(can.moved_into)));
    }
    if (lost > 0) run.lose(can.store, reserve_of(compiled, state.cans[i]), lost);
  }
}

void Water::set_level(const Compiled& compiled, State& state, Run& run, int reserve, double level) {
  const bool drinking = reserve == compiled.drinking;
  if (reserve < 0 || (!drinking && reserve != compiled.utility)) return;
  std::vector<Run::Vessel> vessels;
  for (std::size_t i = 0; i < compiled.cans.size(); ++i) {
    if (state.cans[i].drinking != drinking) continue;
    const Run::Vessel vessel{.store = compiled.cans[i].store, .holds = compiled.cans[i].holds_l};
    // Good water does not go into an empty brackish can while another has room.
    const bool avoided = state.cans[i].brackish && run.level(vessel.store) <= 0;
    vessels.insert(avoided ? vessels.begin() : vessels.end(), vessel);
  }
  run.set_level(vessels, reserve, level);
}

}  // namespace drystage::engine::reserves
