#include <algorithm>

#include "engine/own_stock.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

using plan::ConsumableStoreReference;
using plan::TankReference;

bool has_joined(const std::vector<char>& parted, int vehicle) {
  return vehicle < 0 || at(vehicle) >= parted.size() || parted[at(vehicle)] == 0;
}

bool drives_along(const Company& company, int vehicle) {
  return vehicle < 0 || at(vehicle) >= company.vehicles.size() ||
         company.vehicles[at(vehicle)] != 0;
}

bool names(const plan::Things& left, const StoreInfo& store) {
  switch (store.family) {
    case Family::drinking_water:
      return is_among(left.containers, store.index);
    case Family::fuel:
      return is_among(left.tanks, TankReference{.vehicle = store.of, .tank = store.index});
    case Family::consumable:
      return is_among(left.stores,
                      ConsumableStoreReference{.consumable = store.of, .store = store.index});
    default:
      return false;
  }
}

/// Fuel and spare wheels serve their vehicle, which must drive along; what is cold and charged is
/// kept also where a vehicle stands. Water and food serve whoever uses them.
bool is_judged(const plan::Plan& plan, const CourseBase& course, const Company& company,
               const ReserveInfo& reserve) {
  switch (reserve.id.family) {
    case Family::fuel:
    case Family::tyres:
      return drives_along(company, reserve.id.of);
    case Family::drinking_water:
    case Family::utility_water:
    case Family::food:
      return is_used(plan, course, company, reserve.id) || !is_ever_used(plan, course, reserve.id);
    case Family::battery:
      return has_joined(company.parted, plan.power.banks[at(reserve.id.of)].vehicle);
    case Family::cold:
      return has_joined(company.parted, plan.cold[at(reserve.id.of)].vehicle);
    default:
      return true;
  }
}

/// Adds and takes away what people and empty cans weigh, against what a course counts.
void add_masses(const plan::Plan& plan, const CourseBase& course, const Company& company,
                std::vector<double>& more_kg) {
  const auto add = [&more_kg](int vehicle, double kg) {
    if (vehicle >= 0 && at(vehicle) < more_kg.size()) more_kg[at(vehicle)] += kg;
  };
  for (std::size_t p = 0; p < plan.people.size(); ++p) {
    const int counted_in = carrier(plan, course.damage, plan.people[p].vehicle);
    const int own = ride_of(plan, company, p);
    const int rides_in = own < 0 ? -1 : carrier(plan, course.damage, own);
    if (rides_in == counted_in) continue;
    add(counted_in, -plan.people[p].mass_kg);
    add(rides_in, plan.people[p].mass_kg);
  }
  for (const StoreInfo& store : course.stores) {
    if (is_left(plan, company, store)) add(store.vehicle, -own_kg(store));
  }
}

}  // namespace

bool is_left(const plan::Plan& plan, const Company& company, const StoreInfo& store) {
  return std::ranges::any_of(company.left_by, [&](int drive) {
    return names(std::get<plan::Drive>(plan.itinerary[at(drive)]).leaves, store);
  });
}

std::vector<Presence> presences_of(const plan::Plan& plan, const CourseBase& course) {
  std::vector<Presence> out;
  for (const Company& company : course.timeline->companies) {
    Presence& made = out.emplace_back();
    for (const StoreInfo& store : course.stores) {
      // A battery keeps its charge in a vehicle that stands; the heat of a cabinet is in none.
      const bool drives = store.family == Family::battery || store.family == Family::cold ||
                          drives_along(company, store.vehicle);
      made.stores.push_back(drives && !is_left(plan, company, store) ? 1 : 0);
      made.apart.push_back(has_joined(company.parted, store.vehicle) ? 0 : 1);
    }
    for (const ReserveInfo& reserve : course.reserves) {
      made.reserves.push_back(is_judged(plan, course, company, reserve) ? 1 : 0);
    }
    made.more_kg.assign(course.vehicle_kg.size(), 0);
    for (std::size_t v = 0; v < course.vehicle_kg.size(); ++v) {
      const auto& trailer = plan.vehicles[v].trailer;
      made.ball_kg.push_back(trailer && company.trailers[v] == 0 ? trailer->on_ball_kg() : 0);
    }
    add_masses(plan, course, company, made.more_kg);
  }
  return out;
}

}  // namespace drystage::engine
