#include "engine/reserves/water.h"

#include <algorithm>

#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

using plan::Commodity;
using plan::WaterQuality;
using plan::WaterUse;

// Of a sum of stores that are empty.
constexpr double rounding_l = 1e-9;

void add_can(const plan::Plan& plan, int index, Water::Compiled& compiled, CourseBase& course) {
  const plan::Container& can = plan.water.containers[at(index)];
  const int vehicle = carrier(plan, course.damage, can.vehicle);
  const int store = add_store(course, {.name = can.name,
                                       .kind = units::Kind::volume,
                                       .capacity = can.holds_l,
                                       .initial = can.filled_l,
                                       .kg_per_unit = 1,
                                       .vehicle = vehicle,
                                       .empty_kg = can.empty_kg,
                                       .family = Family::drinking_water,
                                       .index = index});
  const bool brackish = can.quality == WaterQuality::brackish;
  compiled.cans.push_back({.store = store,
                           .container = index,
                           .holds_l = can.holds_l,
                           .drinking = can.use == WaterUse::drinking && !brackish,
                           .brackish = brackish,
                           .moved_into = vehicle == can.vehicle ? -1 : vehicle});
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
/// `tell(i, part)` for each container that gives some.
template <class Tell>
double draw(const Water::Compiled& compiled, Water::State& state, Run& run, From from,
            double wanted, const Tell& tell) {
  double got = 0;
  std::size_t& first = state.first.at(static_cast<std::size_t>(from));
  const auto gives = [&](std::size_t i) {
    return is_from(state.cans[i], from) && run.level(compiled.cans[i].store) > 0;
  };
  while (first < compiled.cans.size() && !gives(first)) ++first;
  for (std::size_t i = first; i < compiled.cans.size() && got < wanted; ++i) {
    if (!is_from(state.cans[i], from)) continue;
    const int store = compiled.cans[i].store;
    const double part = std::min(wanted - got, run.level(store));
    if (part <= 0) continue;
    run.use(store, reserve_of(compiled, state.cans[i]), part);
    tell(i, part);
    got += part;
  }
  return got;
}

double draw(const Water::Compiled& compiled, Water::State& state, Run& run, From from,
            double wanted) {
  return draw(compiled, state, run, from, wanted, [](std::size_t, double) {});
}

double brackish_left(const Water::Compiled& compiled, const Water::State& state, const Run& run) {
  double left = 0;
  for (std::size_t i = 0; i < compiled.cans.size(); ++i) {
    if (state.cans[i].brackish) left += run.level(compiled.cans[i].store);
  }
  return left;
}

void drink(const Water::Compiled& compiled, Water::State& state, Run& run, const TimeStep& step) {
  const double drink_l = run.conditions(step).drink_l * run.factors().drinking;
  double missing = drink_l - draw(compiled, state, run, From::drinking, drink_l);
  if (missing <= 1e-12) {
    for (Water::CanState& can : state.cans) can.drunk_from = false;
    return;
  }
  const double empty_h = runs_out_h(step, drink_l, missing);
  const double got =
      draw(compiled, state, run, From::potable_utility, missing, [&](std::size_t i, double part) {
        if (state.cans[i].drunk_from || part <= rounding_l) return;
        state.cans[i].drunk_from = true;
        run.tell(EventKind::utility_drunk, empty_h, compiled.cans[i].store, part);
      });
  run.make_do(compiled.drinking, got, empty_h);
  missing -= got;
  const double brackish = brackish_left(compiled, state, run);
  const double dry_h = runs_out_h(step, drink_l, missing);
  if (run.fall_short(compiled.drinking, missing, dry_h) && brackish > 0) {
    run.tell(EventKind::only_brackish, dry_h, compiled.drinking, brackish);
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
void use(const Water::Compiled& compiled, Water::State& state, Run& run, const TimeStep& step) {
  const double factor = run.factors().utility_water;
  const UtilityNeed need{.all_l = step.utility_l * factor,
                         .potable_l = step.potable_utility_l * factor};
  const double potable_short =
      need.potable_l - draw(compiled, state, run, From::potable_utility, need.potable_l);
  const double other_l = need.other_l();
  const double brackish_l = draw(compiled, state, run, From::brackish, other_l);
  const double rest_l = draw(compiled, state, run, From::potable_utility, other_l - brackish_l);
  const double missing = potable_short + other_l - brackish_l - rest_l;
  if (missing <= rounding_l) return;
  const double dry_h =
      utility_dry_h(step, need, brackish_l, need.potable_l - potable_short + rest_l);
  run.fall_short(compiled.utility, missing, dry_h);
  if (potable_short <= rounding_l || state.told_potable_short == run.day()) return;
  const double brackish = brackish_left(compiled, state, run);
  if (brackish <= rounding_l) return;
  state.told_potable_short = run.day();
  run.tell(EventKind::potable_short, dry_h, compiled.utility, brackish);
}

/// Before filling: a container that is empty and has been cleaned is as good as new.
void clean(const Water::Compiled& compiled, Water::State& state, const Run& run) {
  for (std::size_t i = 0; i < compiled.cans.size(); ++i) {
    const int store = compiled.cans[i].store;
    if (!run.is_here(store) || run.level(store) > 0) continue;
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
    for (std::size_t i = 0; i < plan.water.containers.size(); ++i) {
      const plan::Container& can = plan.water.containers[i];
      if (can.opened_last != last) continue;
      add_can(plan, static_cast<int>(i), compiled, course);
      (compiled.cans.back().drinking ? drinking_l : utility_l) += can.holds_l;
    }
  }
  compiled.drinking = add_reserve(course, plan,
                                  {.id = {.family = Family::drinking_water},
                                   .title = "Drinking",
                                   .kind = units::Kind::volume,
                                   .capacity = drinking_l,
                                   .life_supporting = true,
                                   .commodity = Commodity::drinking_water});
  if (utility_l > 0 || !plan.water.utility_uses.empty()) {
    compiled.utility = add_reserve(course, plan,
                                   {.id = {.family = Family::utility_water},
                                    .title = "Utility",
                                    .kind = units::Kind::volume,
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
  const OrderInfo& info = run.course().orders[at(order)];
  const bool drinking = info.reserve == compiled.drinking;
  if (info.reserve < 0 || (!drinking && info.reserve != compiled.utility)) return;
  state.first = {};
  if (info.cleaned) clean(compiled, state, run);
  const bool brackish = info.supply.quality == WaterQuality::brackish;
  double room = run.order_room(order);
  double taken = 0;
  for (std::size_t i = 0; i < compiled.cans.size() && room > 0; ++i) {
    CanState& can = state.cans[i];
    const int store = compiled.cans[i].store;
    if (can.drinking != drinking || !run.is_here(store)) continue;
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
  const Timeline& timeline = *run.course().timeline;
  const auto place_day = static_cast<std::size_t>(step.place_day);
  drink(compiled, state, run, step);
  run.use_per_day(compiled.drinking) =
      timeline.conditions.place_days[place_day].drink_l * run.factors().drinking;
  if (compiled.utility >= 0) {
    use(compiled, state, run, step);
    run.use_per_day(compiled.utility) =
        timeline.place_days[place_day].utility_l * run.factors().utility_water;
  }
}

void Water::heed(Compiled& compiled, const plan::Plan& /*plan*/, const CourseBase& course) {
  for (Can& can : compiled.cans) {
    if (is_among(course.damage.containers, can.container)) can.holds_l = 0;
  }
}

void Water::meet(const Compiled& compiled, State& state, Run& run) {
  for (std::size_t i = 0; i < compiled.cans.size(); ++i) {
    run.meet(compiled.cans[i].store, reserve_of(compiled, state.cans[i]));
  }
  state.first = {};
}

void Water::lose_excess(const Compiled& compiled, State& state, Run& run) {
  for (std::size_t i = 0; i < compiled.cans.size(); ++i) {
    const Can& can = compiled.cans[i];
    run.lose_away(can.store, can.holds_l);
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
  // Potable water is what matters: it is what there is more of, or less. The last vessel gains
  // first, and the first one loses first.
  const bool more = level > run.reserve_level(reserve);
  state.first = {};
  std::ptrdiff_t in_front = 0;
  std::vector<Run::Vessel> vessels;
  for (std::size_t i = 0; i < compiled.cans.size(); ++i) {
    if (state.cans[i].drinking != drinking || !run.is_here(compiled.cans[i].store)) continue;
    const Run::Vessel vessel{.store = compiled.cans[i].store, .holds = compiled.cans[i].holds_l};
    const bool front = state.cans[i].brackish == more;
    vessels.insert(front ? vessels.begin() + in_front++ : vessels.end(), vessel);
  }
  run.set_level(vessels, reserve, level);
}

void Water::set_store(const Compiled& compiled, State& state, Run& run, int store, double level) {
  for (std::size_t i = 0; i < compiled.cans.size(); ++i) {
    if (compiled.cans[i].store != store) continue;
    run.set_store(store, reserve_of(compiled, state.cans[i]), level);
    state.first = {};
  }
}

}  // namespace drystage::engine::reserves
