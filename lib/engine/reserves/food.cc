#include "engine/reserves/food.h"

#include <algorithm>

#include "models/spoilage.h"
#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

using plan::Kept;
using Fate = Food::Fate;

constexpr double never_h = without_limit;

bool ages(const Food::Item& item, const Food::ItemState& state) {
  return item.ageing_at_0c_per_h > 0 && (item.kept != Kept::frozen || state.thawed);
}

double temperature_c(const Food::Item& item, const Run& run, const TimeStep& step) {
  if (item.cabinet < 0) return run.conditions(step).air_c;
  const auto cabinet = static_cast<std::size_t>(item.cabinet);
  return item.kept == Kept::frozen ? run.signals.frozen_c[cabinet] : run.signals.chilled_c[cabinet];
}

/// Share of the shelf life spent per hour.
double ageing_per_h(const Food::Item& item, const Run& run, const TimeStep& step) {
  return item.ageing_at_0c_per_h * models::relative_spoilage_rate(temperature_c(item, run, step)) *
         run.factors().spoilage;
}

/// When it must be eaten, in hours from now; smaller goes first.
double urgency_h(const Food::Item& item, const Food::ItemState& state, const Run& run,
                 const TimeStep& step) {
  if (state.urgent) return 0;
  if (!ages(item, state)) return never_h;
  const double per_h = ageing_per_h(item, run, step);
  return per_h > 0 ? (1 - state.age) / per_h : never_h;
}

/// What to eat from now: of all that is left, what must go first. -1: nothing is left.
int first_to_go(const Food::Pool& pool, const Food::State& state, const Run& run,
                const TimeStep& step) {
  int next = -1;
  double soonest = never_h;
  for (std::size_t i = 0; i < pool.items.size(); ++i) {
    if (run.level(pool.items[i].store) <= 0) continue;
    const double urgency = urgency_h(pool.items[i], state.items[pool.items[i].number], run, step);
    if (next >= 0 && urgency >= soonest) continue;
    soonest = urgency;
    next = static_cast<int>(i);
  }
  return next;
}

/// Hours of a step above 5 °C, and what they put on the clock.
struct WarmHours {
  double real_h = 0;
  double clock_h = 0;
};

WarmHours warm_hours(const Food::Item& item, const Run& run, const TimeStep& step) {
  if (item.cabinet < 0) {
    const double rate = models::food_clock_rate(run.conditions(step).air_c);
    return {.real_h = rate > 0 ? step.dt_h : 0, .clock_h = rate * step.dt_h};
  }
  const auto cabinet = static_cast<std::size_t>(item.cabinet);
  const Signals& signals = run.signals;
  return item.kept == Kept::frozen
             ? WarmHours{signals.frozen_above_5c_h[cabinet], signals.frozen_clock_h[cabinet]}
             : WarmHours{signals.above_5c_h[cabinet], signals.clock_h[cabinet]};
}

Fate fate_of(const Food::Item& item, const Food::ItemState& state, const Run& run,
             const TimeStep& step) {
  Fate fate;
  double from_h = 0;
  bool thawed = state.thawed;
  if (item.kept == Kept::frozen && !thawed) {
    const double thawed_h = run.signals.thawed_at_h[at(item.cabinet)];
    if (thawed_h > step.dt_h) return fate;
    fate.thaws_h = thawed_h;
    from_h = thawed_h;
    thawed = true;
  }
  const double exposed_h = step.dt_h - from_h;
  const bool ages = item.ageing_at_0c_per_h > 0 && (item.kept != Kept::frozen || thawed);
  if (ages) {
    const double rate = ageing_per_h(item, run, step);
    fate.ageing = rate * exposed_h;
    if (state.age + fate.ageing >= 1) fate.goes_h = from_h + (1 - state.age) / rate;
  }
  if (!item.hazardous) return fate;
  const WarmHours warm = warm_hours(item, run, step);
  if (warm.real_h <= 0) return fate;
  // What is warm for a part of the step has been warming, and is so at its end.
  const double since_h = step.dt_h - std::min(warm.real_h, exposed_h);
  const double rate = warm.clock_h / warm.real_h;
  fate.clock_h = rate * (step.dt_h - since_h);
  const auto reaches_h = [&](double limit_h) {
    return since_h + std::max(0.0, limit_h - state.warm_h) / rate;
  };
  const double total_h = state.warm_h + fate.clock_h;
  if (!state.urgent && total_h >= models::use_now_after_h) {
    fate.urgent_h = std::min(reaches_h(models::use_now_after_h), step.dt_h);
  }
  if (total_h > models::throw_away_after_h) {
    const double thrown_h = reaches_h(models::throw_away_after_h);
    if (thrown_h < fate.goes_h) {
      fate.goes_h = thrown_h;
      fate.why = EventKind::thrown_away;
    }
  }
  return fate;
}

/// The first thing to befall an item after some hours of a step.
double next_h(const Fate& fate) { return std::min({fate.thaws_h, fate.urgent_h, fate.goes_h}); }

/// Eats what a stretch of a step takes. The menu is settled anew each day, and whenever something
/// has run out, spoiled or thawed.
void eat(const Food::Pool& pool, Food::State& state, Run& run, const TimeStep& step, double from_h,
         double to_h) {
  Food::PoolState& now = state.pools[pool.number];
  const double meals = pool.needs.empty() ? step.meals : pool.needs[step.index].meals;
  const double wanted = meals * run.factors().meals * (to_h - from_h) / step.dt_h;
  double hungry = wanted;
  while (hungry > 1e-12) {
    if (now.eating < 0) now.eating = first_to_go(pool, state, run, step);
    if (now.eating < 0) break;
    const int store = pool.items[at(now.eating)].store;
    const double part = std::min(hungry, run.level(store));
    run.use(store, pool.reserve, part);
    hungry -= part;
    if (run.level(store) <= 0) now.eating = -1;
  }
  if (hungry <= 0) return;
  const double out_h = step.from_h + to_h - (to_h - from_h) * hungry / wanted;
  run.fall_short(pool.reserve, hungry, out_h);
}

void discard(const Food::Pool& pool, const Food::Item& item, EventKind kind, double hour,
             Run& run) {
  const double meals = run.content(item.store);
  if (meals <= 0) return;
  run.observe(pool.reserve, hour);
  run.set_store(item.store, pool.reserve, 0);
  run.observe(pool.reserve, hour);
  run.tell(kind, hour, item.store, meals);
}

/// Eats, and lets things befall what is left, in the order in which it happens.
void live_through(const Food::Pool& pool, Food::State& state, Run& run, const TimeStep& step) {
  Food::PoolState& now = state.pools[pool.number];
  state.fates.resize(pool.items.size());
  for (std::size_t i = 0; i < pool.items.size(); ++i) {
    const bool any = run.content(pool.items[i].store) > 0;
    state.fates[i] =
        any ? fate_of(pool.items[i], state.items[pool.items[i].number], run, step) : Fate{};
  }
  if (now.menu_day != step.day) now.eating = -1;
  now.menu_day = step.day;
  double done_h = 0;
  while (true) {
    const auto soonest = std::ranges::min_element(state.fates, {}, next_h);
    const double at_h = soonest == state.fates.end() ? never_h : next_h(*soonest);
    const double until_h = std::clamp(at_h, done_h, step.dt_h);
    eat(pool, state, run, step, done_h, until_h);
    done_h = until_h;
    if (at_h > step.dt_h) break;
    const auto i = static_cast<std::size_t>(soonest - state.fates.begin());
    const Food::Item& item = pool.items[i];
    Fate& fate = *soonest;
    const double hour = step.from_h + at_h;
    now.eating = -1;
    if (at_h >= fate.goes_h) {
      discard(pool, item, fate.why, hour, run);
      fate = {};
    } else if (at_h >= fate.thaws_h) {
      state.items[pool.items[i].number].thawed = true;
      fate.thaws_h = never_h;
    } else {
      state.items[pool.items[i].number].urgent = true;
      fate.urgent_h = never_h;
      const double meals = run.content(item.store);
      if (meals > 0) run.tell(EventKind::use_now, hour, item.store, meals);
    }
  }
  for (std::size_t i = 0; i < pool.items.size(); ++i) {
    if (run.content(pool.items[i].store) <= 0) continue;
    state.items[pool.items[i].number].age += state.fates[i].ageing;
    state.items[pool.items[i].number].warm_h += state.fates[i].clock_h;
  }
}

/// Tells the cabinets what still lies in them.
void publish(const Food::Compiled& compiled, Run& run) {
  for (double& heat : run.signals.chilled_kj_k) heat = 0;
  for (double& mass : run.signals.frozen_kg) mass = 0;
  for (const Food::Pool& pool : compiled.pools) {
    for (const Food::Item& item : pool.items) {
      if (item.cabinet < 0) continue;
      const double kg = run.content(item.store) * item.kg_per_meal;
      const auto cabinet = static_cast<std::size_t>(item.cabinet);
      if (item.kept == Kept::chilled) run.signals.chilled_kj_k[cabinet] += kg * item.kj_k_per_kg;
      if (item.kept == Kept::frozen) run.signals.frozen_kg[cabinet] += kg;
    }
  }
}

/// Puts an item back to what the trip began with. Fresh goods on old ones take the age of the old.
double restock(const Food::Pool& pool, Food::State& state, Run& run, std::size_t index,
               double room) {
  const Food::Item& item = pool.items[index];
  const double level = run.level(item.store);
  const double part = std::min(room, item.full_meals - level);
  if (part <= 0 || !run.is_here(item.store)) return 0;
  if (level <= 0) state.items[item.number] = {};
  run.gain(item.store, pool.reserve, part);
  if (item.kept == Kept::chilled && item.cabinet >= 0) {
    const auto cabinet = static_cast<std::size_t>(item.cabinet);
    const double kj_k = part * item.kg_per_meal * item.kj_k_per_kg;
    if (item.bought_at_c) {
      run.signals.stated_kj_k[cabinet] += kj_k;
      run.signals.stated_kj[cabinet] += kj_k * *item.bought_at_c;
    } else {
      run.signals.bought_kj_k[cabinet] += kj_k;
    }
  }
  return part;
}

double meals_in(const Food::Pool& pool, const Run& run) {
  double meals = 0;
  for (const Food::Item& item : pool.items) meals += run.level(item.store);
  return meals;
}

/// Takes on what an order asks for; answers how much that was.
double take_on(const Food::Pool& pool, Food::State& state, Run& run, int order) {
  double room = run.order_room(order);
  if (run.course().orders[at(order)].order.take != plan::Take::fill) {
    if (pool.bought < 0) return 0;
    run.gain(pool.items[at(pool.bought)].store, pool.reserve, room);
    return room;
  }
  double taken = 0;
  for (std::size_t i = 0; i < pool.items.size(); ++i) {
    const double part = restock(pool, state, run, i, room);
    room -= part;
    taken += part;
  }
  return taken;
}

}  // namespace

Food::State Food::begin(const Compiled& compiled, Run& run) {
  State state;
  state.pools.resize(compiled.pools.size());
  for (const Pool& pool : compiled.pools) {
    for (const Item& item : pool.items) {
      if (state.items.size() <= item.number) state.items.resize(item.number + 1);
    }
    run.reserve_level(pool.reserve) = meals_in(pool, run);
  }
  state.fates.resize(state.items.size());
  publish(compiled, run);
  return state;
}

void Food::supply(const Compiled& compiled, State& state, Run& run, int order) {
  const OrderInfo& info = run.course().orders[at(order)];
  for (const Pool& pool : compiled.pools) {
    if (info.reserve != pool.reserve || !run.is_judged(pool.reserve)) continue;
    const double taken = take_on(pool, state, run, order);
    state.pools[pool.number].eating = -1;
    publish(compiled, run);
    run.ordered(order, pool.reserve, taken);
  }
}

void Food::advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step) {
  for (const Pool& pool : compiled.pools) {
    run.use_per_day(pool.reserve) =
        (pool.needs.empty() ? run.course().timeline->place_days[at(step.place_day)].meals
                            : pool.needs[step.index].meals_day) *
        run.factors().meals;
    live_through(pool, state, run, step);
  }
  if (!compiled.pools.empty()) publish(compiled, run);
}

void Food::lose_excess(const Compiled& compiled, State& state, Run& run) {
  if (compiled.pools.size() < 2) return;
  // Whose an item is may have changed.
  for (const Pool& pool : compiled.pools) {
    state.pools[pool.number].eating = -1;
    run.match_stores(pool.reserve, meals_in(pool, run));
  }
}

void Food::meet(const Compiled& compiled, State& state, Run& run) {
  if (compiled.pools.empty()) return;
  for (const Pool& pool : compiled.pools) {
    for (const Item& item : pool.items) run.meet(item.store, pool.reserve);
    state.pools[pool.number].eating = -1;
  }
  publish(compiled, run);
}

void Food::set_level(const Compiled& compiled, State& state, Run& run, int reserve, double level) {
  for (const Pool& pool : compiled.pools) {
    if (reserve != pool.reserve) continue;
    const double now = run.reserve_level(reserve);
    // Each item in proportion: whoever has eaten more has eaten of everything.
    for (const Item& item : pool.items) {
      const double meals = run.level(item.store);
      const double wanted = now > 0 ? meals * level / now : 0;
      if (wanted > meals) run.gain(item.store, reserve, wanted - meals);
      if (wanted < meals) run.lose(item.store, reserve, meals - wanted);
    }
    if (now <= 0 && pool.bought >= 0) run.gain(pool.items[at(pool.bought)].store, reserve, level);
    state.pools[pool.number].eating = -1;
    publish(compiled, run);
  }
}

}  // namespace drystage::engine::reserves
