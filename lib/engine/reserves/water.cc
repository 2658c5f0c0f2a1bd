#include "engine/reserves/water.h"

#include <algorithm>
#include <optional>
#include <string>

#include "engine/spots.h"
#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

using plan::Commodity;
using plan::WaterQuality;
using plan::WaterUse;

// Of a sum of stores that are empty.
constexpr double rounding_l = 1e-9;

void add_can(const plan::Plan& plan, int index, std::size_t number, Water::Compiled& compiled,
             CourseBase& course) {
  const plan::Container& can = plan.water.containers[at(index)];
  const int vehicle = carrier(plan, course.damage, can.vehicle);
  const int owner = owner_now(plan, course.damage, can.vehicle, plan::Stock::water);
  Water::Pool& pool = *std::ranges::find(compiled.pools, owner, &Water::Pool::owner);
  const int store = add_store(course, {.name = can.name,
                                       .kind = units::Kind::volume,
                                       .capacity = can.holds_l,
                                       .initial = can.filled_l,
                                       .kg_per_unit = 1,
                                       .vehicle = vehicle,
                                       .empty_kg = can.empty_kg,
                                       .spot = spot_in(can, vehicle),
                                       .family = Family::drinking_water,
                                       .index = index});
  const bool brackish = can.quality == WaterQuality::brackish;
  pool.cans.push_back({.store = store,
                       .container = index,
                       .number = number,
                       .holds_l = can.holds_l,
                       .drinking = can.use == WaterUse::drinking && !brackish,
                       .brackish = brackish,
                       .moved_into = vehicle == can.vehicle ? -1 : vehicle});
}

int reserve_of(const Water::Pool& pool, const Water::CanState& can) {
  return can.drinking ? pool.drinking : pool.utility;
}

struct Levels {
  double drinking = 0;
  double utility = 0;
};

Levels levels_of(const Water::Pool& pool, const Water::State& state, const Run& run) {
  Levels out;
  for (const Water::Can& can : pool.cans) {
    (state.cans[can.number].drinking ? out.drinking : out.utility) += run.level(can.store);
  }
  return out;
}

void set_levels(const Water::Pool& pool, const Water::State& state, Run& run) {
  const Levels levels = levels_of(pool, state, run);
  run.reserve_level(pool.drinking) = levels.drinking;
  if (pool.utility >= 0) run.reserve_level(pool.utility) = levels.utility;
}

using From = Water::From;

bool is_from(const Water::CanState& can, From from) {
  switch (from) {
    case From::drinking:
      return can.drinking;
    case From::potable_utility:
      return !can.drinking && !can.brackish;
    case From::brackish:
      return can.brackish;
  }
  return false;
}

/// Takes up to `wanted` from containers of one sort, in order of use; answers what was got. Calls
/// `tell(can, part)` for each container that gives some.
template <class Tell>
double draw(const Water::Pool& pool, Water::State& state, Run& run, From from, double wanted,
            const Tell& tell) {
  const std::vector<Water::Can>& cans = pool.cans;
  const Water::CanState* const states = state.cans.data();
  std::size_t& kept = state.pools[pool.number].first[static_cast<std::size_t>(from)];
  // Where there are several pools, a container may come from another: then all are looked at.
  std::size_t first = pool.needs.empty() ? kept : 0;
  const auto gives = [&](const Water::Can& can) {
    return is_from(states[can.number], from) && run.level(can.store) > 0;
  };
  while (first < cans.size() && !gives(cans[first])) ++first;
  kept = first;
  double got = 0;
  for (std::size_t i = first; i < cans.size() && got < wanted; ++i) {
    const Water::Can& can = cans[i];
    if (!is_from(states[can.number], from)) continue;
    const double part = std::min(wanted - got, run.level(can.store));
    if (part <= 0) continue;
    run.use(can.store, reserve_of(pool, states[can.number]), part);
    tell(can, part);
    got += part;
  }
  return got;
}

double draw(const Water::Pool& pool, Water::State& state, Run& run, From from, double wanted) {
  return draw(pool, state, run, from, wanted, [](const Water::Can&, double) {});
}

double brackish_left(const Water::Pool& pool, const Water::State& state, const Run& run) {
  double left = 0;
  for (const Water::Can& can : pool.cans) {
    if (state.cans[can.number].brackish) left += run.level(can.store);
  }
  return left;
}

double drink_l_in(const Water::Pool& pool, const Run& run, const TimeStep& step) {
  return pool.needs.empty() ? run.conditions(step).drink_l : pool.needs[step.index].drink_l;
}

void drink(const Water::Pool& pool, Water::State& state, Run& run, const TimeStep& step) {
  const double drink_l = drink_l_in(pool, run, step) * run.factors().drinking;
  double missing = drink_l - draw(pool, state, run, From::drinking, drink_l);
  if (missing <= 1e-12) {
    for (const Water::Can& can : pool.cans) state.cans[can.number].drunk_from = false;
    return;
  }
  const double empty_h = runs_out_h(step, drink_l, missing);
  const double got = draw(pool, state, run, From::potable_utility, missing,
                          [&](const Water::Can& can, double part) {
                            Water::CanState& its = state.cans[can.number];
                            if (its.drunk_from || part <= rounding_l) return;
                            its.drunk_from = true;
                            run.tell(EventKind::utility_drunk, empty_h, can.store, part);
                          });
  run.make_do(pool.drinking, got, empty_h);
  missing -= got;
  const double brackish = brackish_left(pool, state, run);
  const double dry_h = runs_out_h(step, drink_l, missing);
  if (run.fall_short(pool.drinking, missing, dry_h) && brackish > 0) {
    run.tell(EventKind::only_brackish, dry_h, pool.drinking, brackish);
  }
}

/// What all but drinking takes in a step, and the part of it that must be potable.
struct UtilityNeed {
  double all_l = 0;
  double potable_l = 0;

  [[nodiscard]] double other_l() const { return all_l - potable_l; }
};

/// The moment of a step from which utility water is lacking: what asks for potable water takes from
/// the potable containers from the beginning, the rest when the brackish water is used up.
double utility_dry_h(const TimeStep& step, const UtilityNeed& need, double brackish_l,
                     double potable_l) {
  const double alone = need.other_l() > 0 ? brackish_l / need.other_l() : 1;  // share of the step
  const double alone_l = need.potable_l * alone;
  const bool before = potable_l < alone_l;
  const double share =
      before ? potable_l / need.potable_l : alone + (potable_l - alone_l) / need.all_l;
  return step.from_h + step.dt_h * std::clamp(share, 0.0, 1.0);
}

/// What asks for potable water comes first; the rest takes brackish water while there is any, so
/// that good water is kept.
void use(const Water::Pool& pool, Water::State& state, Run& run, const TimeStep& step) {
  const double factor = run.factors().utility_water;
  const bool own = !pool.needs.empty();
  const OwnWater its = own ? pool.needs[step.index] : OwnWater{};
  const UtilityNeed need{
      .all_l = (own ? its.utility_l : step.utility_l) * factor,
      .potable_l = (own ? its.potable_utility_l : step.potable_utility_l) * factor};
  const double potable_short =
      need.potable_l - draw(pool, state, run, From::potable_utility, need.potable_l);
  const double other_l = need.other_l();
  const double brackish_l = draw(pool, state, run, From::brackish, other_l);
  const double rest_l = draw(pool, state, run, From::potable_utility, other_l - brackish_l);
  const double missing = potable_short + other_l - brackish_l - rest_l;
  if (missing <= rounding_l) return;
  const double dry_h =
      utility_dry_h(step, need, brackish_l, need.potable_l - potable_short + rest_l);
  run.fall_short(pool.utility, missing, dry_h);
  if (potable_short <= rounding_l || state.pools[pool.number].told_potable_short == run.day())
    return;
  const double brackish = brackish_left(pool, state, run);
  if (brackish <= rounding_l) return;
  state.pools[pool.number].told_potable_short = run.day();
  run.tell(EventKind::potable_short, dry_h, pool.utility, brackish);
}

/// Before filling: a container that is empty and has been cleaned is as good as new.
void clean(const Water::Pool& pool, Water::State& state, const Run& run) {
  for (const Water::Can& can : pool.cans) {
    if (!run.is_here(can.store) || run.level(can.store) > 0) continue;
    state.cans[can.number] = {.drinking = can.drinking, .brackish = false};
  }
}

void spoil_can(const Water::Pool& pool, Water::CanState& can, Run& run, int store, double hour) {
  if (can.brackish) return;
  if (can.drinking) run.reassign(pool.drinking, pool.utility, run.level(store));
  can = {.drinking = false, .brackish = true};
  run.tell(EventKind::brackish_in, hour, store);
}

/// The reserves of a pool.
void add_reserves(const plan::Plan& plan, Water::Pool& pool, bool has_utility, CourseBase& course) {
  double drinking_l = 0;
  double utility_l = 0;
  for (const Water::Can& can : pool.cans) (can.drinking ? drinking_l : utility_l) += can.holds_l;
  const bool own = pool.owner >= 0;
  const std::string owner = own ? plan.vehicles[at(pool.owner)].name : "";
  const std::optional<int> vehicle = own ? std::optional(pool.owner) : std::nullopt;
  const std::string of = own ? " " + owner : "";
  pool.drinking = add_reserve(course, plan,
                              {.id = {.family = Family::drinking_water, .of = pool.owner},
                               .owner = owner,
                               .title = "Drinking" + of,
                               .kind = units::Kind::volume,
                               .capacity = drinking_l,
                               .life_supporting = true,
                               .commodity = Commodity::drinking_water,
                               .vehicle = vehicle});
  ask_nothing_if_unused(plan, course, pool.drinking);
  if (!has_utility) return;
  pool.utility = add_reserve(course, plan,
                             {.id = {.family = Family::utility_water, .of = pool.owner},
                              .owner = owner,
                              .title = "Utility" + of,
                              .kind = units::Kind::volume,
                              .capacity = utility_l,
                              .commodity = Commodity::utility_water,
                              .vehicle = vehicle});
  ask_nothing_if_unused(plan, course, pool.utility);
}

void supply_pool(const Water::Pool& pool, Water::State& state, Run& run, int order) {
  const OrderInfo& info = run.course().orders[at(order)];
  const bool drinking = info.reserve == pool.drinking;
  if (info.reserve < 0 || (!drinking && info.reserve != pool.utility)) return;
  if (!run.is_judged(info.reserve)) return;  // nobody is there who uses it
  state.pools[pool.number].first = {};
  if (info.cleaned) clean(pool, state, run);
  const bool brackish = info.supply.quality == WaterQuality::brackish;
  double room = run.order_room(order);
  double taken = 0;
  for (const Water::Can& can : pool.cans) {
    if (room <= 0) break;
    Water::CanState& its = state.cans[can.number];
    if (its.drinking != drinking || !run.is_here(can.store)) continue;
    const double part = std::min(room, can.holds_l - run.level(can.store));
    if (part <= 0) continue;
    if (brackish) spoil_can(pool, its, run, can.store, info.hour);
    run.gain(can.store, reserve_of(pool, its), part);
    room -= part;
    taken += part;
  }
  run.ordered(order, info.reserve, taken);
}

void advance_pool(const Water::Pool& pool, Water::State& state, Run& run, const TimeStep& step) {
  const Timeline& timeline = *run.course().timeline;
  const auto place_day = static_cast<std::size_t>(step.place_day);
  const bool own = !pool.needs.empty();
  drink(pool, state, run, step);
  run.use_per_day(pool.drinking) = (own ? pool.needs[step.index].drink_l_day
                                        : timeline.conditions.place_days[place_day].drink_l) *
                                   run.factors().drinking;
  if (pool.utility < 0) return;
  use(pool, state, run, step);
  run.use_per_day(pool.utility) =
      (own ? pool.needs[step.index].utility_l_day : timeline.place_days[place_day].utility_l) *
      run.factors().utility_water;
}

void lose_excess_of_pool(const Water::Pool& pool, const Water::State& state, Run& run) {
  for (const Water::Can& can : pool.cans) {
    const Water::CanState& its = state.cans[can.number];
    run.lose_away(can.store, can.holds_l);
    double lost = run.level(can.store) - can.holds_l;
    // What a vehicle takes over and may not carry: utility water goes first.
    if (can.moved_into >= 0 && !its.drinking) {
      lost = std::max(lost, std::min(run.level(can.store), run.over_limit_kg(can.moved_into)));
    }
    if (lost > 0) run.lose(can.store, reserve_of(pool, its), lost);
  }
}

void set_level_of_pool(const Water::Pool& pool, Water::State& state, Run& run, int reserve,
                       double level) {
  const bool drinking = reserve == pool.drinking;
  if (reserve < 0 || (!drinking && reserve != pool.utility)) return;
  // Potable water is what matters: it is what there is more of, or less. The last vessel gains
  // first, and the first one loses first.
  const bool more = level > run.reserve_level(reserve);
  state.pools[pool.number].first = {};
  std::ptrdiff_t in_front = 0;
  std::vector<Run::Vessel> vessels;
  for (const Water::Can& can : pool.cans) {
    const Water::CanState& its = state.cans[can.number];
    if (its.drinking != drinking || !run.is_here(can.store)) continue;
    const bool front = its.brackish == more;
    vessels.insert(front ? vessels.begin() + in_front++ : vessels.end(),
                   {.store = can.store, .holds = can.holds_l});
  }
  run.set_level(vessels, reserve, level);
}

}  // namespace

Water::Compiled Water::compile(const plan::Plan& plan, CourseBase& course) {
  Compiled compiled;
  for (const int owner : plan::owners(plan, plan::Stock::water)) {
    compiled.pools.push_back({.number = compiled.pools.size(), .owner = owner, .cans = {}});
  }
  std::size_t number = 0;
  for (const bool last : {false, true}) {
    for (std::size_t i = 0; i < plan.water.containers.size(); ++i) {
      if (plan.water.containers[i].opened_last != last) continue;
      add_can(plan, static_cast<int>(i), number++, compiled, course);
    }
  }
  const auto holds_utility = [](const Pool& pool) {
    return std::ranges::any_of(pool.cans,
                               [](const Can& can) { return !can.drinking && can.holds_l > 0; });
  };
  const bool has_utility =
      !plan.water.utility_uses.empty() || std::ranges::any_of(compiled.pools, holds_utility);
  for (Pool& pool : compiled.pools) add_reserves(plan, pool, has_utility, course);
  refill(compiled, plan, course, course.made_ready());
  for (OrderInfo& order : course.orders) {
    for (const Pool& pool : compiled.pools) {
      const int owner = order.order.vehicle ? owner_now(plan, course.damage, *order.order.vehicle,
                                                        plan::Stock::water)
                                            : -1;
      if (owner != pool.owner) continue;
      if (order.order.commodity == Commodity::drinking_water) order.reserve = pool.drinking;
      if (order.order.commodity == Commodity::utility_water) order.reserve = pool.utility;
    }
  }
  return compiled;
}

void Water::refill(Compiled& compiled, const plan::Plan& plan, const CourseBase& course,
                   const IndexRange& steps) {
  if (compiled.pools.size() < 2) return;
  for (Pool& pool : compiled.pools) fill_own_water(pool.needs, plan, course, pool.owner, steps);
}

Water::State Water::begin(const Compiled& compiled, Run& run) {
  State state;
  state.pools.resize(compiled.pools.size());
  for (const Pool& pool : compiled.pools) {
    for (const Can& can : pool.cans) {
      if (state.cans.size() <= can.number) state.cans.resize(can.number + 1);
      state.cans[can.number] = {.drinking = can.drinking, .brackish = can.brackish};
    }
  }
  for (const Pool& pool : compiled.pools) set_levels(pool, state, run);
  return state;
}

void Water::supply(const Compiled& compiled, State& state, Run& run, int order) {
  for (const Pool& pool : compiled.pools) supply_pool(pool, state, run, order);
}

void Water::advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step) {
  for (const Pool& pool : compiled.pools) advance_pool(pool, state, run, step);
}

void Water::heed(Compiled& compiled, const plan::Plan& /*plan*/, const CourseBase& course) {
  for (Pool& pool : compiled.pools) {
    for (Can& can : pool.cans) {
      if (is_among(course.damage.containers, can.container)) can.holds_l = 0;
    }
  }
}

void Water::meet(const Compiled& compiled, State& state, Run& run) {
  for (const Pool& pool : compiled.pools) {
    for (const Can& can : pool.cans) {
      run.meet(can.store, reserve_of(pool, state.cans[can.number]));
    }
    state.pools[pool.number].first = {};
  }
}

void Water::lose_excess(const Compiled& compiled, State& state, Run& run) {
  for (const Pool& pool : compiled.pools) lose_excess_of_pool(pool, state, run);
  if (compiled.pools.size() < 2) return;
  // Whose a container is may have changed too.
  for (const Pool& pool : compiled.pools) {
    const Levels levels = levels_of(pool, state, run);
    run.match_stores(pool.drinking, levels.drinking);
    if (pool.utility >= 0) run.match_stores(pool.utility, levels.utility);
  }
}

void Water::set_level(const Compiled& compiled, State& state, Run& run, int reserve, double level) {
  for (const Pool& pool : compiled.pools) set_level_of_pool(pool, state, run, reserve, level);
}

void Water::set_store(const Compiled& compiled, State& state, Run& run, int store, double level) {
  for (const Pool& pool : compiled.pools) {
    for (const Can& can : pool.cans) {
      if (can.store != store) continue;
      run.set_store(store, reserve_of(pool, state.cans[can.number]), level);
      state.pools[pool.number].first = {};
    }
  }
}

}  // namespace drystage::engine::reserves
