#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "plan/cans.h"
#include "plan/items.h"
#include "plan/sections.h"
#include "units/index.h"
#include "units/number.h"

namespace drystage::plan {
namespace {

std::optional<Surface> surface_at(Log& log, const Origin& origin, const std::string& text) {
  const auto surface = surface_named(text);
  if (!surface) {
    const auto known = texts(surface_words);
    log.error(origin, fmt::format("there is no surface {}", units::in_quotes(text)), one_of(known),
              did_you_mean(text, known));
  }
  return surface;
}

}  // namespace

std::string_view surface_word(Surface surface) { return text_of(surface_words, surface); }

std::optional<Surface> surface_named(std::string_view text) {
  std::string plain(text);
  std::replace(plain.begin(), plain.end(), '_', ' ');
  const auto* const found =
      std::find_if(surface_words.begin(), surface_words.end(),
                   [&](const Word<Surface>& word) { return word.text == plain; });
  if (found == surface_words.end()) return std::nullopt;
  return found->value;
}

std::optional<Surface> read_surface(Log& log, const Node& node, std::string_view name) {
  if (node.kind != Node::Kind::text) {
    log_wrong_form(log, node, name, one_of(texts(surface_words)));
    return std::nullopt;
  }
  return surface_at(log, node.origin, node.text);
}

std::optional<Surface> read_surface_key(Log& log, const Entry& entry) {
  return surface_at(log, entry.origin, entry.key);
}

std::optional<double> read_draw(Log& log, const Node& node, Key key, double voltage_v) {
  const auto read = read_quantity_of(log, node, key, key.name());
  if (!read) return std::nullopt;
  return read->kind == units::Kind::current ? read->value * voltage_v : read->value;
}

int vehicle_of(Fields& fields, Key key, const Plan& plan) {
  return fields.reference(key, names_of(plan.vehicles));
}

int vehicle_of_bank(const Plan& plan, int bank) {
  return at(bank) < plan.power.banks.size() ? plan.power.banks[at(bank)].vehicle : 0;
}

const Vehicle* vehicle_at(const Plan& plan, int index) {
  const auto i = static_cast<std::size_t>(index);
  return i < plan.vehicles.size() ? &plan.vehicles[i] : nullptr;
}

void read_holds(Fields& fields, double& holds_l, double& filled_l) {
  constexpr double most_can_l = 60;  // common practice: more than one person can lift
  const auto holds = fields.number_if("vessel.holds");
  const auto filled = fields.number_if("vessel.filled");
  holds_l = holds.value_or(0);
  // The same amount in another unit may be more by a last digit.
  const bool same = holds && filled && *filled <= *holds * (1 + 1e-9);
  filled_l = same ? std::min(*filled, *holds) : filled.value_or(0);
  if (holds && filled && !same) {
    fields.log().error(
        fields.get("vessel.filled")->origin,
        fmt::format("{} is filled with {} but holds {}", fields.what(),
                    fields.get("vessel.filled")->text, fields.get("vessel.holds")->text),
        "no more than it holds");
  }
  const Node* name = fields.get("vessel.name");
  if (holds && *holds > most_can_l && name != nullptr && is_called_can(name->text)) {
    fields.log().warning(fields.get("vessel.holds")->origin,
                         fmt::format("{} holds {}: large for a can", fields.what(),
                                     fields.get("vessel.holds")->text),
                         {}, "is the number right?");
  }
}

std::optional<int> read_whole_days(Log& log, const Node& node, Key key) {
  const auto hours = read_quantity(log, node, key, key.name());
  if (!hours) return std::nullopt;
  const double days = std::round(*hours / 24);
  if (std::abs(*hours - days * 24) > 1e-6) {
    log.error(node.origin,
              fmt::format("{}: {} is not a whole number of days", key.name(), node.text),
              "whole days, " + possible_words(key.ranges().front()));
    return std::nullopt;
  }
  return static_cast<int>(days);
}

std::vector<const Node*> one_or_more(Log& log, const Node* node, std::string_view key) {
  std::vector<const Node*> made;
  if (node == nullptr) return made;
  if (node->kind == Node::Kind::list) {
    for (const Node& item : node->items) made.push_back(&item);
  } else if (node->kind == Node::Kind::text) {
    made.push_back(node);
  } else {
    log_wrong_form(log, *node, key, "a name, or a list of names: [NAME, NAME]");
  }
  return made;
}

std::optional<Item> read_item(Log& log, const Node& node, std::string_view key,
                              std::string_view things, const std::vector<Item>& items) {
  const auto text = read_text(log, node, key);
  if (!text) return std::nullopt;
  const auto found = items_called(items, *text);
  if (found.size() == 1) return found.front();
  if (found.empty()) {
    const auto names = shortest_names(items);
    auto near = names;
    for (const Item& item : items) near.push_back(item.full_name);
    log.error(node.origin,
              fmt::format("{}: there is no {} {}", key, things, units::in_quotes(*text)),
              names.empty() ? fmt::format("a {}; the plan has none", things) : one_of(names),
              did_you_mean(*text, near));
    return std::nullopt;
  }
  std::vector<std::string> full_names;
  full_names.reserve(found.size());
  for (const Item& item : found) full_names.push_back(item.full_name);
  log.error(node.origin,
            fmt::format("{}: {} may be {} things", key, units::in_quotes(*text), found.size()),
            one_of(full_names), "write which of them is meant");
  return std::nullopt;
}

Node key_node(const Entry& entry) {
  Node node;
  node.kind = Node::Kind::text;
  node.text = entry.key;
  node.origin = entry.origin;
  return node;
}

std::string key_name(Log& log, const Entry& entry, std::string_view thing) {
  return read_text(log, key_node(entry), thing).value_or(std::string());
}

}  // namespace drystage::plan
