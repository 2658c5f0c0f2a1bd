#include "plan/same_plan.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <variant>

#include "plan/key_values.h"
#include "units/text.h"

namespace drystage::plan {
namespace {

bool same_value(const KeyValue& a, const KeyValue& b) {
  const auto* x = std::get_if<double>(&a.said);
  const auto* y = std::get_if<double>(&b.said);
  if (x == nullptr || y == nullptr) return a.said == b.said;
  return a.unit == b.unit && std::abs(*x - *y) <= 1e-12 * std::max(std::abs(*x), std::abs(*y));
}

void drop(Node& map, std::string_view key) {
  std::erase_if(map.entries, [key](const Entry& entry) { return entry.key == key; });
}

Node without_lists(Node root) {
  // The offers of batteries may come to say their kinds.
  constexpr std::array<std::pair<const char*, const char*>, 6> lists{{{"water", "containers"},
                                                                      {"power", "batteries"},
                                                                      {"power", "charging"},
                                                                      {"vehicles", "tanks"},
                                                                      {"consumables", "stores"},
                                                                      {"size", "batteries"}}};
  for (const auto& [section, key] : lists) {
    Node* at = root.find(section);
    if (at == nullptr) continue;
    for (Node& item : at->items) drop(item, key);
    drop(*at, key);
    if (at->items.empty() && at->entries.empty()) drop(root, section);
  }
  drop(root, "cold");
  drop(root, "food");
  if (Node* vehicles = root.find("vehicles")) {
    for (Node& vehicle : vehicles->items) {
      if (Node* tyres = vehicle.find("tyres")) drop(*tyres, "spare_wheels");
    }
  }
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
  const auto lists_a = keyed_lists(a);
  const auto lists_b = keyed_lists(b);
  if (lists_a.size() != lists_b.size()) return "vehicles or consumables";
  for (std::size_t l = 0; l < lists_a.size(); ++l) {
    const auto& x = lists_a[l].things;
    const auto& y = lists_b[l].things;
    const auto found =
        std::ranges::mismatch(x, y, [](const KeyedThing& one, const KeyedThing& two) {
          return one.name == two.name && std::ranges::equal(one.values, two.values, same_value);
        });
    if (found.in1 == x.end() && found.in2 == y.end()) continue;
    const auto name = [](auto at, const auto& things) {
      return at == things.end() ? "none" : units::in_quotes(at->name);
    };
    return fmt::format("{}: {} in place of {}", lists_a[l].sort, name(found.in1, x),
                       name(found.in2, y));
  }
  const auto spare_wheels = [](const Vehicle& vehicle) {
    return vehicle.tyres ? std::optional(vehicle.tyres->spare_wheels) : std::nullopt;
  };
  if (!std::ranges::equal(a.vehicles, b.vehicles, {}, spare_wheels, spare_wheels)) {
    return "spare wheels";
  }
  return {};
}

bool same_besides(const Node& a, const Node& b) {
  return same_node(without_lists(a), without_lists(b));
}

}  // namespace drystage::plan
