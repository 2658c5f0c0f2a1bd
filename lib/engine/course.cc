#include "engine/course.h"

#include <algorithm>
#include <utility>

#include "engine/opening.h"

namespace drystage::engine {
namespace {

/// Fuel is taken vehicle by vehicle, each an order of its own; anything else as it stands.
void add_by_vehicle(CourseBase& course, const plan::Plan& plan, const OrderInfo& info) {
  const bool diesel = info.order.commodity == plan::Commodity::diesel;
  if ((!diesel && info.order.commodity != plan::Commodity::petrol) || info.order.vehicle) {
    course.orders.push_back(info);
    return;
  }
  const plan::FuelKind fuel = diesel ? plan::FuelKind::diesel : plan::FuelKind::petrol;
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    if (plan.vehicles[v].fuel != fuel) continue;
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
    const int place = timeline.place_days[static_cast<std::size_t>(step.place_day)].place;
    if (place < 0) continue;
    const auto& supplies = plan.places[static_cast<std::size_t>(place)].supplies;
    const plan::Date date = timeline.days[static_cast<std::size_t>(step.day)].schedule.date;
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
      add_by_vehicle(course, plan, info);
    }
  }
}

void add_masses(CourseBase& course, const plan::Plan& plan) {
  for (const plan::Vehicle& vehicle : plan.vehicles) {
    double kg = vehicle.empty_kg + vehicle.gear_kg;
    for (const plan::Tank& tank : vehicle.tanks) kg += tank.empty_kg;
    course.vehicle_kg.push_back(kg);
    course.vehicle_limit_kg.push_back(vehicle.limit_kg.value_or(without_limit));
  }
  const auto carry = [&](int vehicle, double kg) {
    const auto index = static_cast<std::size_t>(vehicle);
    if (vehicle >= 0 && index < course.vehicle_kg.size()) course.vehicle_kg[index] += kg;
  };
  for (const plan::Person& person : plan.people) carry(person.vehicle, person.mass_kg);
  for (const plan::Container& can : plan.water.containers) carry(can.vehicle, can.empty_kg);
  for (const plan::Bank& bank : plan.power.banks) carry(bank.vehicle, bank.mass_kg);
  for (const plan::Cabinet& cabinet : plan.cold) carry(cabinet.vehicle, cabinet.mass_kg);
  for (const plan::Charger& charger : plan.power.chargers) {
    const auto bank = static_cast<std::size_t>(charger.bank);
    if (bank < plan.power.banks.size()) carry(plan.power.banks[bank].vehicle, charger.mass_kg);
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
         reserve.unit != "Ah";
}

}  // namespace

int add_store(CourseBase& course, StoreInfo store) {
  course.stores.push_back(std::move(store));
  return static_cast<int>(course.stores.size()) - 1;
}

std::string family(const std::string& reserve_name) {
  return reserve_name.substr(0, reserve_name.find(':'));
}

int add_reserve(CourseBase& course, const plan::Plan& plan, ReserveInfo reserve,
                const plan::Margin& usual) {
  auto margin = plan.margins.find(reserve.name);
  if (margin == plan.margins.end()) margin = plan.margins.find(family(reserve.name));
  reserve.margin = rule_of(margin == plan.margins.end() ? usual : margin->second, reserve);
  if (takes_days(reserve)) {
    reserve.margin.days = std::max(0.0, reserve.margin.days + plan.more_margin_days);
  }
  course.reserves.push_back(std::move(reserve));
  return static_cast<int>(course.reserves.size()) - 1;
}

CourseBase base_course(const plan::Plan& plan, std::shared_ptr<const Timeline> timeline,
                       std::size_t first_step) {
  CourseBase course;
  course.first_step = first_step;
  course.timeline = std::move(timeline);
  course.events = course.timeline->events;
  course.cabinets = plan.cold.size();
  course.chargers = plan.power.chargers.size();
  add_orders(course, plan);
  add_masses(course, plan);
  return course;
}

}  // namespace drystage::engine
