#include "answers/mishaps/heavy_fuel.h"

#include <algorithm>

namespace drystage::answers {
namespace {

using engine::Engine;
using engine::Family;
using engine::reserves::Fuel;

constexpr Engine::Chosen fuel_alone = Engine::only<Fuel>();

/// The most that a unit of what a family has in store weighs.
double heaviest_kg_per_unit(const engine::Course& course, Family family) {
  double out = 0;
  for (const engine::StoreInfo& store : course.stores) {
    if (store.family == family) out = std::max(out, store.kg_per_unit);
  }
  return out;
}

/// What may be bought beyond what there is room for at the beginning.
double bought_kg(const engine::Course& course) {
  double kg = 0;
  for (const engine::OrderInfo& order : course.orders) {
    if (order.reserve < 0) continue;
    const Family family = course.reserves[static_cast<std::size_t>(order.reserve)].id.family;
    const bool into_vessels = family == Family::drinking_water || family == Family::utility_water ||
                              family == Family::fuel;
    if (into_vessels) continue;
    kg += std::max(order.order.amount, order.up_to) * heaviest_kg_per_unit(course, family);
  }
  return kg;
}

bool runs_short(const engine::Course& course, const engine::Record& record) {
  const auto& vehicles = std::get<Fuel::Compiled>(course.families).vehicles;
  return std::ranges::any_of(vehicles, [&](const Fuel::Vehicle& vehicle) {
    return record.least[static_cast<std::size_t>(vehicle.reserve)].short_of > 0;
  });
}

/// Whether a tank begins with less in it than it never gives: what it is filled with first is of no
/// use, and so less may come of more.
bool fills_in_vain(const engine::Course& course) {
  const auto& vehicles = std::get<Fuel::Compiled>(course.families).vehicles;
  return std::ranges::any_of(vehicles, [&](const Fuel::Vehicle& vehicle) {
    return std::ranges::any_of(vehicle.tanks, [&](const Fuel::Tank& tank) {
      return course.stores[static_cast<std::size_t>(tank.store)].initial < tank.unusable_l;
    });
  });
}

}  // namespace

void burn_no_less_when_heavier(Fuel::Compiled& fuel) {
  for (Fuel::Vehicle& vehicle : fuel.vehicles) {
    for (models::FuelDemand& piece : vehicle.pieces) {
      piece.descent_per_kg_l = std::min(piece.descent_per_kg_l, piece.per_kg_l);
      piece.coast_per_kg_l = std::min(piece.coast_per_kg_l, piece.per_kg_l);
    }
  }
}

HeavyFuel::HeavyFuel(const SweepPlan& sweep)
    : course_(loaded(sweep.planned_course())),
      record_(engine::blank_record(course_, engine::Keep::least)),
      steps_(sweep.stands_at()) {
  Standing now = Engine::begin(course_, record_);
  for (const std::size_t step : steps_) {
    go_on(course_, now, step);
    standings_.push_back(now);
  }
  go_on(course_, now, course_.timeline->steps.size());
  tells_ = !fills_in_vain(course_);
  lasts_ = tells_ && !runs_short(course_, record_);
}

engine::Course HeavyFuel::loaded(engine::Course course) {
  burn_no_less_when_heavier(std::get<Fuel::Compiled>(course.families));
  for (const engine::StoreInfo& store : course.stores) {
    const auto vehicle = static_cast<std::size_t>(store.vehicle);
    if (store.family == Family::fuel || store.vehicle < 0) continue;
    if (vehicle >= course.vehicle_kg.size()) continue;
    course.vehicle_kg[vehicle] += engine::most_more_kg(store, store.initial);
  }
  // Whichever vehicle takes it.
  const double more_kg = bought_kg(course);
  for (double& kg : course.vehicle_kg) kg += more_kg;
  return course;
}

const HeavyFuel::Standing& HeavyFuel::before(std::size_t step) const {
  const auto at = std::ranges::lower_bound(steps_, step);
  return standings_[static_cast<std::size_t>(at - steps_.begin())];
}

HeavyFuel::Standing HeavyFuel::strike(const Standing& standing, const engine::Course& course,
                                      std::size_t step, engine::Record& record) {
  engine::make_blank(record, course, engine::Keep::least);
  Standing out = Engine::resume(standing, course, step, record);
  // Of fuel alone: nothing else on board becomes less.
  Fuel::lose_excess(std::get<Fuel::Compiled>(course.families), std::get<Fuel::State>(out.states),
                    out.run);
  return out;
}

bool HeavyFuel::lasts_after(const Standing& before, const engine::Course& course, std::size_t step,
                            engine::Record& scratch) const {
  if (!tells_) return false;
  Standing now = strike(before, course, step, scratch);
  go_on(course, now, course.timeline->steps.size());
  return !runs_short(course, scratch);
}

void HeavyFuel::go_on(const engine::Course& course, Standing& standing, std::size_t until) {
  Engine::go_on_with(fuel_alone, course, standing, until);
}

}  // namespace drystage::answers
