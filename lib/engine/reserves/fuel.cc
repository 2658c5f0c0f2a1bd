#include "engine/reserves/fuel.h"

#include <algorithm>

#include "engine/roads.h"
#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

using plan::Commodity;
using plan::FuelKind;

constexpr double m_s_in_km_h = 3.6;

Fuel::Ground ground_of(const Leg& leg, int number, const RoadPiece& part,
                       const plan::Vehicle& vehicle, const RoadModel& model, bool towing) {
  RoadPiece one_km = part;
  one_km.distance_km = 1;
  one_km.climb_m = one_km.descent_m = 0;
  RoadPiece without_descent = part;
  without_descent.descent_m = 0;
  const models::FuelDemand level = standard_fuel_demand(vehicle, model, one_km, towing);
  const models::FuelDemand whole = standard_fuel_demand(vehicle, model, without_descent, towing);
  const double factor = part.fuel_factor;
  return {.surface = part.surface,
          .leg = number,
          .level = {.fixed_l = level.fixed_l * factor, .per_kg_l = level.per_kg_l * factor},
          .of_leg = {.fixed_l = whole.fixed_l * factor / leg.distance_km,
                     .per_kg_l = whole.per_kg_l * factor / leg.distance_km}};
}

/// A leg's parts together, each with the factor of its surface.
Fuel::PerKm sum_of(const Fuel::Vehicle& vehicle, const Leg& leg, const Factors& factors,
                   int index) {
  Fuel::PerKm sum;
  const Fuel::Ground* ground = vehicle.grounds.data() + leg.first_ground;
  for (std::size_t part = 0; part < leg.parts.size(); ++part, ++ground) {
    sum.add(ground->of_leg, factors.fuel_on(ground->surface, index));
  }
  return sum;
}

double usable_in(const Fuel::Vehicle& vehicle, const Run& run) {
  double usable = 0;
  for (const Fuel::Tank& tank : vehicle.tanks) {
    usable += std::max(0.0, run.level(tank.store) - tank.unusable_l);
  }
  return usable;
}

/// Burns up to `wanted_l`; answers what there was.
double burn(const Fuel::Vehicle& vehicle, Run& run, double wanted_l) {
  double got = 0;
  for (const Fuel::Tank& tank : vehicle.tanks) {
    if (got >= wanted_l) break;
    const double part = std::min(wanted_l - got, run.level(tank.store) - tank.unusable_l);
    if (part <= 0) continue;
    run.use(tank.store, vehicle.reserve, part);
    got += part;
  }
  return got;
}

/// Whether a vehicle's trailer is behind it.
bool tows(const Timeline& timeline, int company, int index) {
  return timeline.companies[at(company)].trailers[at(index)] == 0;
}

/// Pours up to `wanted_l` out of cans of others into a vehicle's own tanks. For its margin alone no
/// other gives what its own margin asks for; what it would else lack now, it gives.
void pour(const Fuel::Vehicle& vehicle, Fuel::State& state, Run& run, const TimeStep& step,
          double wanted_l, bool for_margin) {
  for (const Fuel::SharedCan& shared : vehicle.shared) {
    if (!run.is_judged(shared.reserve)) continue;
    double gives_l =
        for_margin ? run.reserve_level(shared.reserve) - run.margin(shared.reserve) : without_limit;
    for (const Fuel::Tank& tank : vehicle.tanks) {
      if (!run.is_here(tank.store)) continue;
      // What nobody gets out again must be there first.
      const double dead = std::max(0.0, tank.unusable_l - run.level(tank.store));
      const double part =
          std::min({wanted_l + dead, gives_l, run.level(shared.can.store) - shared.can.unusable_l,
                    tank.holds_l - run.level(tank.store)});
      if (part <= dead || wanted_l <= 0) continue;
      run.lose(shared.can.store, shared.reserve, part);
      run.gain(tank.store, Run::no_reserve, dead);
      run.gain(tank.store, vehicle.reserve, part - dead);
      wanted_l -= part - dead;
      gives_l -= part;
      int& told = state.poured_day[at(shared.can.store)];
      if (told != step.day) {
        run.tell(EventKind::poured, step.from_h, shared.can.store, 0, vehicle.reserve);
      }
      told = step.day;
    }
  }
}

/// The same out of a generator's own cans.
double burn_own(const Generator& generator, Run& run, double wanted_l) {
  double got = 0;
  for (const int store : generator.stores) {
    const double part = std::min(wanted_l - got, run.level(store));
    if (part <= 0) continue;
    run.use(store, generator.reserve, part);
    got += part;
  }
  return got;
}

void set_rates(const Fuel::Compiled& compiled, int index, Run& run, const TimeStep& step) {
  const Fuel::Vehicle& vehicle = compiled.vehicles[at(index)];
  const std::vector<Fuel::PerKm>& legs = vehicle.legs;
  double worse = 0;
  if (!legs.empty()) {
    const Timeline& timeline = *run.course().timeline;
    const auto moved_kg = [&](int company) {
      return run.vehicle_kg(index) + (tows(timeline, company, index) ? vehicle.towed_kg : 0);
    };
    const std::size_t last = legs.size() - 1;
    const std::size_t leg = std::min(static_cast<std::size_t>(step.leg), last);
    const bool as_planned = run.factors().fuel_is_as_planned(index);
    for (const std::size_t l : {leg, std::min(leg + 1, last)}) {
      const int company = timeline.legs[l].company;
      // It may stand somewhere, or have gone home, while others drive on.
      if (timeline.companies[at(company)].vehicles[at(index)] == 0) continue;
      const Fuel::PerKm whole =
          as_planned ? legs[l] : sum_of(vehicle, timeline.legs[l], run.factors(), index);
      worse = std::max(
          worse, whole.litres(moved_kg(company)) * run.factors().fuel_on_leg(static_cast<int>(l)));
    }
    if (step.ground >= 0) {
      const Fuel::Ground& here = vehicle.grounds[at(step.ground)];
      const double kg = moved_kg(step.company);
      worse = std::max(worse, here.level.litres(kg) * run.factors().fuel_on(here.surface, index) *
                                  run.factors().fuel_on_leg(here.leg));
    }
  }
  run.use_per_km(vehicle.reserve) = worse;
  double per_day = 0;
  for (const Generator& generator : compiled.generators) {
    if (generator.vehicle == index) per_day += generator.uses_l_day();
  }
  run.use_per_day(vehicle.reserve) = per_day;
}

models::FuelDemand times(models::FuelDemand demand, double factor) {
  demand.fixed_l *= factor;
  demand.per_kg_l *= factor;
  return demand;
}

/// A vehicle left behind burns nothing, and nobody asks what is in it.
void leave_behind(Fuel::Vehicle& vehicle, CourseBase& course) {
  std::size_t grounds = 0;
  for (const Leg& leg : course.timeline->legs) grounds += leg.parts.size();
  vehicle.lost = true;
  vehicle.pieces.resize(course.timeline->pieces.size());
  vehicle.legs.resize(course.timeline->legs.size());
  vehicle.grounds.resize(grounds);
  course.reserves[at(vehicle.reserve)].margin = {};
}

/// Cans of a vehicle left behind are carried over to one that burns the same fuel.
void carry_over(Fuel::Compiled& compiled, const plan::Plan& plan, CourseBase& course) {
  for (std::size_t v = 0; v < compiled.vehicles.size(); ++v) {
    Fuel::Vehicle& left = compiled.vehicles[v];
    if (!left.lost) continue;
    for (std::size_t u = 0; u < compiled.vehicles.size() && left.taker < 0; ++u) {
      const bool same = plan.vehicles[u].fuel == plan.vehicles[v].fuel;
      if (same && !compiled.vehicles[u].lost) left.taker = static_cast<int>(u);
    }
    if (left.taker < 0) continue;
    std::vector<Fuel::Tank> stays;
    for (std::size_t t = 0; t < left.tanks.size(); ++t) {
      if (plan.vehicles[v].tanks[t].empty_kg <= 0) {
        stays.push_back(left.tanks[t]);
        continue;
      }
      const Fuel::Tank& can = left.tanks[t];
      course.stores[at(can.store)].vehicle = left.taker;
      course.stores[at(can.store)].spot = {};  // nobody has said where it goes there
      compiled.vehicles[at(left.taker)].tanks.push_back(can);
      course.vehicle_kg[v] -= plan.vehicles[v].tanks[t].empty_kg;
      course.vehicle_kg[at(left.taker)] += plan.vehicles[v].tanks[t].empty_kg;
    }
    left.tanks = stays;
  }
}

void share_cans(Fuel::Compiled& compiled, const plan::Plan& plan) {
  for (const Fuel::Vehicle& owner : compiled.vehicles) {
    for (const Fuel::Tank& can : owner.tanks) {
      for (const int other :
           plan.vehicles[at(can.tank.vehicle)].tanks[at(can.tank.tank)].also_for) {
        Fuel::Vehicle& taker = compiled.vehicles[at(other)];
        const bool is_own = taker.reserve == owner.reserve;
        if (!is_own && !taker.lost && !owner.lost) {
          taker.shared.push_back({.can = can, .reserve = owner.reserve});
        }
      }
    }
  }
}

Fuel::Vehicle compile_vehicle(const plan::Plan& plan, int index, CourseBase& course) {
  const plan::Vehicle& vehicle = plan.vehicles[at(index)];
  Fuel::Vehicle out;
  out.model = road_model(vehicle);
  out.towed_kg = vehicle.trailer ? vehicle.trailer->loaded_kg() : 0;
  double usable_l = 0;
  for (std::size_t t = 0; t < vehicle.tanks.size(); ++t) {
    const plan::Tank& tank = vehicle.tanks[t];
    const int store = add_store(course, {.name = tank.name,
                                         .kind = units::Kind::volume,
                                         .capacity = tank.holds_l,
                                         .initial = tank.filled_l,
                                         .kg_per_unit = plan::fuel_kg_l(vehicle.fuel),
                                         .vehicle = index,
                                         .empty_kg = tank.empty_kg,
                                         .spot = tank.spot,
                                         .family = Family::fuel,
                                         .index = static_cast<int>(t),
                                         .of = index});
    out.tanks.push_back({.store = store,
                         .tank = {.vehicle = index, .tank = static_cast<int>(t)},
                         .unusable_l = tank.unusable_l,
                         .holds_l = tank.holds_l});
    usable_l += tank.holds_l - tank.unusable_l;
  }
  out.reserve = add_reserve(
      course, plan,
      {.id = {.family = Family::fuel, .of = index},
       .owner = vehicle.name,
       .title = plan.vehicles.size() > 1 ? "Fuel " + vehicle.name : "Fuel",
       .kind = units::Kind::volume,
       .endurance = Endurance::km,
       .capacity = usable_l,
       .life_supporting = true,
       .commodity = vehicle.fuel == FuelKind::diesel ? Commodity::diesel : Commodity::petrol,
       .vehicle = index});
  if (is_among(course.damage.vehicles, index)) {
    leave_behind(out, course);
    return out;
  }
  out.pieces.resize(course.timeline->pieces.size());
  int number = 0;
  for (const Leg& leg : course.timeline->legs) {
    const bool towing = tows(*course.timeline, leg.company, index);
    for (const RoadPiece& part : leg.parts) {
      out.grounds.push_back(ground_of(leg, number, part, vehicle, out.model, towing));
    }
    ++number;
    out.legs.push_back(sum_of(out, leg, {}, index));
  }
  return out;
}

/// Pours what a tank of a vehicle left behind gives into whatever has room; the rest is lost.
void pour_over(const Fuel::Compiled& compiled, const Fuel::Vehicle& left, const Fuel::Tank& tank,
               Run& run) {
  if (left.taker >= 0) {
    for (const Fuel::Tank& other : compiled.vehicles[at(left.taker)].tanks) {
      const double part =
          std::min(run.level(tank.store) - tank.unusable_l, other.holds_l - run.level(other.store));
      if (part <= 0) continue;
      run.lose(tank.store, Run::no_reserve, part);
      run.gain(other.store, Run::no_reserve, part);
    }
  }
  run.lose(tank.store, Run::no_reserve, run.level(tank.store));
}

}  // namespace

Fuel::Compiled Fuel::compile(const plan::Plan& plan, CourseBase& course) {
  Compiled compiled;
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    compiled.vehicles.push_back(compile_vehicle(plan, static_cast<int>(v), course));
  }
  carry_over(compiled, plan, course);
  share_cans(compiled, plan);
  refill(compiled, plan, course, course.made_ready());
  for (OrderInfo& order : course.orders) {
    const bool fuel = order.order.commodity == plan::Commodity::diesel ||
                      order.order.commodity == plan::Commodity::petrol;
    if (!fuel || !order.order.vehicle) continue;
    order.reserve = compiled.vehicles[at(*order.order.vehicle)].reserve;
  }
  return compiled;
}

void Fuel::refill(Compiled& compiled, const plan::Plan& plan, const CourseBase& course,
                  const IndexRange& steps) {
  const Timeline& timeline = *course.timeline;
  for (std::size_t v = 0; v < compiled.vehicles.size(); ++v) {
    Vehicle& vehicle = compiled.vehicles[v];
    if (vehicle.lost) continue;
    for (std::size_t s = steps.from; s < steps.until; ++s) {
      if (timeline.steps[s].drive < 0) continue;
      const auto p = static_cast<std::size_t>(timeline.steps[s].drive);
      RoadPiece piece = timeline.pieces[p];
      // No wind from behind pushes.
      piece.headwind_m_s = std::max(-piece.speed_km_h / m_s_in_km_h,
                                    piece.headwind_m_s + timeline.conditions.more_headwind_m_s[p]);
      const bool towing = tows(timeline, timeline.steps[s].company, static_cast<int>(v));
      vehicle.pieces[p] = times(fuel_demand(plan.vehicles[v], vehicle.model, piece,
                                            timeline.conditions.air_density_kg_m3[p], towing),
                                piece.fuel_factor);
    }
  }
}

Fuel::State Fuel::begin(const Compiled& compiled, Run& run) {
  for (const Vehicle& vehicle : compiled.vehicles) {
    run.reserve_level(vehicle.reserve) = usable_in(vehicle, run);
  }
  return {.poured_day = std::vector<int>(run.course().stores.size(), -1)};
}

void Fuel::supply(const Compiled& compiled, State& /*state*/, Run& run, int order) {
  const OrderInfo& info = run.course().orders[at(order)];
  for (const Vehicle& vehicle : compiled.vehicles) {
    if (vehicle.reserve != info.reserve || vehicle.lost) continue;
    if (!run.is_judged(vehicle.reserve)) continue;
    double room = run.order_room(order);
    double taken = 0;
    for (const Tank& tank : vehicle.tanks) {
      if (!run.is_here(tank.store)) continue;
      const double part = std::min(room, tank.holds_l - run.level(tank.store));
      if (part <= 0) continue;
      const double dead = std::clamp(tank.unusable_l - run.level(tank.store), 0.0, part);
      run.gain(tank.store, Run::no_reserve, dead);
      run.gain(tank.store, vehicle.reserve, part - dead);
      room -= part;
      taken += part;
    }
    run.ordered(order, vehicle.reserve, taken);
  }
}

void Fuel::advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step) {
  for (std::size_t v = 0; v < compiled.vehicles.size(); ++v) {
    const Vehicle& vehicle = compiled.vehicles[v];
    const int index = static_cast<int>(v);
    if (!run.is_judged(vehicle.reserve)) continue;
    if (step.drive >= 0) {
      const auto& demand = vehicle.pieces[at(step.drive)];
      const Timeline& timeline = *run.course().timeline;
      const double moved_kg =
          run.vehicle_kg(index) + (tows(timeline, step.company, index) ? vehicle.towed_kg : 0);
      const plan::Surface surface = timeline.pieces[at(step.drive)].surface;
      const double wanted = models::litres(demand, moved_kg) *
                            run.factors().fuel_on(surface, index) *
                            run.factors().fuel_on_leg(step.leg);
      if (!vehicle.shared.empty()) {
        pour(vehicle, state, run, step, wanted - run.reserve_level(vehicle.reserve), false);
      }
      const double missing = wanted - burn(vehicle, run, wanted);
      run.fall_short(vehicle.reserve, missing, runs_out_h(step, wanted, missing));
    }
    set_rates(compiled, index, run, step);
    pour(vehicle, state, run, step,
         run.margin(vehicle.reserve) - run.reserve_level(vehicle.reserve), true);
  }
  for (const Generator& generator : compiled.generators) {
    const bool own_cans = generator.vehicle < 0;
    const int reserve =
        own_cans ? generator.reserve : compiled.vehicles[at(generator.vehicle)].reserve;
    // An engine of water and fuel alone has no such cans, and asks for no charge.
    if (reserve < 0) continue;
    if (!run.is_judged(reserve)) {
      run.signals.generator_share[at(generator.charger)] = 0;
      continue;
    }
    const Running runs = running(generator, *run.course().timeline, step);
    const double wanted = runs.hours * generator.uses_l_h;
    const double got = own_cans ? burn_own(generator, run, wanted)
                                : burn(compiled.vehicles[at(generator.vehicle)], run, wanted);
    double& share = run.signals.generator_share[at(generator.charger)];
    share = wanted > 0 ? got / wanted : (runs.hours > 0 ? 1.0 : 0.0);
    // It may begin within the step.
    TimeStep run_time = step;
    run_time.from_h = runs.from_h;
    run_time.dt_h = runs.hours;
    const double dry_h = runs_out_h(run_time, wanted, wanted - got);
    if (wanted - got > 1e-9) run.tell(EventKind::generator_dry, dry_h, generator.charger);
    run.fall_short(reserve, wanted - got, dry_h);
  }
}

void Fuel::heed(Compiled& compiled, const plan::Plan& plan, const CourseBase& course) {
  for (Vehicle& vehicle : compiled.vehicles) {
    for (Tank& tank : vehicle.tanks) {
      if (is_among(course.damage.tanks, tank.tank)) tank.holds_l = 0;
    }
  }
  compiled.generators = generators(plan, course);
}

void Fuel::meet(const Compiled& compiled, State& /*state*/, Run& run) {
  for (const Vehicle& vehicle : compiled.vehicles) {
    for (const Tank& tank : vehicle.tanks) run.meet(tank.store, Run::no_reserve);
    run.match_stores(vehicle.reserve, usable_in(vehicle, run));
  }
}

void Fuel::lose_excess(const Compiled& compiled, State& /*state*/, Run& run) {
  for (const Vehicle& vehicle : compiled.vehicles) {
    for (const Tank& tank : vehicle.tanks) {
      run.lose_away(tank.store, tank.holds_l);
      const double lost = run.level(tank.store) - tank.holds_l;
      if (lost > 0) run.lose(tank.store, Run::no_reserve, lost);
    }
  }
  for (const Vehicle& left : compiled.vehicles) {
    if (!left.lost) continue;
    for (const Tank& tank : left.tanks) pour_over(compiled, left, tank, run);
  }
  // Which reserve a can counts for may have changed too.
  for (const Vehicle& vehicle : compiled.vehicles) {
    run.match_stores(vehicle.reserve, usable_in(vehicle, run));
  }
}

void Fuel::set_level(const Compiled& compiled, State& /*state*/, Run& run, int reserve,
                     double level) {
  for (const Vehicle& vehicle : compiled.vehicles) {
    if (vehicle.reserve != reserve) continue;
    std::vector<Run::Vessel> vessels;
    for (const Tank& tank : vehicle.tanks) {
      if (!run.is_here(tank.store)) continue;
      vessels.push_back({.store = tank.store, .holds = tank.holds_l, .unusable = tank.unusable_l});
    }
    run.set_level(vessels, reserve, level);
  }
}

void Fuel::set_store(const Compiled& compiled, State& /*state*/, Run& run, int store,
                     double level) {
  for (const Vehicle& vehicle : compiled.vehicles) {
    if (std::ranges::find(vehicle.tanks, store, &Tank::store) == vehicle.tanks.end()) continue;
    run.set_store(store, Run::no_reserve, level);
    run.match_stores(vehicle.reserve, usable_in(vehicle, run));
  }
}

}  // namespace drystage::engine::reserves
