#include <fmt/core.h>

#include <algorithm>

#include "plan/sections.h"

namespace drystage::plan {
namespace {

using units::Kind;

constexpr std::array<std::string_view, 6> families{"drinking_water", "utility_water", "fuel",
                                                   "food",           "battery",       "cold"};

// What a margin of each family may be measured in.
std::vector<Kind> kinds_of(std::string_view family) {
  if (family == "fuel") return {Kind::volume, Kind::fraction, Kind::distance};
  if (family == "food") return {Kind::meals, Kind::fraction, Kind::time_h};
  if (family == "battery") return {Kind::charge, Kind::fraction, Kind::time_h};
  if (family == "cold") return {Kind::temperature};
  return {Kind::volume, Kind::fraction, Kind::time_h};
}

std::string examples_of(std::string_view family) {
  if (family == "fuel") return "an amount, a share or a distance: 20 L, 25 %, 150 km";
  if (family == "food") return "a number of meals, a share or a time: 6 meals, 20 %, 2 days";
  if (family == "battery") return "a charge, a share or a time: 40 Ah, 50 %, 2 days";
  if (family == "cold") return "the warmest allowed inside: 5 °C";
  return "an amount, a share or a time: 15 L, 25 %, 3 days";
}

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

void read_margin(Log& log, const Entry& entry, std::string_view family, Plan& plan) {
  const Node& node = entry.value;
  if (node.kind != Node::Kind::text) {
    log_wrong_form(log, node, entry.key, examples_of(family));
    return;
  }
  const auto kinds = kinds_of(family);
  const auto read = units::parse_any(node.text, kinds);
  if (!read) {
    const bool in_days = std::find(kinds.begin(), kinds.end(), Kind::time_h) != kinds.end();
    const bool is_bare = in_days && is_bare_number(node.text);
    log.error(node.spot, fmt::format("{}: {}", entry.key, read.problem().what), examples_of(family),
              is_bare
                  ? fmt::format("write {} days, or an amount or a share with its unit", node.text)
                  : read.problem().hint);
    return;
  }
  if (family != "cold" && (read->value < 0 || read->value > most_of_anything)) {
    log.error(node.spot,
              fmt::format("{}: {} is {}", entry.key, node.text,
                          read->value < 0 ? "negative" : "too high"),
              std::string(not_negative.words));
    return;
  }
  Margin made = margin_of(*read);
  if (made.kind == MarginKind::share && made.value > 1) {
    log.error(node.spot, fmt::format("{}: {} is more than all of it", entry.key, node.text),
              "at most 100 %");
    return;
  }
  made.mark = node.spot.mark;
  plan.margins[entry.key] = made;
}

// The names that exist in a family whose reserves have their own names.
std::vector<std::string> names_in(std::string_view family, const Plan& plan) {
  if (family == "fuel") return names_of(plan.vehicles);
  if (family == "battery") return names_of(plan.power.banks);
  if (family == "cold") return names_of(plan.cold);
  return {};
}

std::vector<std::string> all_names(const Plan& plan) {
  std::vector<std::string> made(families.begin(), families.end());
  for (const std::string_view family : {"fuel", "battery", "cold"}) {
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
    bool known = std::find(families.begin(), families.end(), family) != families.end();
    if (known && colon != std::string_view::npos) {
      const auto names = names_in(family, plan);
      known = std::find(names.begin(), names.end(), key.substr(colon + 1)) != names.end();
    }
    if (!known) {
      log.error(entry.spot, fmt::format("there is no reserve {}", units::in_quotes(key)),
                one_of(all_names(plan)), did_you_mean(key, all_names(plan)));
      continue;
    }
    read_margin(log, entry, family, plan);
  }
}

}  // namespace drystage::plan
