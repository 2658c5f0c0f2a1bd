#include "engine/course.h"

#include <algorithm>
#include <utility>

#include "engine/opening.h"
#include "plan/own.h"
#include "units/index.h"

namespace drystage::engine {
namespace {

/// What of a commodity vehicles may keep for themselves.
std::optional<plan::Stock> stock_of(plan::Commodity commodity) {
  if (commodity == plan::Commodity::food) return plan::Stock::food;
  const bool water =
      commodity == plan::Commodity::drinking_water || commodity == plan::Commodity::utility_water;
  return water ? std::optional(plan::Stock::water) : std::nullopt;
}

/// The common stock takes first, then each vehicle that keeps its own and is there.
void add_by_owner(CourseBase& course, const plan::Plan& plan, const OrderInfo& info,
                  const Company& company, plan::Stock stock) {
  const std::vector<int> all = plan::owners(plan, stock);
  for (const int owner : all) {
    if (owner >= 0 && company.vehicles[at(owner)] == 0) continue;
    OrderInfo one = info;
    one.shared = all.size() > 1;
    if (owner >= 0) one.order.vehicle = owner;
    course.orders.push_back(one);
  }
}

/// Fuel is taken vehicle by vehicle, each an order of its own, and so is water and food that
/// vehicles keep for themselves; anything else as it stands. A vehicle that is not there takes
/// none.
void add_by_vehicle(CourseBase& course, const plan::Plan& plan, const OrderInfo& info,
                    const Company& company) {
  if (info.order.vehicle && company.vehicles[at(*info.order.vehicle)] == 0) return;
  if (const auto stock = stock_of(info.order.commodity)) {
    add_by_owner(course, plan, info, company, *stock);
    return;
  }
  const bool diesel = info.order.commodity == plan::Commodity::diesel;
  if ((!diesel && info.order.commodity != plan::Commodity::petrol) || info.order.vehicle) {
    course.orders.push_back(info);
    return;
  }
  const plan::FuelKind fuel = diesel ? plan::FuelKind::diesel : plan::FuelKind::petrol;
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    if (plan.vehicles[v].fuel != fuel || company.vehicles[v] == 0) continue;
    OrderInfo one = info;
    one.order.vehicle = static_cast<int>(v);
    one.shared = true;
    course.orders.push_back(one);
  }
}

/// Where and when each resupply of the itinerary happens.
void add_orders(CourseBase& course, const plan::Plan& plan) {
  course.first_order.assign(plan.itinerary.size(), -1);
  const Timeline& timeline = *course.timeline;
  int visit = 0;
  for (const TimeStep& step : timeline.steps) {
    if (step.drive >= 0) ++visit;
    if (step.stop < 0) continue;
    const auto item = static_cast<std::size_t>(step.stop);
    const auto& resupply = std::get<plan::Resupply>(plan.itinerary[item]);
    const int place = timeline.place_days[at(step.place_day)].place;
    if (place < 0) continue;
    const auto& supplies = plan.places[at(place)].supplies;
    const plan::Date date = timeline.days[at(step.day)].schedule.date;
    course.first_order[item] = static_cast<int>(course.orders.size());
    for (const plan::Order& order : resupply.orders) {
      const auto supply = std::ranges::find(supplies, order.commodity, &plan::Supply::commodity);
      if (supply == supplies.end()) continue;
      const OrderInfo info{.order = order,
                           .supply = *supply,
                           .item = step.stop,
                           .place = place,
                           .visit = visit,
                           .day = step.day,
                           .hour = step.from_h,
                           .open = is_open(*supply, date),
                           .cleaned = resupply.cleaned};
      const Event event{.kind = info.open ? EventKind::unconfirmed : EventKind::shut,
                        .day = static_cast<std::int16_t>(step.day),
                        .hour = step.from_h,
                        .subject = static_cast<int>(course.orders.size())};
      if (!info.open || !supply->confirmed) course.events.push_back(event);
      add_by_vehicle(course, plan, info, timeline.companies[at(step.company)]);
    }
  }
}

/// Adds to what a vehicle weighs, whatever is in its stores. What is in no vehicle weighs nothing.
void carry(CourseBase& course, int vehicle, double kg) {
  const auto index = static_cast<std::size_t>(vehicle);
  if (vehicle >= 0 && index < course.vehicle_kg.size()) course.vehicle_kg[index] += kg;
}

/// Vehicles, gear and people. What is loaded besides comes with the families.
void add_masses(CourseBase& course, const plan::Plan& plan) {
  for (const plan::Vehicle& vehicle : plan.vehicles) {
    course.vehicle_kg.push_back(vehicle.empty_kg + vehicle.gear_kg);
    course.vehicle_limit_kg.push_back(vehicle.limit_kg.value_or(without_limit));
  }
  for (const plan::Person& person : plan.people) {
    carry(course, carrier(plan, course.damage, person.vehicle), person.mass_kg);
  }
}

MarginRule rule_of(const plan::Margin& margin, const ReserveInfo& reserve) {
  switch (margin.kind) {
    case plan::MarginKind::share:
      return {.fixed = margin.value * reserve.capacity};
    case plan::MarginKind::days:
      return {.fixed = reserve.empty_at, .days = margin.value};
    case plan::MarginKind::distance_km:
      return {.fixed = reserve.empty_at, .km = margin.value};
    case plan::MarginKind::amount:
    case plan::MarginKind::temperature_c:
      break;
  }
  return {.fixed = margin.value};
}

/// Whether days of its use can be added to a margin: not to a distance, a temperature or the charge
/// of a battery, which does not last by the day.
bool takes_days(const ReserveInfo& reserve) {
  return reserve.endurance == Endurance::days && reserve.sense == Sense::keep_above &&
         !is_bank(reserve);
}

}  // namespace

int add_store(CourseBase& course, StoreInfo store) {
  if (store.kind) store.unit = units::canonical_unit(*store.kind);
  carry(course, store.vehicle, own_kg(store));
  course.gets_heavier = course.gets_heavier || (store.fills && store.kg_per_unit > 0);
  course.stores.push_back(std::move(store));
  return static_cast<int>(course.stores.size()) - 1;
}

void add_thing(CourseBase& course, ThingInfo thing) {
  carry(course, thing.vehicle, thing.kg);
  course.things.push_back(std::move(thing));
}

int find_reserve(const CourseBase& course, ReserveId id) {
  const auto found = std::ranges::find(course.reserves, id, &ReserveInfo::id);
  return found == course.reserves.end() ? -1 : static_cast<int>(found - course.reserves.begin());
}

const plan::Margin* margin_of(const plan::Plan& plan, const ReserveInfo& reserve) {
  auto margin = plan.margins.find(reserve.name);
  if (margin == plan.margins.end()) {
    margin = plan.margins.find(std::string(family_name(reserve.id.family)));
  }
  return margin == plan.margins.end() ? nullptr : &margin->second;
}

int add_reserve(CourseBase& course, const plan::Plan& plan, ReserveInfo reserve,
                const plan::Margin& usual) {
  if (reserve.kind) reserve.unit = units::canonical_unit(*reserve.kind);
  if (reserve.id.family != Family::other) {
    reserve.name = family_name(reserve.id.family);
    if (!reserve.owner.empty()) reserve.name += ":" + reserve.owner;
  }
  const plan::Margin* margin = margin_of(plan, reserve);
  reserve.margin = rule_of(margin == nullptr ? usual : *margin, reserve);
  if (takes_days(reserve)) {
    reserve.margin.days = std::max(0.0, reserve.margin.days + course.more_margin_days);
  }
  course.reserves.push_back(std::move(reserve));
  return static_cast<int>(course.reserves.size()) - 1;
}

CourseBase base_course(const plan::Plan& plan, std::shared_ptr<const Timeline> timeline,
                       CourseOptions options) {
  CourseBase course;
  static_cast<CourseOptions&>(course) = std::move(options);
  course.timeline = std::move(timeline);
  course.damage.add_new(lost_on_the_way(plan));
  course.cabinets = plan.cold.size();
  course.chargers = plan.power.chargers.size();
  add_orders(course, plan);
  add_masses(course, plan);
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    for (const plan::Gear& one : plan.vehicles[v].gear) {
      add_thing(
          course,
          {.name = one.name, .vehicle = static_cast<int>(v), .kg = one.mass_kg, .spot = one.spot});
    }
  }
  return course;
}

}  // namespace drystage::engine
