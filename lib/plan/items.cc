#include "plan/items.h"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

namespace drystage::plan {
namespace {

class Collection {
 public:
  void add(Item item) {
    const auto is_it = [&](const Item& other) {
      return other.sort == item.sort && other.full_name == item.full_name;
    };
    if (std::ranges::none_of(items_, is_it)) items_.push_back(std::move(item));
  }

  /// Things of one sort, each `under` the same word and a stroke where its full name is wanted.
  template <class Things>
  void add_all(Item::Sort sort, const char* under, const Things& things) {
    for (std::size_t i = 0; i < things.size(); ++i) {
      add({.sort = sort,
           .index = static_cast<int>(i),
           .name = things[i].name,
           .full_name = fmt::format("{}/{}", under, things[i].name)});
    }
  }

  void add_tanks(const Vehicle& vehicle, int index) {
    for (std::size_t t = 0; t < vehicle.tanks.size(); ++t) {
      const std::string& name = vehicle.tanks[t].name;
      add({.sort = Item::Sort::tank,
           .index = static_cast<int>(t),
           .of = index,
           .name = name,
           .full_name = fmt::format("{}/{}", vehicle.name, name)});
    }
  }

  void add_stores(const Consumable& consumable, int index) {
    for (std::size_t s = 0; s < consumable.stores.size(); ++s) {
      const std::string& name = consumable.stores[s].name;
      add({.sort = Item::Sort::store,
           .index = static_cast<int>(s),
           .of = index,
           .name = name,
           .full_name = fmt::format("{}/{}", consumable.name, name)});
    }
  }

  void add_panels(const std::vector<Charger>& chargers) {
    for (std::size_t i = 0; i < chargers.size(); ++i) {
      if (chargers[i].kind != ChargerKind::solar) continue;
      add({.sort = Item::Sort::panel,
           .index = static_cast<int>(i),
           .name = chargers[i].name,
           .full_name = "charging/" + chargers[i].name});
    }
  }

  std::vector<Item> take() { return std::move(items_); }

 private:
  std::vector<Item> items_;
};

}  // namespace

std::vector<Item> items_of(const Plan& plan) {
  Collection all;
  all.add_all(Item::Sort::container, "water", plan.water.containers);
  for (std::size_t v = 0; v < plan.vehicles.size(); ++v) {
    all.add_tanks(plan.vehicles[v], static_cast<int>(v));
  }
  all.add_all(Item::Sort::battery, "batteries", plan.power.banks);
  all.add_panels(plan.power.chargers);
  all.add_all(Item::Sort::cabinet, "cold", plan.cold);
  all.add_all(Item::Sort::food, "food", plan.food);
  for (std::size_t c = 0; c < plan.consumables.size(); ++c) {
    all.add_stores(plan.consumables[c], static_cast<int>(c));
  }
  return all.take();
}

std::vector<Item> items_called(const std::vector<Item>& items, const std::string& name) {
  std::vector<Item> found;
  for (const Item& item : items) {
    if (item.name == name || item.full_name == name) found.push_back(item);
  }
  return found;
}

std::vector<std::string> shortest_names(const std::vector<Item>& items) {
  std::vector<std::string> made;
  made.reserve(items.size());
  for (const Item& item : items) {
    const bool alone = std::ranges::count(items, item.name, &Item::name) == 1;
    made.push_back(alone ? item.name : item.full_name);
  }
  return made;
}

}  // namespace drystage::plan
