#include "plan/fields.h"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

namespace drystage::plan {

Fields::Fields(Log& log, const Node& node, std::string what)
    : log_(log), node_(node), what_(std::move(what)) {
  usable_ = node.kind == Node::Kind::map || node.kind == Node::Kind::empty;
  if (!usable_) log_wrong_form(log, node, what_, "a map of keys and values");
}

const Node* Fields::get(std::string_view key) {
  if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.push_back(key);
  return node_.find(key);
}

const Node* Fields::need(std::string_view key, std::string_view example) {
  const Node* value = get(key);
  if (value == nullptr && usable_) {
    log_.error(node_.spot, fmt::format("{} lacks {}", what_, units::in_quotes(key)),
               fmt::format("{}: {}", key, example));
  }
  return value;
}

void Fields::refuse(std::string_view key, std::string_view reason) {
  if (const Node* value = get(key)) {
    log_.error(value->spot,
               fmt::format("{}: {} does not belong here", what_, units::in_quotes(key)), {},
               std::string(reason));
  }
}

std::string Fields::name(std::string_view key) {
  const Node* value = need(key, "its name");
  if (value == nullptr) return {};
  const auto text = read_text(log_, *value, key);
  if (!text) return {};
  what_ = fmt::format("{} {}", what_.substr(what_.find(' ') + 1), units::in_quotes(*text));
  return *text;
}

std::optional<double> Fields::quantity(Key key, std::string_view name) {
  if (name.empty()) name = key.name();
  const Node* value = get(name);
  return value == nullptr ? std::nullopt : read_quantity(log_, *value, key, name);
}

double Fields::quantity_or(Key key, double absent, std::string_view name) {
  return quantity(key, name).value_or(absent);
}

std::optional<double> Fields::need_quantity(Key key, std::string_view name) {
  need(name.empty() ? key.name() : name, example(key.ranges().front()));
  return quantity(key, name);
}

std::optional<int> Fields::whole_number(Key key) {
  const Node* value = get(key.name());
  return value == nullptr ? std::nullopt : read_whole_number(log_, *value, key, key.name());
}

bool Fields::yes_no_or(std::string_view key, bool absent) {
  const Node* value = get(key);
  return value == nullptr ? absent : read_yes_no(log_, *value, key).value_or(absent);
}

int Fields::reference_or(std::string_view key, int absent, std::string_view thing,
                         const std::vector<std::string>& names, std::string_view defined_under) {
  const Node* value = get(key);
  if (value == nullptr) return absent;
  return read_reference(log_, *value, thing, names, defined_under).value_or(absent);
}

void Fields::finish() {
  const Entry* last = nullptr;
  for (const Entry& entry : node_.entries) {
    const Entry* before = std::exchange(last, &entry);
    if (std::find(known_.begin(), known_.end(), entry.key) != known_.end()) continue;
    // In braces a comma ends the value, so 66,5 kg becomes 66 and a key "5 kg".
    const bool decimal_comma =
        before != nullptr && !entry.key.empty() && units::is_digit(entry.key.front());
    log_.error(entry.spot, fmt::format("{} has no key {}", what_, units::in_quotes(entry.key)),
               one_of(known_),
               decimal_comma ? fmt::format("is this a decimal comma? Write a point: {}.{}",
                                           before->value.text, entry.key)
                             : did_you_mean(entry.key, known_));
  }
}

void ask_if_alike(Log& log, const Spot& spot, std::string_view thing, std::string_view name,
                  std::string_view other) {
  log.warning(spot,
              fmt::format("two {} have names that look alike: {} and {}", thing,
                          units::in_quotes(other), units::in_quotes(name)),
              {}, "are they two? Give one of them another name");
}

const std::vector<Node>& list_items(Log& log, const Node& node, std::string_view name) {
  if (node.kind != Node::Kind::list && node.kind != Node::Kind::empty) {
    log_wrong_form(log, node, name, "a list, each item after a dash");
  }
  return node.items;
}

const std::vector<Entry>& map_entries(Log& log, const Node& node, std::string_view name) {
  if (node.kind != Node::Kind::map && node.kind != Node::Kind::empty) {
    log_wrong_form(log, node, name, "a map of names, each with a colon");
  }
  return node.entries;
}

}  // namespace drystage::plan
