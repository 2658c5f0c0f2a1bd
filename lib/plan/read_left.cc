#include <fmt/core.h>

#include <algorithm>

#include "plan/cans.h"
#include "plan/items.h"
#include "plan/itinerary_reader.h"
#include "units/index.h"

namespace drystage::plan {
namespace {

// Whatever can be left standing: no fitted tank, and nothing that is inside something else.
std::vector<Item> what_can_be_left(const Plan& plan) {
  std::vector<Item> made;
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    const Vehicle& vehicle = plan.vehicles[v];
    const int index = static_cast<int>(v);
    made.push_back({.sort = Item::Sort::vehicle,
                    .index = index,
                    .name = vehicle.name,
                    .full_name = "vehicles/" + vehicle.name});
    if (!vehicle.trailer) continue;
    made.push_back({.sort = Item::Sort::trailer,
                    .index = index,
                    .name = "trailer",
                    .full_name = vehicle.name + "/trailer"});
  }
  for (const Item& item : items_of(plan)) {
    const bool is_fuel_can =
        item.sort == Item::Sort::tank && is_can(plan.vehicles[at(item.of)].tanks[at(item.index)]);
    if (is_fuel_can || item.sort == Item::Sort::container || item.sort == Item::Sort::store) {
      made.push_back(item);
    }
  }
  return made;
}

void add(Things& things, const Item& item) {
  switch (item.sort) {
    case Item::Sort::vehicle:
      things.vehicles.push_back(item.index);
      break;
    case Item::Sort::trailer:
      things.trailers.push_back(item.index);
      break;
    case Item::Sort::container:
      things.containers.push_back(item.index);
      break;
    case Item::Sort::tank:
      things.tanks.push_back({.vehicle = item.of, .tank = item.index});
      break;
    default:
      things.stores.push_back({.consumable = item.of, .store = item.index});
  }
}

}  // namespace

Things read_left(Fields& fields, Key key, const Plan& plan) {
  Things made;
  const Node* node = fields.get(key);
  if (node == nullptr) return made;
  const std::vector<Item> items = what_can_be_left(plan);
  std::vector<Item> said;
  for (const Node* one : one_or_more(fields.log(), node, key.name())) {
    const auto item = read_item(fields.log(), *one, key.name(), key->value.of, items);
    if (!item) continue;
    if (std::ranges::find(said, *item) != said.end()) {
      fields.log().error(one->origin, fmt::format("{}: {} twice", key.name(), one->text),
                         "each thing once");
      continue;
    }
    said.push_back(*item);
    add(made, *item);
  }
  if (made.vehicles.size() == plan.vehicles.size() && !made.vehicles.empty()) {
    fields.log().error(node->origin, "leaves: every vehicle stays behind",
                       "at least one vehicle that drives");
  }
  return made;
}

}  // namespace drystage::plan
