// What is decided about food: so many days of an item of dry food.

#include <fmt/core.h>

#include <algorithm>
#include <memory>
#include <string>

#include "answers/offers/decision.h"
#include "engine/reserves/food.h"
#include "engine/usual_sizes.h"
#include "plan/own.h"
#include "plan/values.h"
#include "units/index.h"

namespace drystage::answers {
namespace {

constexpr double meals_a_person = 3;

/// An item of dry food taken by the day, and what the plan has of it.
struct DryFood {
  plan::FoodOffer offer;
  double kg_day = 0;
  double space_l_day = 0;
  int vehicle = 0;
  int owner = -1;  ///< of the food in that vehicle (plan::owners)
  std::size_t vehicles = 1;
  double planned_meals = 0;
  double planned_kg = 0;
};

void stock(plan::Plan& plan, const DryFood& larder, int days) {
  const double meals = days * larder.offer.meals_day;
  const double kg = hundredths_up(days * larder.kg_day);
  const auto item = std::ranges::find(plan.food, larder.offer.item, &plan::FoodItem::name);
  if (days == 0) {
    if (item != plan.food.end()) plan.food.erase(item);
  } else if (item != plan.food.end()) {
    item->meals = meals;
    item->mass_kg = kg;
  } else {
    plan.food.push_back({.name = larder.offer.item,
                         .kept = plan::Kept::dry,
                         .mass_kg = kg,
                         .meals = meals,
                         .water_fraction = plan::usual_water(plan::Kept::dry),
                         .potentially_hazardous = false,
                         .vehicle = larder.vehicle});
  }
}

Choice choice_of(const std::shared_ptr<const DryFood>& larder, int days) {
  const std::string rest =
      fmt::format(" of {} ({:g} meals)", larder->offer.item, larder->offer.meals_day);
  const double kg = hundredths_up(days * larder->kg_day);
  Choice out{.taken = {days},
             .amount = days * larder->offer.meals_day,
             .load_kg = std::vector<double>(larder->vehicles, 0),
             .totals = {.kg = kg,
                        .cost = days * larder->offer.cost.value_or(0),
                        .space_l = days * larder->space_l_day}};
  out.load_kg[at(larder->vehicle)] = kg;
  out.lines.push_back({.one = "day" + rest,
                       .many = "days" + rest,
                       .plan_amount = larder->planned_meals / larder->offer.meals_day,
                       .amount = static_cast<double>(days),
                       .unit = "days",
                       .of = larder->offer.item,
                       .each = 1,
                       .plan_kg = larder->planned_kg,
                       .kg = kg,
                       .cost = out.totals.cost,
                       .space_l = out.totals.space_l});
  out.apply = [larder, days](plan::Plan& plan) { stock(plan, *larder, days); };
  return out;
}

Decision decide(const std::shared_ptr<const DryFood>& larder, Least least) {
  Decision out{.sort = Decision::Sort::store,
               .reserve = {engine::Family::food, larder->owner},
               .item = larder->offer.item};
  static const auto usual_days =
      static_cast<int>(plan::default_number("size.food.most").value() / 24);
  const int most = larder->offer.most_days.value_or(usual_days);
  for (int days = 0; days <= most; ++days) out.choices.push_back(choice_of(larder, days));
  sort_choices(out.choices, least);
  const double planned_days = larder->planned_meals / larder->offer.meals_day;
  out.planned = {.kg = larder->planned_kg,
                 .cost = planned_days * larder->offer.cost.value_or(0),
                 .space_l = planned_days * larder->space_l_day};
  out.one_fewer = [larder](const Choice& choice, std::size_t) -> std::optional<Choice> {
    if (choice.taken[0] == 0) return std::nullopt;
    return choice_of(larder, choice.taken[0] - 1);
  };
  return out;
}

/// `owner`: whose a new item is.
DryFood larder_of(const plan::Plan& plan, const plan::FoodOffer& offer, int owner) {
  DryFood larder{.offer = offer,
                 .vehicle = owner < 0 ? plan::common_vehicle(plan, plan::Stock::food) : owner,
                 .vehicles = std::max<std::size_t>(plan.vehicles.size(), 1)};
  double kg_meal = engine::reserves::bought_kg_per_meal;
  const auto item = std::ranges::find(plan.food, offer.item, &plan::FoodItem::name);
  if (item != plan.food.end()) {
    larder.vehicle = item->vehicle;
    larder.planned_meals = item->meals;
    larder.planned_kg = item->mass_kg;
    if (item->mass_kg > 0 && item->meals > 0) kg_meal = item->mass_kg / item->meals;
  }
  larder.owner = plan::owner_of(plan, larder.vehicle, plan::Stock::food);
  larder.kg_day = offer.kg_day.value_or(kg_meal * offer.meals_day);
  larder.space_l_day = offer.space_l.value_or(engine::usual_meal_space_l * offer.meals_day);
  return larder;
}

/// What may usually change of an owner's: the item of dry food of which there is most, else a new
/// one.
plan::FoodOffer usual_offer(const plan::Plan& plan, int owner) {
  const auto is_its = [&](int vehicle) {
    return plan::owner_of(plan, vehicle, plan::Stock::food) == owner;
  };
  const auto people = std::ranges::count_if(
      plan.people, [&](const plan::Person& person) { return is_its(person.vehicle); });
  plan::FoodOffer offer{
      .item = owner < 0 ? "dry food" : "dry food of " + plan.vehicles[at(owner)].name,
      .meals_day = meals_a_person * static_cast<double>(std::max<std::ptrdiff_t>(people, 1))};
  double most = 0;
  for (const plan::FoodItem& item : plan.food) {
    if (item.kept != plan::Kept::dry || item.meals <= most || item.energy_kj_kg) continue;
    if (!is_its(item.vehicle)) continue;
    most = item.meals;
    offer.item = item.name;
  }
  return offer;
}

}  // namespace

std::vector<Decision> food_decisions(const plan::Plan& plan, Least least) {
  std::vector<Decision> out;
  const auto add = [&](const plan::FoodOffer& offer, int owner) {
    const auto item = std::ranges::find(plan.food, offer.item, &plan::FoodItem::name);
    const int index = static_cast<int>(item - plan.food.begin());
    if (item != plan.food.end() && is_kept(plan, plan::Item::Sort::food, index)) return;
    out.push_back(decide(std::make_shared<const DryFood>(larder_of(plan, offer, owner)), least));
  };
  for (const plan::FoodOffer& offer : plan.size.food) add(offer, -1);
  if (plan.size.lists_offers() || !plan.plans_food) return out;
  for (const int owner : plan::owners(plan, plan::Stock::food)) {
    add(usual_offer(plan, owner), owner);
  }
  return out;
}

}  // namespace drystage::answers
