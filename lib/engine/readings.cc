#include "engine/readings.h"

#include <algorithm>

#include "engine/dipstick.h"
#include "engine/reserves/tyres.h"
#include "models/resting_voltage.h"
#include "plan/own.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

/// Makes one reading ready.
class Maker {
 public:
  Maker(const plan::Plan& plan, const CourseBase& course, ReadingInfo& out)
      : plan_(plan), course_(course), out_(out) {}

  void make(const plan::Reading& reading) {
    if (reading.drinking_l) set({.family = Family::drinking_water}, *reading.drinking_l);
    if (reading.utility_l) set({.family = Family::utility_water}, *reading.utility_l);
    if (reading.meals) set({.family = Family::food}, *reading.meals);
    for (const plan::FuelFound& fuel : reading.fuel) {
      set({.family = Family::fuel, .of = fuel.vehicle}, fuel.usable_l);
    }
    for (const plan::ConsumableFound& stock : reading.consumables) {
      set({.family = Family::consumable, .of = stock.consumable}, stock.amount);
    }
    for (const plan::CabinetFound& cabinet : reading.cabinets) {
      set({.family = Family::cold, .of = cabinet.cabinet}, cabinet.chilled_c);
    }
    for (const plan::TyresFound& one : reading.tyres) {
      if (one.spare_wheels)
        set_spares(one.vehicle, reserves::Tyres::wheels_index, *one.spare_wheels);
      if (one.repairs) set_spares(one.vehicle, reserves::Tyres::repairs_index, *one.repairs);
    }
    for (const plan::BankFound& bank : reading.banks) set_charge(bank);
    for (const plan::ContainerFound& one : reading.containers) {
      const plan::Container& can = plan_.water.containers[at(one.container)];
      set_store(Family::drinking_water, -1, one.container,
                found_l(one.found, can.gauge, can.holds_l));
    }
    for (const plan::TankFound& one : reading.tanks) {
      const plan::Tank& tank = plan_.vehicles[at(one.tank.vehicle)].tanks[at(one.tank.tank)];
      set_store(Family::fuel, one.tank.vehicle, one.tank.tank,
                found_l(one.found, tank.gauge, tank.holds_l));
    }
  }

 private:
  void set(ReserveId id, double level) {
    const int reserve = find_reserve(course_, id);
    // What has gone home, or stands elsewhere, nobody can have read.
    const TimeStep& now = course_.timeline->steps[out_.step];
    if (reserve >= 0 && course_.presences[at(now.company)].reserves[at(reserve)] == 0) return;
    if (reserve >= 0) out_.reserves.push_back({.of = reserve, .level = level});
  }

  void set_spares(int vehicle, int index, int count) {
    const auto is_it = [&](const StoreInfo& store) {
      return store.family == Family::tyres && store.of == vehicle && store.index == index;
    };
    const auto found = std::ranges::find_if(course_.stores, is_it);
    if (found == course_.stores.end()) return;
    out_.stores.push_back({.of = static_cast<int>(found - course_.stores.begin()),
                           .level = static_cast<double>(count)});
  }

  void set_charge(const plan::BankFound& found) {
    const ReserveId id{.family = Family::battery, .of = found.bank};
    const int reserve = find_reserve(course_, id);
    if (reserve < 0) return;
    const plan::Bank& bank = plan_.power.banks[at(found.bank)];
    const double capacity_ah = course_.reserves[at(reserve)].capacity;
    double share = found.share.value_or(1);
    if (found.charge_ah) share = *found.charge_ah / capacity_ah;
    if (found.resting_v) {
      const auto kind = static_cast<models::BatteryKind>(bank.kind);
      const auto rests = models::resting_charge(kind, bank.voltage_v, *found.resting_v);
      if (!rests) return;
      share = rests->share;
    }
    set(id, std::min(1.0, share) * capacity_ah);
  }

  /// Of a vehicle's tanks, which are numbered by vehicle; -1 of others.
  void set_store(Family family, int vehicle, int index, double level) {
    const auto is_it = [&](const StoreInfo& store) {
      return store.family == family && store.index == index &&
             (vehicle < 0 || store.vehicle == vehicle);
    };
    const auto found = std::ranges::find_if(course_.stores, is_it);
    if (found == course_.stores.end()) return;
    out_.stores.push_back({.of = static_cast<int>(found - course_.stores.begin()), .level = level});
  }

  const plan::Plan& plan_;
  const CourseBase& course_;
  ReadingInfo& out_;
};

}  // namespace

std::vector<plan::Reading> all_readings(const plan::Plan& plan) {
  std::vector<plan::Reading> out = plan.readings;
  for (const plan::Change& change : plan.changes) {
    if (change.containers.empty() && change.tanks.empty() && change.stores.empty()) continue;
    const plan::Reading none{.day = change.day, .in_the_evening = true, .mark = change.mark};
    auto here = std::ranges::lower_bound(out, none.moment(), {}, &plan::Reading::moment);
    if (here == out.end() || here->moment() != none.moment()) here = out.insert(here, none);
    for (const int lost : change.containers) here->containers.push_back({.container = lost});
    for (const plan::TankReference& lost : change.tanks) here->tanks.push_back({.tank = lost});
  }
  return out;
}

std::vector<ReadingInfo> readings_of(const plan::Plan& plan, const CourseBase& course) {
  std::vector<ReadingInfo> out;
  for (const plan::Reading& reading : all_readings(plan)) {
    ReadingInfo made{.step = step_of(reading, *course.timeline)};
    if (made.step >= course.timeline->steps.size()) {
      if (reading.day >= static_cast<int>(course.timeline->days.size())) break;
      // In the last minutes of the trip: before its last step.
      made.step = course.timeline->steps.size() - 1;
    }
    Maker(plan, course, made).make(reading);
    out.push_back(std::move(made));
  }
  for (const plan::Change& change : plan.changes) {
    const plan::Reading evening{.day = change.day, .in_the_evening = true};
    const auto then =
        std::ranges::find(out, step_of(evening, *course.timeline), &ReadingInfo::step);
    if (then == out.end()) continue;
    for (const plan::ConsumableStoreReference& lost : change.stores) {
      const auto is_it = [&](const StoreInfo& store) {
        return store.family == Family::consumable && store.of == lost.consumable &&
               store.index == lost.store;
      };
      const auto store = std::ranges::find_if(course.stores, is_it);
      if (store == course.stores.end()) continue;
      then->stores.push_back({.of = static_cast<int>(store - course.stores.begin()), .level = 0});
    }
  }
  return out;
}

bool serves(const plan::Plan& plan, const StoreInfo& store, ReserveId reserve) {
  if (reserve.family == Family::fuel) {
    return store.family == Family::fuel && store.vehicle == reserve.of;
  }
  if (reserve.family == Family::tyres) {
    return store.family == Family::tyres && store.of == reserve.of;
  }
  if (store.family != Family::drinking_water) return false;
  const bool drinking = plan.water.containers[at(store.index)].use == plan::WaterUse::drinking;
  if (plan::owner_of(plan, store.vehicle, plan::Stock::water) != reserve.of) return false;
  return reserve.family == (drinking ? Family::drinking_water : Family::utility_water);
}

bool is_lost(const CourseBase& course, const StoreInfo& store) {
  if (store.family == Family::drinking_water) {
    return is_among(course.damage.containers, store.index);
  }
  return store.family == Family::fuel &&
         is_among(course.damage.tanks, plan::TankReference{store.vehicle, store.index});
}

Extent extent_of(const plan::Plan& plan, const CourseBase& course, const ReadingInfo& reading,
                 int reserve) {
  using Level = ReadingInfo::Level;
  if (std::ranges::find(reading.reserves, reserve, &Level::of) != reading.reserves.end()) {
    return Extent::whole;
  }
  bool any = false;
  bool all = true;
  for (std::size_t s = 0; s < course.stores.size(); ++s) {
    const StoreInfo& store = course.stores[s];
    if (!serves(plan, store, course.reserves[at(reserve)].id) || is_lost(course, store)) continue;
    const bool read =
        std::ranges::find(reading.stores, static_cast<int>(s), &Level::of) != reading.stores.end();
    any = any || read;
    all = all && read;
  }
  if (!any) return Extent::nothing;
  return all ? Extent::whole : Extent::some;
}

double found_l(const plan::Found& found, const plan::Gauge& gauge, double holds_l) {
  return found.depth_m ? dipped_l(gauge, holds_l, *found.depth_m) : found.amount;
}

}  // namespace drystage::engine
