#include "engine/reserves/food.h"

#include <algorithm>
#include <limits>

#include "models/food_properties.h"
#include "models/spoilage.h"

namespace drystage::engine::reserves {
namespace {

using plan::Commodity;
using plan::Kept;

// Shelf lives where the plan gives none: chilled food a week at 4 °C, thawed food two days (common
// practice for raw meat and cooked dishes).
constexpr plan::Keeps usual_chilled{.life_days = 7, .at_c = 4};
constexpr plan::Keeps usual_thawed{.life_days = 2, .at_c = 4};

constexpr double never_h = std::numeric_limits<double>::infinity();

bool ages(const Food::Item& item, const Food::ItemState& state) {
  return item.ageing_at_0c_per_h > 0 && (item.kept != Kept::frozen || state.thawed);
}

double temperature_c(const Food::Item& item, const Run& run, const TimeStep& step) {
  if (item.cabinet < 0) return step.air_c;
  const auto cabinet = static_cast<std::size_t>(item.cabinet);
  return item.kept == Kept::frozen ? run.signals.frozen_c[cabinet] : run.signals.chilled_c[cabinet];
}

/// Share of the shelf life spent per hour.
double ageing_per_h(const Food::Item& item, const Run& run, const TimeStep& step) {
  return item.ageing_at_0c_per_h * models::relative_spoilage_rate(temperature_c(item, run, step));
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
int first_to_go(const Food::Compiled& compiled, const Food::State& state, const Run& run,
                const TimeStep& step) {
  int next = -1;
  double soonest = never_h;
  for (std::size_t i = 0; i < compiled.items.size(); ++i) {
    if (run.level(compiled.items[i].store) <= 0) continue;
    const double urgency = urgency_h(compiled.items[i], state.items[i], run, step);
    if (next >= 0 && urgency >= soonest) continue;
    soonest = urgency;
    next = static_cast<int>(i);
  }
  return next;
}

/// The menu is settled anew each day, and whenever something has run out, spoiled or thawed.
void eat(const Food::Compiled& compiled, Food::State& state, Run& run, const TimeStep& step) {
  if (state.menu_day != step.day) state.eating = -1;
  state.menu_day = step.day;
  double hungry = step.meals;
  while (hungry > 1e-12) {
    if (state.eating < 0) state.eating = first_to_go(compiled, state, run, step);
    if (state.eating < 0) break;
    const int store = compiled.items[static_cast<std::size_t>(state.eating)].store;
    const double part = std::min(hungry, run.level(store));
    run.use(store, compiled.reserve, part);
    hungry -= part;
    if (run.level(store) <= 0) state.eating = -1;
  }
  run.fall_short(compiled.reserve, hungry, step.from_h);
}

void discard(const Food::Compiled& compiled, const Food::Item& item, EventKind kind, double hour,
             Run& run) {
  const double meals = run.level(item.store);
  if (meals <= 0) return;
  run.lose(item.store, compiled.reserve, meals);
  run.tell(kind, hour, item.store, meals);
}

void age(const Food::Compiled& compiled, Food::State& state, Run& run, const TimeStep& step) {
  for (std::size_t i = 0; i < compiled.items.size(); ++i) {
    const Food::Item& item = compiled.items[i];
    Food::ItemState& item_state = state.items[i];
    if (run.level(item.store) <= 0) continue;
    double exposed_h = step.dt_h;
    if (item.kept == Kept::frozen && !item_state.thawed) {
      const double thawed_h = run.signals.thawed_at_h[static_cast<std::size_t>(item.cabinet)];
      if (thawed_h > step.dt_h) continue;
      item_state.thawed = true;
      state.eating = -1;
      exposed_h = step.dt_h - thawed_h;
    }
    if (!ages(item, item_state)) continue;
    const double rate = ageing_per_h(item, run, step);
    const double from_h = step.from_h + step.dt_h - exposed_h;
    if (item_state.age + rate * exposed_h >= 1) {
      const double hour = from_h + (1 - item_state.age) / rate;
      discard(compiled, item, EventKind::spoiled, hour, run);
      state.eating = -1;
      continue;
    }
    item_state.age += rate * exposed_h;
    if (!item.hazardous || item.cabinet < 0) continue;
    const auto cabinet = static_cast<std::size_t>(item.cabinet);
    const double warm_h = item.kept == Kept::frozen ? run.signals.frozen_above_5c_h[cabinet]
                                                    : run.signals.above_5c_h[cabinet];
    if (warm_h <= 0) continue;
    const double step_end_h = step.from_h + step.dt_h;
    const double over_h = item_state.warm_h + warm_h - models::throw_away_after_h;
    item_state.warm_h += warm_h;
    if (over_h > 0) {
      state.eating = -1;
      discard(compiled, item, EventKind::thrown_away, step_end_h - std::min(over_h, warm_h), run);
    } else if (!item_state.urgent && item_state.warm_h >= models::use_now_after_h) {
      item_state.urgent = true;
      state.eating = -1;
      const double since_h = item_state.warm_h - models::use_now_after_h;
      run.tell(EventKind::use_now, step_end_h - std::min(since_h, warm_h), item.store,
               run.level(item.store));
    }
  }
}

/// Tells the cabinets what still lies in them.
void publish(const Food::Compiled& compiled, Run& run) {
  for (double& heat : run.signals.chilled_kj_k) heat = 0;
  for (double& mass : run.signals.frozen_kg) mass = 0;
  for (const Food::Item& item : compiled.items) {
    if (item.cabinet < 0) continue;
    const double kg = run.level(item.store) * item.kg_per_meal;
    const auto cabinet = static_cast<std::size_t>(item.cabinet);
    if (item.kept == Kept::chilled) run.signals.chilled_kj_k[cabinet] += kg * item.kj_k_per_kg;
    if (item.kept == Kept::frozen) run.signals.frozen_kg[cabinet] += kg;
  }
}

plan::Keeps keeps(const plan::FoodItem& item) {
  if (item.keeps) return *item.keeps;
  switch (item.kept) {
    case Kept::chilled:
      return usual_chilled;
    case Kept::frozen:
      return usual_thawed;
    case Kept::dry:
      break;
  }
  return {.life_days = 0};
}

Food::Item compile_item(const plan::FoodItem& item, double meal_kj, CourseBase& course) {
  double meals = item.meals;
  if (meals <= 0 && item.energy_kj_kg && meal_kj > 0) {
    meals = item.mass_kg * *item.energy_kj_kg / meal_kj;
  }
  const plan::Keeps life = keeps(item);
  Food::Item out{
      .cabinet = item.cabinet,
      .kept = item.kept,
      .full_meals = meals,
      .kg_per_meal = meals > 0 ? item.mass_kg / meals : 0,
      .kj_k_per_kg = models::food_thermal(item.water_fraction).above_kj_kg_k,
      .ageing_at_0c_per_h =
          life.life_days > 0 ? models::shelf_life_used_per_h(0, life.life_days, life.at_c) : 0,
      .hazardous = item.potentially_hazardous};
  out.store = add_store(course, {.name = item.name,
                                 .unit = "meals",
                                 .capacity = meals,
                                 .initial = meals,
                                 .kg_per_unit = out.kg_per_meal,
                                 .vehicle = item.vehicle});
  return out;
}

/// Puts an item back to what the trip began with. Fresh goods on old ones take the age of the old.
double restock(const Food::Compiled& compiled, Food::State& state, Run& run, std::size_t index,
               double room) {
  const Food::Item& item = compiled.items[index];
  const double level = run.level(item.store);
  const double part = std::min(room, item.full_meals - level);
  if (part <= 0) return 0;
  if (level <= 0) state.items[index] = {};
  run.gain(item.store, compiled.reserve, part);
  return part;
}

/// Where bought meals go: room for all that are ordered by number, and where an order asks for what
/// is needed, for the whole trip and its margin. It is there even when nothing is ordered, so that
/// plans which differ in their stops alone have the same stores.
void add_bought(Food::Compiled& compiled, CourseBase& course) {
  double room = 0;
  bool needed = false;
  for (const OrderInfo& order : course.orders) {
    if (order.order.commodity != Commodity::food) continue;
    if (order.order.take == plan::Take::amount) room += order.order.amount;
    needed = needed || order.order.take == plan::Take::needed;
  }
  if (needed) {
    const MarginRule& rule = course.reserves[static_cast<std::size_t>(compiled.reserve)].margin;
    room += rule.fixed + rule.days * course.timeline->heres.front().meals;
    for (const TimeStep& step : course.timeline->steps) room += step.meals;
  }
  compiled.bought = static_cast<int>(compiled.items.size());
  Food::Item bought{.kg_per_meal = bought_kg_per_meal};
  bought.store = add_store(course, {.name = "bought food",
                                    .unit = "meals",
                                    .capacity = room,
                                    .kg_per_unit = bought_kg_per_meal,
                                    .vehicle = 0});
  compiled.items.push_back(bought);
}

}  // namespace

Food::Compiled Food::compile(const plan::Plan& plan, CourseBase& course) {
  Compiled compiled;
  double capacity = 0;
  for (const plan::FoodItem& item : plan.food) {
    compiled.items.push_back(compile_item(item, course.timeline->meal_kj, course));
    capacity += compiled.items.back().full_meals;
  }
  compiled.reserve = add_reserve(course, plan,
                                 {.name = "food",
                                  .title = "Food",
                                  .unit = "meals",
                                  .capacity = capacity,
                                  .commodity = Commodity::food});
  add_bought(compiled, course);
  for (OrderInfo& order : course.orders) {
    if (order.order.commodity == plan::Commodity::food) order.reserve = compiled.reserve;
  }
  return compiled;
}

Food::State Food::begin(const Compiled& compiled, Run& run) {
  State state;
  state.items.resize(compiled.items.size());
  double meals = 0;
  for (const Item& item : compiled.items) meals += run.level(item.store);
  run.reserve_level(compiled.reserve) = meals;
  publish(compiled, run);
  return state;
}

void Food::supply(const Compiled& compiled, State& state, Run& run, int order) {
  const OrderInfo& info = run.course().orders[static_cast<std::size_t>(order)];
  if (info.reserve != compiled.reserve) return;
  double room = run.order_room(order);
  double taken = 0;
  if (info.order.take == plan::Take::fill) {
    for (std::size_t i = 0; i < compiled.items.size(); ++i) {
      const double part = restock(compiled, state, run, i, room);
      room -= part;
      taken += part;
    }
  } else if (compiled.bought >= 0) {
    const int store = compiled.items[static_cast<std::size_t>(compiled.bought)].store;
    run.gain(store, compiled.reserve, room);
    taken = room;
  }
  state.eating = -1;
  publish(compiled, run);
  run.ordered(order, compiled.reserve, taken);
}

void Food::advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step) {
  age(compiled, state, run, step);
  eat(compiled, state, run, step);
  run.use_per_day(compiled.reserve) =
      run.course().timeline->heres[static_cast<std::size_t>(step.here)].meals;
  publish(compiled, run);
}

void Food::set_level(const Compiled& compiled, State& state, Run& run, int reserve, double level) {
  if (reserve != compiled.reserve) return;
  const double now = run.reserve_level(reserve);
  // Each item in proportion: whoever has eaten more has eaten of everything.
  for (const Item& item : compiled.items) {
    const double meals = run.level(item.store);
    const double wanted = now > 0 ? meals * level / now : 0;
    if (wanted > meals) run.gain(item.store, reserve, wanted - meals);
    if (wanted < meals) run.lose(item.store, reserve, meals - wanted);
  }
  if (now <= 0) run.gain(compiled.items.back().store, reserve, level);
  state.eating = -1;
  publish(compiled, run);
}

}  // namespace drystage::engine::reserves
