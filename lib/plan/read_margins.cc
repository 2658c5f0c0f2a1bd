#include <fmt/core.h>

#include <algorithm>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

using units::Kind;

constexpr std::array<Key, 7> families{
    "margins.drinking_water", "margins.utility_water", "margins.fuel", "margins.food",
    "margins.battery",        "margins.cold",          "margins.tyres"};

Margin margin_of(const units::Quantity& quantity) {
  Margin made;
  made.value = quantity.value;
  switch (quantity.kind) {
    case Kind::fraction:
      made.kind = MarginKind::share;
      break;
    case Kind::time_h:
      made.kind = MarginKind::days;
      made.value /= 24;
      break;
    case Kind::distance:
      made.kind = MarginKind::distance_km;
      break;
    case Kind::temperature:
      made.kind = MarginKind::temperature_c;
      break;
    default:
      made.kind = MarginKind::amount;
      break;
  }
  return made;
}

void read_margin(Log& log, const Entry& entry, Key key, Plan& plan) {
  const auto read = read_quantity_of(log, entry.value, key, entry.key);
  if (!read) return;
  Margin made = margin_of(*read);
  made.mark = entry.value.origin.mark;
  plan.margins[entry.key] = made;
}

// The names that exist in a family whose reserves have their own names.
std::vector<std::string> names_in(std::string_view family, const Plan& plan) {
  if (family == "fuel") return names_of(plan.vehicles);
  if (family == "tyres") {
    std::vector<std::string> names;
    for (const Vehicle& vehicle : plan.vehicles) {
      if (vehicle.tyres) names.push_back(vehicle.name);
    }
    return names;
  }
  if (family == "drinking_water" || family == "utility_water" || family == "food") {
    const Stock stock = family == "food" ? Stock::food : Stock::water;
    std::vector<std::string> names;
    for (const Vehicle& vehicle : plan.vehicles) {
      const bool own = std::ranges::find(vehicle.own, stock) != vehicle.own.end();
      if (own) names.push_back(vehicle.name);
    }
    return names;
  }
  if (family == "battery") return names_of(plan.power.banks);
  if (family == "cold") return names_of(plan.cold);
  return {};
}

std::vector<std::string> all_names(const Plan& plan) {
  std::vector<std::string> made;
  made.reserve(families.size());
  for (const Key family : families) made.emplace_back(family.name());
  for (const std::string_view family :
       {"drinking_water", "utility_water", "fuel", "food", "battery", "cold", "tyres"}) {
    for (const std::string& name : names_in(family, plan)) {
      made.push_back(fmt::format("{}:{}", family, name));
    }
  }
  return made;
}

}  // namespace

void read_margins(Log& log, const Node& node, Plan& plan) {
  for (const Entry& entry : map_entries(log, node, "margins")) {
    const std::string_view key = entry.key;
    const std::size_t colon = key.find(':');
    const std::string_view family = key.substr(0, colon);
    const auto* const found = std::ranges::find(families, family, &Key::name);
    bool known = found != families.end();
    if (known && colon != std::string_view::npos) {
      const auto names = names_in(family, plan);
      known = std::find(names.begin(), names.end(), key.substr(colon + 1)) != names.end();
    }
    if (!known) {
      const auto consumables = names_of(plan.consumables);
      const bool own = std::ranges::find(consumables, key) != consumables.end();
      log.error(
          entry.origin, fmt::format("there is no reserve {}", units::in_quotes(key)),
          one_of(all_names(plan)),
          own ? "its margin stands under it in consumables" : did_you_mean(key, all_names(plan)));
      continue;
    }
    read_margin(log, entry, *found, plan);
  }
}

}  // namespace drystage::plan
