#include "engine/reserves/tyres.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "engine/opening.h"
#include "engine/surfaces.h"
#include "plan/values.h"
#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

constexpr double km_of_rate = 1000;
// A level that is only just below a whole number is that number.
constexpr double nearly = 1e-6;

int whole(double level) { return static_cast<int>(std::floor(level + nearly)); }

/// Whether the party stands at a place that mends tyres for the time of a step.
bool mends_in(const plan::Plan& plan, const Timeline& timeline, const TimeStep& step) {
  if (step.drive >= 0 || step.dt_h <= 0) return false;
  const int place = timeline.place_days[at(step.place_day)].place;
  return place >= 0 &&
         mends_tyres(plan.places[at(place)], timeline.days[at(step.day)].schedule.date);
}

/// Whether a vehicle is with the party in a step. Only then it drives, and can be mended.
bool is_along(const Timeline& timeline, const TimeStep& step, int vehicle) {
  return timeline.companies[at(step.company)].vehicles[at(vehicle)] != 0;
}

/// What is still to come for a vehicle from each step on, up to the next that mends.
std::vector<models::Punctures> punctures_to_come(const plan::TyreKit& tyres, int vehicle,
                                                 const Timeline& timeline,
                                                 const std::vector<char>& mends) {
  std::vector<models::Punctures> out(timeline.steps.size());
  models::Punctures sum;
  for (std::size_t s = timeline.steps.size(); s-- > 0;) {
    const TimeStep& step = timeline.steps[s];
    const bool along = is_along(timeline, step, vehicle);
    if (step.drive >= 0 && along) {
      const plan::Surface surface = timeline.pieces[at(step.drive)].surface;
      const models::Punctures here = punctures_on(tyres, surface, step.distance_km);
      sum.holes += here.holes;
      sum.cuts += here.cuts;
    }
    out[s] = sum;
    if (mends[s] != 0 && along) sum = {};
  }
  return out;
}

Tyres::Vehicle compile_vehicle(const plan::Plan& plan, int index, CourseBase& course,
                               const std::vector<char>& mends) {
  const plan::Vehicle& vehicle = plan.vehicles[at(index)];
  const plan::TyreKit& tyres = *vehicle.tyres;
  Tyres::Vehicle out{
      .vehicle = index, .most_wheels = tyres.spare_wheels, .most_repairs = tyres.repairs};
  const auto add = [&](const std::string& name, int count, int of) {
    return add_store(course, {.name = name,
                              .unit = "spares",
                              .capacity = static_cast<double>(count),
                              .initial = static_cast<double>(count),
                              .vehicle = index,
                              .family = Family::tyres,
                              .index = of,
                              .of = index});
  };
  out.repairs = add("repairs of " + vehicle.name, tyres.repairs, Tyres::repairs_index);
  out.wheels = add("spare wheels of " + vehicle.name, tyres.spare_wheels, Tyres::wheels_index);
  // A wheel that has been used is carried on.
  const double wheels_kg = tyres.spare_wheels * tyres.wheel_kg;
  if (wheels_kg > 0) {
    const bool one = tyres.spare_wheels == 1;
    add_thing(course, {.name = fmt::format("{} spare wheel{}", tyres.spare_wheels, one ? "" : "s"),
                       .vehicle = index,
                       .kg = wheels_kg,
                       .spot = tyres.spot,
                       .family = Family::tyres,
                       .index = index});
  }
  const int capacity = tyres.spare_wheels + tyres.repairs;
  out.reserve = add_reserve(course, plan,
                            {.id = {.family = Family::tyres, .of = index},
                             .owner = vehicle.name,
                             .title = plan.vehicles.size() > 1 ? "Tyres " + vehicle.name : "Tyres",
                             .unit = "spares",
                             .endurance = Endurance::km,
                             .capacity = static_cast<double>(capacity),
                             .counted = true,
                             .vehicle = index});
  ReserveInfo& info = course.reserves[at(out.reserve)];
  out.chance = chance_asked(plan, info);
  // What must be there goes by the way, and is no share of what is carried.
  info.margin = {};
  out.to_come = punctures_to_come(tyres, index, *course.timeline, mends);
  // A vehicle that has been left behind needs no tyres.
  if (is_among(course.damage.vehicles, index)) std::ranges::fill(out.to_come, models::Punctures{});
  return out;
}

/// What must be there before a step. The same question is not worked out again.
double must_have(const Tyres::Vehicle& vehicle, Tyres::OfVehicle& last, const Run& run,
                 std::size_t step) {
  const models::Punctures& expected = vehicle.to_come[step];
  const models::Spares spares{.wheels = whole(run.level(vehicle.wheels)),
                              .repairs = whole(run.level(vehicle.repairs))};
  const bool same = last.needed >= 0 && last.expected.holes == expected.holes &&
                    last.expected.cuts == expected.cuts && last.spares.wheels == spares.wheels &&
                    last.spares.repairs == spares.repairs;
  if (!same) {
    last.expected = expected;
    last.spares = spares;
    last.needed = models::spares_needed(expected, spares, vehicle.chance);
  }
  return last.needed;
}

void fill(const Tyres::Vehicle& vehicle, Run& run) {
  run.set_store(vehicle.wheels, vehicle.reserve, vehicle.most_wheels);
  run.set_store(vehicle.repairs, vehicle.reserve, vehicle.most_repairs);
}

/// A puncture takes a wheel, as a cut does, and what is left then is of less use; or else a repair.
/// Answers whether there was one.
bool take_one(const Tyres::Vehicle& vehicle, Run& run) {
  for (const int store : {vehicle.wheels, vehicle.repairs}) {
    if (whole(run.level(store)) < 1) continue;
    run.lose(store, vehicle.reserve, 1);
    return true;
  }
  return false;
}

}  // namespace

models::Punctures punctures_on(const plan::TyreKit& tyres, plan::Surface surface,
                               double distance_km) {
  const auto own = tyres.own_per_1000_km.at(static_cast<std::size_t>(surface));
  const double rate = own.value_or(surface_figures(surface).punctures_1000_km);
  const double all = rate * distance_km / km_of_rate;
  return {.holes = all * (1 - tyres.beyond_repair), .cuts = all * tyres.beyond_repair};
}

double chance_asked(const plan::Plan& plan, const ReserveInfo& reserve) {
  static const double usual = plan::default_number("margins.tyres").value();
  const plan::Margin* margin = margin_of(plan, reserve);
  return margin == nullptr ? usual : margin->value;
}

bool mends_tyres(const plan::Place& place, plan::Date date) {
  const plan::Commodity tyres = plan::Commodity::tyres;
  const auto supply = std::ranges::find(place.supplies, tyres, &plan::Supply::commodity);
  return supply != place.supplies.end() && supply->confirmed && is_open(*supply, date);
}

std::vector<int> spares_before_each_step(const Tyres::Compiled& compiled, std::size_t vehicle,
                                         const CourseBase& course) {
  const Tyres::Vehicle& of = compiled.vehicles[vehicle];
  int wheels = of.most_wheels;
  int repairs = of.most_repairs;
  std::vector<int> out;
  std::size_t read = 0;
  for (std::size_t s = 0; s < course.timeline->steps.size(); ++s) {
    for (; read < course.readings.size() && course.readings[read].step <= s; ++read) {
      for (const ReadingInfo::Level& found : course.readings[read].stores) {
        if (found.of == of.wheels) wheels = whole(found.level);
        if (found.of == of.repairs) repairs = whole(found.level);
      }
    }
    out.push_back(wheels + repairs);
    const TimeStep& step = course.timeline->steps[s];
    if (compiled.mends[s] == 0 || !is_along(*course.timeline, step, of.vehicle)) continue;
    wheels = of.most_wheels;
    repairs = of.most_repairs;
  }
  return out;
}

Tyres::Compiled Tyres::compile(const plan::Plan& plan, CourseBase& course) {
  Compiled compiled;
  const auto judged = [](const plan::Vehicle& vehicle) { return vehicle.tyres.has_value(); };
  if (std::ranges::none_of(plan.vehicles, judged)) return compiled;
  for (const TimeStep& step : course.timeline->steps) {
    compiled.mends.push_back(mends_in(plan, *course.timeline, step) ? 1 : 0);
  }
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    if (!plan.vehicles[v].tyres) continue;
    compiled.vehicles.push_back(compile_vehicle(plan, static_cast<int>(v), course, compiled.mends));
  }
  return compiled;
}

Tyres::State Tyres::begin(const Compiled& compiled, Run& run) {
  State state;
  state.of.resize(compiled.vehicles.size());
  for (std::size_t v = 0; v < compiled.vehicles.size(); ++v) {
    const Vehicle& vehicle = compiled.vehicles[v];
    run.reserve_level(vehicle.reserve) = run.level(vehicle.wheels) + run.level(vehicle.repairs);
    if (vehicle.to_come.empty()) continue;
    run.margin_more(vehicle.reserve) = must_have(vehicle, state.of[v], run, 0);
  }
  return state;
}

void Tyres::supply(const Compiled& /*compiled*/, State& /*state*/, Run& /*run*/, int /*order*/) {}

void Tyres::advance(const Compiled& compiled, State& state, Run& run, const TimeStep& step) {
  for (std::size_t v = 0; v < compiled.vehicles.size(); ++v) {
    const Vehicle& vehicle = compiled.vehicles[v];
    OfVehicle& now = state.of[v];
    if (now.lacking > 0) {
      run.fall_short(vehicle.reserve, now.lacking, step.from_h);
      now.lacking = 0;
    }
    if (!run.is_judged(vehicle.reserve)) continue;
    if (compiled.mends[step.index] != 0) fill(vehicle, run);
    run.margin_more(vehicle.reserve) = must_have(vehicle, now, run, step.index);
  }
}

void Tyres::heed(Compiled& compiled, const plan::Plan& /*plan*/, const CourseBase& course) {
  for (Vehicle& vehicle : compiled.vehicles) {
    vehicle.punctured = 0;
    for (const Punctured& one : course.damage.punctured) {
      if (one.vehicle == vehicle.vehicle) vehicle.punctured += one.times;
    }
  }
}

void Tyres::meet(const Compiled& compiled, State& /*state*/, Run& run) {
  for (const Vehicle& vehicle : compiled.vehicles) {
    run.meet(vehicle.wheels, vehicle.reserve);
    run.meet(vehicle.repairs, vehicle.reserve);
  }
}

void Tyres::lose_excess(const Compiled& compiled, State& state, Run& run) {
  for (std::size_t v = 0; v < compiled.vehicles.size(); ++v) {
    for (; state.of[v].punctured < compiled.vehicles[v].punctured; ++state.of[v].punctured) {
      if (!take_one(compiled.vehicles[v], run)) ++state.of[v].lacking;
    }
  }
}

void Tyres::set_level(const Compiled& compiled, State& /*state*/, Run& run, int reserve,
                      double level) {
  for (const Vehicle& vehicle : compiled.vehicles) {
    if (vehicle.reserve != reserve) continue;
    run.set_level({{.store = vehicle.repairs, .holds = static_cast<double>(vehicle.most_repairs)},
                   {.store = vehicle.wheels, .holds = static_cast<double>(vehicle.most_wheels)}},
                  reserve, level);
  }
}

void Tyres::set_store(const Compiled& compiled, State& /*state*/, Run& run, int store,
                      double level) {
  for (const Vehicle& vehicle : compiled.vehicles) {
    if (store == vehicle.wheels || store == vehicle.repairs) {
      run.set_store(store, vehicle.reserve, level);
    }
  }
}

std::vector<Remedy> Tyres::remedies(const Compiled& compiled, const plan::Plan& plan, int reserve,
                                    double lacking) {
  std::vector<Remedy> out;
  for (const Vehicle& vehicle : compiled.vehicles) {
    if (vehicle.reserve != reserve) continue;
    const plan::Vehicle& of = plan.vehicles[at(vehicle.vehicle)];
    const auto wheels = [index = at(vehicle.vehicle), name = of.name,
                         kg = of.tyres->wheel_kg](int count) {
      return Remedy{
          .name = {"more spare wheel for " + name, "more spare wheels for " + name, count},
          .size = count * kg,
          .adds = static_cast<double>(count),
          .apply = [index, count](plan::Plan& changed) {
            changed.vehicles[index].tyres->spare_wheels += count;
          }};
    };
    for (int n = 1; n <= pieces_for(lacking, 1); ++n) {
      out.push_back(in_steps("spare wheels of " + of.name, wheels, n));
    }
  }
  return out;
}

}  // namespace drystage::engine::reserves
