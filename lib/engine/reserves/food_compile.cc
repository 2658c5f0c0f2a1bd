// Making food ready to step.

#include <algorithm>
#include <optional>
#include <string>

#include "engine/reserves/food.h"
#include "engine/spots.h"
#include "models/food_properties.h"
#include "models/spoilage.h"
#include "plan/food_kinds.h"
#include "plan/own.h"
#include "units/index.h"

namespace drystage::engine::reserves {
namespace {

using plan::Commodity;

Food::Item compile_item(const plan::Plan& plan, int index, CourseBase& course) {
  const plan::FoodItem& item = plan.food[at(index)];
  const double meal_kj = course.timeline->meal_kj;
  double meals = item.meals;
  if (meals <= 0 && item.energy_kj_kg && meal_kj > 0) {
    meals = item.mass_kg * *item.energy_kj_kg / meal_kj;
  }
  const plan::Keeps life = plan::shelf_life(item);
  Food::Item out{
      .cabinet = item.cabinet,
      .kept = item.kept,
      .full_meals = meals,
      .kg_per_meal = meals > 0 ? item.mass_kg / meals : 0,
      .kj_k_per_kg = models::food_thermal(item.water_fraction).above_kj_kg_k,
      .ageing_at_0c_per_h =
          life.life_days > 0 ? models::shelf_life_used_per_h(0, life.life_days, life.at_c) : 0,
      .hazardous = item.potentially_hazardous,
      .bought_at_c = item.bought_at_c};
  out.store = add_store(course, {.name = item.name,
                                 .kind = units::Kind::meals,
                                 .capacity = meals,
                                 .initial = meals,
                                 .kg_per_unit = out.kg_per_meal,
                                 .vehicle = carrier(plan, course.damage, item.vehicle),
                                 .spot = spot_of(plan, course.damage, item),
                                 .family = Family::food,
                                 .index = index});
  return out;
}

/// Where bought meals go: room for all that are ordered by number, and where an order asks for what
/// is needed, for the whole trip and its margin. It is there even when nothing is ordered, so that
/// plans which differ in their stops alone have the same stores.
/// `goes_into`: the pool that has it now. That is another one where its vehicle was left behind.
void add_bought(const plan::Plan& plan, std::size_t number, Food::Pool& pool, Food::Pool& goes_into,
                CourseBase& course) {
  double room = 0;
  bool needed = false;
  for (const OrderInfo& order : course.orders) {
    if (order.reserve != pool.reserve) continue;
    if (order.order.take == plan::Take::amount) room += order.order.amount;
    needed = needed || order.order.take == plan::Take::needed;
  }
  if (needed) {
    const MarginRule& rule = course.reserves[at(pool.reserve)].margin;
    const bool own = !pool.needs.empty();
    room += rule.fixed + rule.days * (own ? pool.needs.front().meals_day
                                          : course.timeline->place_days.front().meals);
    for (const TimeStep& step : course.timeline->steps) {
      room += own ? pool.needs[step.index].meals : step.meals;
    }
  }
  if (&goes_into == &pool) pool.bought = static_cast<int>(pool.items.size());
  Food::Item bought{.number = number, .kg_per_meal = bought_kg_per_meal, .hazardous = false};
  const int vehicle = pool.owner < 0 ? plan::common_vehicle(plan, plan::Stock::food)
                                     : carrier(plan, course.damage, pool.owner);
  bought.store = add_store(
      course, {.name = pool.owner < 0 ? "bought food"
                                      : "bought food of " + plan.vehicles[at(pool.owner)].name,
               .kind = units::Kind::meals,
               .capacity = room,
               .kg_per_unit = bought_kg_per_meal,
               .vehicle = vehicle,
               .spot = spot_of_bought(plan, vehicle),
               .family = Family::food});
  goes_into.items.push_back(bought);
}

/// The reserve of a pool.
void add_food(const plan::Plan& plan, Food::Pool& pool, CourseBase& course) {
  double capacity = 0;
  for (const Food::Item& item : pool.items) capacity += item.full_meals;
  const bool own = pool.owner >= 0;
  const std::string owner = own ? plan.vehicles[at(pool.owner)].name : "";
  pool.reserve = add_reserve(course, plan,
                             {.id = {.family = Family::food, .of = pool.owner},
                              .owner = owner,
                              .title = own ? "Food " + owner : "Food",
                              .kind = units::Kind::meals,
                              .capacity = capacity,
                              .commodity = Commodity::food,
                              .vehicle = own ? std::optional(pool.owner) : std::nullopt});
  ask_nothing_if_unused(plan, course, pool.reserve);
}

}  // namespace

Food::Compiled Food::compile(const plan::Plan& plan, CourseBase& course) {
  Compiled compiled;
  if (!plan.plans_food) return compiled;
  for (const int owner : plan::owners(plan, plan::Stock::food)) {
    compiled.pools.push_back({.number = compiled.pools.size(), .owner = owner, .items = {}});
  }
  const auto pool_of = [&](int vehicle) -> Pool& {
    const int owner = owner_now(plan, course.damage, vehicle, plan::Stock::food);
    return *std::ranges::find(compiled.pools, owner, &Pool::owner);
  };
  for (std::size_t i = 0; i < plan.food.size(); ++i) {
    Item item = compile_item(plan, static_cast<int>(i), course);
    item.number = i;
    pool_of(plan.food[i].vehicle).items.push_back(item);
  }
  for (Pool& pool : compiled.pools) {
    add_food(plan, pool, course);
    if (compiled.pools.size() > 1) pool.needs = own_meals(plan, course, pool.owner);
  }
  for (OrderInfo& order : course.orders) {
    if (order.order.commodity != Commodity::food) continue;
    order.reserve =
        (order.order.vehicle ? pool_of(*order.order.vehicle) : compiled.pools.front()).reserve;
  }
  std::size_t number = plan.food.size();
  for (Pool& pool : compiled.pools) {
    add_bought(plan, number++, pool, pool.owner < 0 ? pool : pool_of(pool.owner), course);
  }
  return compiled;
}

}  // namespace drystage::engine::reserves
