#include "plan/same_plan.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "units/text.h"

namespace drystage::plan {
namespace {

bool same(double a, double b) {
  return a == b || std::abs(a - b) <= 1e-12 * std::max(std::abs(a), std::abs(b));
}

bool same(const std::optional<double>& a, const std::optional<double>& b) {
  return a.has_value() == b.has_value() && (!a || same(*a, *b));
}

template <class Number, class Thing>
bool same_in(const Thing& a, const Thing& b, std::initializer_list<Number Thing::*> numbers) {
  return std::all_of(numbers.begin(), numbers.end(),
                     [&](Number Thing::*number) { return same(a.*number, b.*number); });
}

bool same(const Container& a, const Container& b) {
  return same_in(a, b, {&Container::holds_l, &Container::filled_l, &Container::empty_kg}) &&
         same(a.position_m, b.position_m) && a.use == b.use && a.quality == b.quality &&
         a.opened_last == b.opened_last && a.vehicle == b.vehicle && a.gauge == b.gauge;
}

bool same(const Tank& a, const Tank& b) {
  return same_in(a, b, {&Tank::holds_l, &Tank::filled_l, &Tank::unusable_l, &Tank::empty_kg}) &&
         same(a.position_m, b.position_m) && a.gauge == b.gauge;
}

bool same(const FoodItem& a, const FoodItem& b) {
  const bool same_life = a.keeps.has_value() == b.keeps.has_value() &&
                         (!a.keeps || (same(a.keeps->life_days, b.keeps->life_days) &&
                                       same(a.keeps->at_c, b.keeps->at_c)));
  return same_life &&
         same_in(a, b,
                 {&FoodItem::mass_kg, &FoodItem::meals, &FoodItem::water_fraction,
                  &FoodItem::starts_at_c, &FoodItem::freezing_c}) &&
         same(a.energy_kj_kg, b.energy_kj_kg) && same(a.bought_at_c, b.bought_at_c) &&
         a.kind == b.kind && a.kept == b.kept && a.cabinet == b.cabinet &&
         a.potentially_hazardous == b.potentially_hazardous && a.vehicle == b.vehicle;
}

bool same(const ConsumableStore& a, const ConsumableStore& b) {
  return same_in(a, b,
                 {&ConsumableStore::holds, &ConsumableStore::filled, &ConsumableStore::empty_kg}) &&
         a.vehicle == b.vehicle;
}

bool same(const Bank& a, const Bank& b) {
  return same_in(a, b,
                 {&Bank::capacity_ah, &Bank::rate_h, &Bank::voltage_v, &Bank::filled, &Bank::floor,
                  &Bank::cut_off, &Bank::mass_kg}) &&
         same(a.peukert, b.peukert) && same(a.efficiency, b.efficiency) && a.kind == b.kind &&
         a.vehicle == b.vehicle;
}

bool same(const Charger& a, const Charger& b) {
  return same_in(a, b,
                 {&Charger::current_a, &Charger::power_w, &Charger::tilt_deg, &Charger::facing_deg,
                  &Charger::loss, &Charger::mass_kg, &Charger::hours_day, &Charger::starts_h,
                  &Charger::uses_l_h}) &&
         same(a.noct_c, b.noct_c) && a.kind == b.kind && a.bank == b.bank && a.fuel == b.fuel &&
         a.vehicle == b.vehicle;
}

bool same(const Cabinet& a, const Cabinet& b) {
  const bool same_part = a.frozen.has_value() == b.frozen.has_value() &&
                         (!a.frozen || (same(a.frozen->barrier_w_k, b.frozen->barrier_w_k) &&
                                        same(a.frozen->wall_share, b.frozen->wall_share) &&
                                        same(a.frozen->set_point_c, b.frozen->set_point_c)));
  const bool same_lid = a.lid.has_value() == b.lid.has_value() &&
                        (!a.lid || (same(a.lid->openings_day, b.lid->openings_day) &&
                                    same(a.lid->warm_l_day, b.lid->warm_l_day)));
  return same_part && same_lid &&
         same_in(a, b,
                 {&Cabinet::volume_l, &Cabinet::mass_kg, &Cabinet::set_point_c,
                  &Cabinet::starts_at_c, &Cabinet::rated_draw_w, &Cabinet::rated_ambient_c,
                  &Cabinet::rated_inside_c, &Cabinet::ice_kg, &Cabinet::above_ambient_k}) &&
         same_in(a, b, {&Cabinet::running_w, &Cabinet::heat_leak_w_k}) && a.ice_box == b.ice_box &&
         a.above_ambient_while == b.above_ambient_while && a.bank == b.bank &&
         a.vehicle == b.vehicle;
}

template <class Thing>
std::string first_difference(const char* sort, const std::vector<Thing>& a,
                             const std::vector<Thing>& b) {
  if (a.size() != b.size()) return fmt::format("{}: {} in place of {}", sort, a.size(), b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (a[i].name == b[i].name && same(a[i], b[i])) continue;
    return fmt::format("{}: {} in place of {}", sort, units::in_quotes(a[i].name),
                       units::in_quotes(b[i].name));
  }
  return {};
}

void drop(Node& map, std::string_view key) {
  std::erase_if(map.entries, [key](const Entry& entry) { return entry.key == key; });
}

Node without_lists(Node root) {
  if (Node* water = root.find("water")) drop(*water, "containers");
  if (Node* power = root.find("power")) {
    drop(*power, "batteries");
    drop(*power, "charging");
  }
  if (Node* vehicles = root.find("vehicles")) {
    for (Node& vehicle : vehicles->items) drop(vehicle, "tanks");
  }
  if (Node* consumables = root.find("consumables")) {
    for (Node& consumable : consumables->items) drop(consumable, "stores");
  }
  for (const std::string_view section : {"water", "power"}) {
    const Node* left = root.find(section);
    if (left != nullptr && left->entries.empty()) drop(root, section);
  }
  if (Node* size = root.find("size")) drop(*size, "batteries");  // may come to say their kinds
  drop(root, "cold");
  drop(root, "food");
  return root;
}

}  // namespace

bool same_node(const Node& a, const Node& b) {
  return a.kind == b.kind && a.text == b.text &&
         std::equal(a.items.begin(), a.items.end(), b.items.begin(), b.items.end(), same_node) &&
         std::equal(a.entries.begin(), a.entries.end(), b.entries.begin(), b.entries.end(),
                    [](const Entry& x, const Entry& y) {
                      return x.key == y.key && same_node(x.value, y.value);
                    });
}

std::string difference(const Plan& a, const Plan& b) {
  std::string found = first_difference("containers", a.water.containers, b.water.containers);
  if (found.empty() && a.vehicles.size() != b.vehicles.size()) found = "vehicles";
  for (std::size_t v = 0; found.empty() && v < a.vehicles.size(); ++v) {
    found = first_difference("tanks", a.vehicles[v].tanks, b.vehicles[v].tanks);
  }
  if (found.empty() && a.consumables.size() != b.consumables.size()) found = "consumables";
  for (std::size_t c = 0; found.empty() && c < a.consumables.size(); ++c) {
    found = first_difference("stores", a.consumables[c].stores, b.consumables[c].stores);
  }
  if (found.empty()) found = first_difference("cabinets", a.cold, b.cold);
  if (found.empty()) found = first_difference("items of food", a.food, b.food);
  if (found.empty()) found = first_difference("batteries", a.power.banks, b.power.banks);
  if (found.empty()) found = first_difference("chargers", a.power.chargers, b.power.chargers);
  return found;
}

bool same_besides(const Node& a, const Node& b) {
  return same_node(without_lists(a), without_lists(b));
}

}  // namespace drystage::plan
