#include "plan/limits.h"

#include <fmt/core.h>

#include <vector>

namespace drystage::plan {

namespace {

/// Where each of them stands.
std::vector<Mark> marks_of_things(const Plan& plan) {
  std::vector<Mark> marks;
  const auto add = [&marks](const auto& things) {
    for (const auto& thing : things) marks.push_back(thing.mark);
  };
  add(plan.water.containers);
  for (const Vehicle& vehicle : plan.vehicles) {
    add(vehicle.tanks);
    add(vehicle.gear);
    if (vehicle.trailer) add(vehicle.trailer->gear);
  }
  add(plan.power.banks);
  add(plan.power.chargers);
  add(plan.cold);
  add(plan.food);
  for (const Consumable& consumable : plan.consumables) add(consumable.stores);
  return marks;
}

}  // namespace

std::size_t things_to_carry(const Plan& plan) { return marks_of_things(plan).size(); }

void refuse_too_many(Log& log, const Plan& plan) {
  const std::vector<Mark> marks = marks_of_things(plan);
  if (marks.size() <= most_to_carry) return;
  log.error(
      {marks[most_to_carry], {}},
      fmt::format("more than {} things to carry: {}", most_to_carry, marks.size()),
      fmt::format("at most {} containers, tanks, batteries, chargers, cabinets, items of food, "
                  "stores and pieces of gear in all",
                  most_to_carry),
      "one can stand for several that are alike: 100 L in place of five times 20 L");
}

}  // namespace drystage::plan
