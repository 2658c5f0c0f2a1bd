#include "engine/reserves/consumables.h"

#include <algorithm>

#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

double level_of(const Consumables::Stock& stock, const Run& run) {
  double sum = 0;
  for (const Consumables::Store& store : stock.stores) sum += run.level(store.store);
  return sum;
}

double per_day(const Consumables::Stock& stock, double meals, int people) {
  return stock.use.per_day + stock.use.per_person_day * people + stock.use.per_meal * meals;
}

/// What a km takes on a leg, with the hours that it takes there.
double per_km(const Leg& leg, const plan::ConsumableUse& use) {
  double hours = 0;
  for (const RoadPiece& part : leg.parts) hours += part.distance_km / part.speed_km_h;
  return use.per_km + (leg.distance_km > 0 ? use.per_engine_h * hours / leg.distance_km : 0);
}

/// The more thirsty of this leg and the next.
double worse_per_km(const Consumables::Stock& stock, const TimeStep& step) {
  if (stock.per_km.empty()) return 0;
  const std::size_t last = stock.per_km.size() - 1;
  const std::size_t leg = std::min(at(step.leg), last);
  return std::max(stock.per_km[leg], stock.per_km[std::min(leg + 1, last)]);
}

Consumables::Stock compile_stock(const plan::Plan& plan, int index, CourseBase& course) {
  const plan::Consumable& consumable = plan.consumables[at(index)];
  Consumables::Stock out;
  out.use = consumable.use;
  for (const Leg& leg : course.timeline->legs) out.per_km.push_back(per_km(leg, consumable.use));
  double capacity = 0;
  for (std::size_t s = 0; s < consumable.stores.size(); ++s) {
    const plan::ConsumableStore& store = consumable.stores[s];
    const int added = add_store(course, {.name = store.name,
                                         .kind = consumable.kind,
                                         .unit = consumable.unit,
                                         .capacity = store.holds,
                                         .initial = store.filled,
                                         .kg_per_unit = consumable.unit_kg,
                                         .vehicle = carrier(plan, course.damage, store.vehicle),
                                         .empty_kg = store.empty_kg,
                                         .family = Family::consumable,
                                         .index = static_cast<int>(s),
                                         .of = index});
    out.stores.push_back({.store = added,
                          .in_plan = {.consumable = index, .store = static_cast<int>(s)},
                          .holds = store.holds});
    capacity += store.holds;
  }
  const bool by_day = per_day(out, 1, 1) > 0;
  out.reserve = add_reserve(course, plan,
                            {.id = {.family = Family::consumable, .of = index},
                             .owner = consumable.name,
                             .title = consumable.name,
                             .kind = consumable.kind,
                             .unit = consumable.unit,
                             .endurance = by_day ? Endurance::days : Endurance::km,
                             .capacity = capacity,
                             .life_supporting = consumable.life_supporting,
                             .decimals = capacity < 10 ? 1 : 0,
                             .commodity = plan::Commodity{plan::Commodity::consumable, index}},
                            consumable.margin);
  return out;
}

}  // namespace

Consumables::Compiled Consumables::compile(const plan::Plan& plan, CourseBase& course) {
  Compiled compiled;
  for (std::size_t c = 0; c < plan.consumables.size(); ++c) {
    compiled.stocks.push_back(compile_stock(plan, static_cast<int>(c), course));
  }
  for (OrderInfo& order : course.orders) {
    if (order.order.commodity.kind != plan::Commodity::consumable) continue;
    order.reserve = compiled.stocks[at(order.order.commodity.of)].reserve;
  }
  return compiled;
}

Consumables::State Consumables::begin(const Compiled& compiled, Run& run) {
  for (const Stock& stock : compiled.stocks) {
    run.reserve_level(stock.reserve) = level_of(stock, run);
  }
  return {};
}

void Consumables::supply(const Compiled& compiled, State& /*state*/, Run& run, int order) {
  const OrderInfo& info = run.course().orders[at(order)];
  if (info.order.commodity.kind != plan::Commodity::consumable) return;
  const Stock& stock = compiled.stocks[at(info.order.commodity.of)];
  double room = run.order_room(order);
  double taken = 0;
  for (const Store& store : stock.stores) {
    if (!run.is_here(store.store)) continue;
    const double part = std::min(room, store.holds - run.level(store.store));
    if (part <= 0) continue;
    run.gain(store.store, stock.reserve, part);
    room -= part;
    taken += part;
  }
  run.ordered(order, stock.reserve, taken);
}

void Consumables::advance(const Compiled& compiled, State& /*state*/, Run& run,
                          const TimeStep& step) {
  for (const Stock& stock : compiled.stocks) {
    const PlaceDay& here = run.course().timeline->place_days[at(step.place_day)];
    const double driven_h = step.drive >= 0 ? step.dt_h : 0;
    const plan::ConsumableUse& use = stock.use;
    const double days = step.dt_h / 24;
    const double wanted = days * (use.per_day + use.per_person_day * here.people) +
                          use.per_meal * (step.meals * run.factors().meals) +
                          use.per_km * step.distance_km + use.per_engine_h * driven_h;
    double lacking = wanted;
    for (const Store& store : stock.stores) {
      const double part = std::min(lacking, run.level(store.store));
      if (part <= 0) continue;
      run.use(store.store, stock.reserve, part);
      lacking -= part;
    }
    run.fall_short(stock.reserve, lacking, runs_out_h(step, wanted, lacking));
    run.use_per_day(stock.reserve) = per_day(stock, here.meals * run.factors().meals, here.people);
    run.use_per_km(stock.reserve) = worse_per_km(stock, step);
  }
}

void Consumables::heed(Compiled& compiled, const plan::Plan& /*plan*/, const CourseBase& course) {
  for (Stock& stock : compiled.stocks) {
    for (Store& store : stock.stores) {
      if (is_among(course.damage.stores, store.in_plan)) store.holds = 0;
    }
  }
}

void Consumables::meet(const Compiled& compiled, State& /*state*/, Run& run) {
  for (const Stock& stock : compiled.stocks) {
    for (const Store& store : stock.stores) run.meet(store.store, stock.reserve);
  }
}

void Consumables::lose_excess(const Compiled& compiled, State& /*state*/, Run& run) {
  for (const Stock& stock : compiled.stocks) {
    for (const Store& store : stock.stores) {
      run.lose_away(store.store, store.holds);
      const double lost = run.level(store.store) - store.holds;
      if (lost > 0) run.lose(store.store, stock.reserve, lost);
    }
  }
}

void Consumables::set_level(const Compiled& compiled, State& /*state*/, Run& run, int reserve,
                            double level) {
  for (const Stock& stock : compiled.stocks) {
    if (stock.reserve != reserve) continue;
    std::vector<Run::Vessel> vessels;
    for (const Store& store : stock.stores) {
      if (!run.is_here(store.store)) continue;
      vessels.push_back({.store = store.store, .holds = store.holds});
    }
    run.set_level(vessels, reserve, level);
  }
}

void Consumables::set_store(const Compiled& compiled, State& /*state*/, Run& run, int store,
                            double level) {
  for (const Stock& stock : compiled.stocks) {
    const bool is_its = std::ranges::find(stock.stores, store, &Store::store) != stock.stores.end();
    if (is_its) run.set_store(store, stock.reserve, level);
  }
}

}  // namespace drystage::engine::reserves
