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

const Node* Fields::get(Key key) {
  const bool first = std::ranges::find(known_, key.name()) == known_.end();
  return look_up(key, first && key->required());
}

const Node* Fields::need(Key key) { return look_up(key, true); }

const Node* Fields::look_up(Key key, bool required) {
  if (std::ranges::find(known_, key.name()) == known_.end()) known_.push_back(key.name());
  const Node* value = node_.find(key.name());
  if (value == nullptr && required && usable_) {
    log_.error(node_.origin, fmt::format("{} lacks {}", what_, units::in_quotes(key.name())),
               fmt::format("{}: {}", key.name(), example_of(key)));
  }
  return value;
}

void Fields::refuse(Key key, std::string_view reason) {
  if (const Node* value = look_up(key, false)) {
    log_.error(value->origin,
               fmt::format("{}: {} does not belong here", what_, units::in_quotes(key.name())), {},
               std::string(reason));
  }
}

void Fields::refuse_name(std::string_view name, const std::string& hint) {
  const Node* value = node_.find(name);
  if (value == nullptr) return;
  known_.push_back(name);
  log_.error(value->origin,
             fmt::format("{}: {} does not belong here", what_, units::in_quotes(name)), {}, hint);
}

std::string Fields::name(Key key) {
  const Node* value = get(key);
  if (value == nullptr) return {};
  const auto text = read_text(log_, *value, key.name());
  if (!text) return {};
  what_ = fmt::format("{} {}", what_.substr(what_.find(' ') + 1), units::in_quotes(*text));
  return *text;
}

std::optional<double> Fields::number_if(Key key) {
  const Node* value = get(key);
  return value == nullptr ? std::nullopt : read_quantity(log_, *value, key, key.name());
}

double Fields::number(Key key, std::string_view when) {
  const auto read = number_if(key);
  return read ? *read : default_number(key, when).value_or(0);
}

std::optional<int> Fields::whole_number_if(Key key) {
  const Node* value = get(key);
  return value == nullptr ? std::nullopt : read_whole_number(log_, *value, key, key.name());
}

std::optional<bool> Fields::yes_no_if(Key key) {
  const Node* value = get(key);
  return value == nullptr ? std::nullopt : read_yes_no(log_, *value, key.name());
}

bool Fields::yes_no(Key key) { return yes_no_if(key).value_or(key->absent == "yes"); }

double Fields::clock_h(Key key) {
  const Node* value = get(key);
  const auto read = value == nullptr ? std::nullopt : read_clock(log_, *value, key.name());
  return read ? *read : clock_hours(default_of(key)).value_or(0);
}

std::optional<int> Fields::reference_if(Key key, const std::vector<std::string>& names) {
  const Node* value = get(key);
  return value == nullptr ? std::nullopt : read_reference(log_, *value, key->value.of, names);
}

int Fields::reference(Key key, const std::vector<std::string>& names) {
  return reference_if(key, names).value_or(0);
}

const std::vector<Node>& Fields::items(Key key) {
  static const std::vector<Node> none;
  const Node* value = get(key);
  return value == nullptr ? none : list_items(log_, *value, key.name());
}

void Fields::finish() {
  const Entry* last = nullptr;
  for (const Entry& entry : node_.entries) {
    const Entry* before = std::exchange(last, &entry);
    if (std::find(known_.begin(), known_.end(), entry.key) != known_.end()) continue;
    // In braces a comma ends the value, so 66,5 kg becomes 66 and a key "5 kg".
    const bool decimal_comma =
        before != nullptr && !entry.key.empty() && units::is_digit(entry.key.front());
    log_.error(entry.origin, fmt::format("{} has no key {}", what_, units::in_quotes(entry.key)),
               one_of(known_),
               decimal_comma ? fmt::format("is this a decimal comma? Write a point: {}.{}",
                                           before->value.text, entry.key)
                             : did_you_mean(entry.key, known_));
  }
}

void ask_if_alike(Log& log, const Origin& origin, std::string_view thing, std::string_view name,
                  std::string_view other) {
  log.warning(origin,
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
