#include "engine/reserves/consumables.h"

#include <algorithm>

#include "engine/spots.h"
#include "models/spoilage.h"
#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

double level_of(const Consumables::Stock& stock, const Run& run) {
  double sum = 0;
  for (const Consumables::Store& store : stock.stores) sum += run.level(store.store);
  return sum;
}

/// What a km of a whole leg takes.
double of_leg(const Leg& leg, const plan::ConsumableUse& use) {
  double sum = 0;
  for (const RoadPiece& part : leg.parts) sum += part.distance_km * per_km(use, part);
  return leg.distance_km > 0 ? sum / leg.distance_km : 0;
}

/// The most that a km takes on this leg, on the next, or on the ground under the wheels.
double worst_per_km(const Consumables::Stock& stock, const TimeStep& step) {
  if (stock.leg_per_km.empty()) return 0;
  const std::size_t last = stock.leg_per_km.size() - 1;
  const std::size_t leg = std::min(at(step.leg), last);
  const double here = step.ground >= 0 ? stock.ground_per_km[at(step.ground)] : 0;
  return std::max({stock.leg_per_km[leg], stock.leg_per_km[std::min(leg + 1, last)], here});
}

/// Uses an amount evenly from one clock hour on.
void take(const Consumables::Stock& stock, Run& run, double wanted, double from_h, double for_h) {
  double lacking = wanted;
  for (const Consumables::Store& store : stock.stores) {
    const double part = std::min(lacking, run.level(store.store));
    if (part <= 0) continue;
    run.use(store.store, stock.reserve, part);
    lacking -= part;
  }
  const TimeStep time{.from_h = from_h, .dt_h = for_h};
  run.fall_short(stock.reserve, lacking, runs_out_h(time, wanted, lacking));
}

/// What goes evenly, and in between the doses of a step.
void use_in_step(const Consumables::Stock& stock, Run& run, const TimeStep& step) {
  const double evenly = evenly_used(stock.use, *run.course().timeline, step,
                                    run.conditions(step).air_c, run.factors());
  double done_h = step.from_h;
  for (const double at_h : stock.use.doses.at_h) {
    if (!takes_dose(stock.use.doses, at_h, step)) continue;
    const double until_h = std::max(at_h, step.from_h);
    take(stock, run, evenly * (until_h - done_h) / step.dt_h, done_h, until_h - done_h);
    run.observe(stock.reserve, until_h);
    take(stock, run, stock.use.doses.amount, until_h, 0);
    run.observe(stock.reserve, until_h);
    done_h = until_h;
  }
  const double end_h = step.from_h + step.dt_h;
  const double rest = done_h > step.from_h ? evenly * (end_h - done_h) / step.dt_h : evenly;
  take(stock, run, rest, done_h, end_h - done_h);
}

/// How warm a store was as a step began and as it ended.
struct Warmth {
  double from_c = 0;
  double to_c = 0;
};

Warmth warmth_of(const Consumables::Store& store, const Run& run, const TimeStep& step) {
  if (store.cabinet < 0) {
    const double air_c = run.conditions(step).air_c;
    return {air_c, air_c};
  }
  const auto cabinet = static_cast<std::size_t>(store.cabinet);
  return {run.signals.chilled_from_c[cabinet], run.signals.chilled_to_c[cabinet]};
}

/// Whether what is in a store is lost at once: far too warm, or frozen though it is to be kept
/// above freezing.
bool is_lost_at_once(const plan::KeepingRange& keeps, const Warmth& warmth) {
  const double most_c = std::max(warmth.from_c, warmth.to_c);
  const double least_c = std::min(warmth.from_c, warmth.to_c);
  return (keeps.never_above_c && most_c > *keeps.never_above_c) ||
         (keeps.from_c && *keeps.from_c > 0 && least_c < 0);
}

/// What has been too warm or too cold for longer than it may be is lost, as the step begins.
void spoil(const Consumables::Stock& stock, Consumables::State& state, Run& run,
           const TimeStep& step) {
  if (!stock.keeps) return;
  const plan::KeepingRange& keeps = *stock.keeps;
  for (const Consumables::Store& store : stock.stores) {
    double& out_h = state.out_of_range_h[store.state];
    const double amount = run.content(store.store);
    if (amount <= rounding) {
      out_h = 0;  // what is put in next is fresh
      continue;
    }
    const Warmth warmth = warmth_of(store, run, step);
    const double warmer = models::share_above(keeps.to_c, warmth.from_c, warmth.to_c);
    const double colder =
        keeps.from_c ? 1 - models::share_above(*keeps.from_c, warmth.from_c, warmth.to_c) : 0;
    out_h += step.dt_h * (warmer + colder);
    const bool too_long = out_h > keeps.out_of_it_h + tiny_h;
    if (!too_long && !is_lost_at_once(keeps, warmth)) continue;
    run.tell(EventKind::perished, step.from_h, store.store, amount);
    run.set_store(store.store, stock.reserve, 0);
    run.observe(stock.reserve, step.from_h);
  }
}

Consumables::Stock compile_stock(const plan::Plan& plan, int index, CourseBase& course) {
  const plan::Consumable& consumable = plan.consumables[at(index)];
  Consumables::Stock out;
  out.use = consumable.use;
  out.keeps = consumable.keeps;
  for (const Leg& leg : course.timeline->legs) {
    out.leg_per_km.push_back(of_leg(leg, out.use));
    for (const RoadPiece& part : leg.parts) out.ground_per_km.push_back(per_km(out.use, part));
  }
  double capacity = 0;
  for (std::size_t s = 0; s < consumable.stores.size(); ++s) {
    const plan::ConsumableStore& store = consumable.stores[s];
    const int added =
        add_store(course, {.name = store.name,
                           .kind = consumable.kind,
                           .unit = consumable.unit,
                           .capacity = store.holds,
                           .initial = consumable.fills ? store.holds - store.filled : store.filled,
                           .kg_per_unit = consumable.unit_kg,
                           .fills = consumable.fills,
                           .vehicle = carrier(plan, course.damage, store.vehicle),
                           .empty_kg = store.empty_kg,
                           .spot = spot_of(plan, course.damage, store),
                           .family = Family::consumable,
                           .index = static_cast<int>(s),
                           .of = index});
    out.stores.push_back({.store = added,
                          .in_plan = {.consumable = index, .store = static_cast<int>(s)},
                          .holds = store.holds,
                          .cabinet = store.cabinet});
    capacity += store.holds;
  }
  const bool by_day = consumable.use.goes_by_the_day() || !consumable.says_use;
  out.reserve = add_reserve(course, plan,
                            {.id = {.family = Family::consumable, .of = index},
                             .owner = consumable.name,
                             .title = consumable.name + (consumable.fills ? " room" : ""),
                             .kind = consumable.kind,
                             .unit = consumable.unit,
                             .endurance = by_day ? Endurance::days : Endurance::km,
                             .capacity = capacity,
                             .life_supporting = consumable.life_supporting,
                             .decimals = capacity < 10 ? 1 : 0,
                             .commodity = plan::Commodity{plan::Commodity::consumable, index},
                             .fills = consumable.fills},
                            consumable.margin);
  return out;
}

/// What is found in a store that by the reckoning was lost is good: its time begins anew.
void forget_what_was_lost(const Consumables::Stock& stock, const Consumables::Store& store,
                          Consumables::State& state, const Run& run) {
  if (stock.keeps && run.level(store.store) <= rounding) state.out_of_range_h[store.state] = 0;
}

}  // namespace

Consumables::Compiled Consumables::compile(const plan::Plan& plan, CourseBase& course) {
  Compiled compiled;
  for (std::size_t c = 0; c < plan.consumables.size(); ++c) {
    compiled.stocks.push_back(compile_stock(plan, static_cast<int>(c), course));
    for (Store& store : compiled.stocks.back().stores) store.state = compiled.stores++;
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
  return {.out_of_range_h = std::vector<double>(compiled.stores, 0.0)};
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

void Consumables::advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step) {
  const Timeline& timeline = *run.course().timeline;
  for (const Stock& stock : compiled.stocks) {
    const auto place_day = at(step.place_day);
    run.use_per_day(stock.reserve) =
        per_day(stock, timeline.place_days[place_day], timeline.conditions.place_days[place_day],
                run.factors());
    run.use_per_km(stock.reserve) = worst_per_km(stock, step) * run.factors().consumables;
    spoil(stock, state, run, step);
    use_in_step(stock, run, step);
  }
}

void Consumables::heed(Compiled& compiled, const plan::Plan& plan, const CourseBase& course) {
  const std::vector<Generator> all = generators(plan, course);
  for (Stock& stock : compiled.stocks) {
    stock.generators.clear();
    for (const Generator& one : all) {
      if (one.reserve == stock.reserve) stock.generators.push_back(one);
    }
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

void Consumables::set_level(const Compiled& compiled, State& state, Run& run, int reserve,
                            double level) {
  for (const Stock& stock : compiled.stocks) {
    if (stock.reserve != reserve) continue;
    std::vector<Run::Vessel> vessels;
    for (const Store& store : stock.stores) {
      if (!run.is_here(store.store)) continue;
      forget_what_was_lost(stock, store, state, run);
      vessels.push_back({.store = store.store, .holds = store.holds});
    }
    run.set_level(vessels, reserve, level);
  }
}

void Consumables::set_store(const Compiled& compiled, State& state, Run& run, int store,
                            double level) {
  for (const Stock& stock : compiled.stocks) {
    const auto its = std::ranges::find(stock.stores, store, &Store::store);
    if (its == stock.stores.end()) continue;
    forget_what_was_lost(stock, *its, state, run);
    run.set_store(store, stock.reserve, level);
  }
}

}  // namespace drystage::engine::reserves
