#include "support/random_value.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "plan/word_lists.h"
#include "units/format.h"

namespace drystage::support {
namespace {

using plan::Key;
using plan::Many;
using plan::Node;
using plan::Range;
using plan::Rule;
using plan::Sort;
using plan::Together;

// Often enough that a pair of keys comes together, seldom enough that most maps stay readable.
constexpr int one_key_in = 4;

Node text_node(std::string text) {
  Node node;
  node.kind = Node::Kind::text;
  node.text = std::move(text);
  return node;
}

Node map_node() {
  Node node;
  node.kind = Node::Kind::map;
  return node;
}

void put(Node& map, std::string_view name, Node value) {
  map.entries.push_back({std::string(name), {}, std::move(value)});
}

template <class Things>
const auto& any(const Things& of, const Pick& pick) {
  return of[static_cast<std::size_t>(pick(0, static_cast<int>(of.size()) - 1))];
}

std::string random_amount(Key key, const Pick& pick) {
  const Range& range = any(key.ranges(), pick);
  constexpr int steps = 60;
  const char* blank = range.shown_unit().empty() ? "" : " ";
  if (range.zero_is_usual && pick(1, 8) == 1) {
    return fmt::format("0{}{}", blank, range.shown_unit());
  }
  const double part = pick(0, steps) / static_cast<double>(steps);
  const double low = range.usual_low;
  const double high = range.usual_high;
  double number = low > 0 ? low * std::pow(high / low, part) : low + (high - low) * part;
  const bool is_whole = !range.kind || range.unit == "days";
  if (is_whole && high - low >= 2) number = std::ceil(number);
  number = std::clamp(std::stod(units::format_number(number, units::significant(3))), low, high);
  return fmt::format("{}{}{}", units::format_number(number, units::significant(6)), blank,
                     range.shown_unit());
}

std::string random_date(const Pick& pick, int from = 1) {
  return fmt::format("2027-03-{:02}", pick(from, 28));
}

// What a map by name is of; the table says it in an example only.
std::string_view named_by(Key key) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 8> things{
      {{"vehicles.weighed.levels", "container or tank"},
       {"size.fuel_cans", "vehicle"},
       {"size.tanks", "container or tank"},
       {"size.batteries", "battery"},
       {"size.panels", "solar panel"},
       {"size.cabinets", "cabinet"},
       {"size.food", "dry food"},
       {"size.consumables", "consumable"}}};
  const auto* const found =
      std::ranges::find(things, key->path, &decltype(things)::value_type::first);
  return found == things.end() ? "vehicle" : found->second;
}

std::vector<Rule> rules_of(std::string_view path) {
  std::vector<Rule> made;
  for (const Rule& rule : plan::rules) {
    if (rule.map == path) made.push_back(rule);
  }
  for (const plan::Included& one : plan::included) {
    if (one.map != path) continue;
    for (const Rule& rule : rules_of(one.other)) made.push_back(rule);
  }
  return made;
}

bool holds(const Rule& rule, const Node& map) {
  const auto names = plan::words_of(rule.keys);
  const auto is_there = [&](std::string_view name) { return map.find(name) != nullptr; };
  const auto others = std::count_if(names.begin() + 1, names.end(), is_there);
  const bool first = is_there(names.front());
  switch (rule.together) {
    case Together::exactly_one:
      return others + (first ? 1 : 0) == 1;
    case Together::at_least_one:
      return first || others > 0;
    case Together::not_both:
      return !first || others == 0;
    case Together::needs:
      return !first || others + 1 == static_cast<long>(names.size());
    case Together::only_with:
      return first || others == 0;
  }
  return true;
}

bool all_hold(const std::vector<Rule>& rules, const Node& map) {
  return std::ranges::all_of(rules, [&](const Rule& rule) { return holds(rule, map); });
}

// Adds a key with those that it needs, if they all go with what is there.
void add(Node& map, Key key, std::string_view path, const Pick& pick, const Names& names) {
  const auto rules = rules_of(path);
  Node made = map;
  const auto put_random = [&](Key one) {
    if (made.find(one.name()) != nullptr) return;
    if (auto value = random_value(one, pick, names)) put(made, one.name(), std::move(*value));
  };
  put_random(key);
  for (const Rule& rule : rules) {
    const auto needed = plan::words_of(rule.keys);
    if (rule.together != Together::needs || needed.front() != key.name()) continue;
    for (const Key other : plan::keys_of(path)) {
      if (std::ranges::find(needed, other.name()) != needed.end()) put_random(other);
    }
  }
  if (all_hold(rules, made)) map = std::move(made);
}

// A new map: what it must have, and some of what it may have.
std::optional<Node> random_map(Key key, const Pick& pick, const Names& names) {
  const std::string_view path = key->value.of.empty() ? key->path : key->value.of;
  Node made = map_node();
  const auto keys = plan::keys_of(path);
  for (const Key one : keys) {
    if (!one->required() || plan::is_conditional(path, one.name())) continue;
    auto value = random_value(one, pick, names);
    if (!value) return std::nullopt;
    put(made, one.name(), std::move(*value));
  }
  // A key of which there must be one, before those that are not needed.
  for (const Rule& rule : rules_of(path)) {
    if (holds(rule, made)) continue;
    const std::string_view chosen = any(plan::words_of(rule.keys), pick);
    for (const Key one : keys) {
      if (one.name() == chosen) add(made, one, path, pick, names);
    }
  }
  if (!all_hold(rules_of(path), made)) return std::nullopt;
  add_keys(made, path, pick, names);
  // Nothing at all says nothing.
  if (made.entries.empty() && !keys.empty()) add(made, any(keys, pick), path, pick, names);
  return made;
}

std::optional<Node> name_among(std::string_view what, const Pick& pick, const Names& names) {
  const auto found = names.find(what);
  if (found == names.end() || found->second.empty()) return std::nullopt;
  return text_node(any(found->second, pick));
}

std::optional<Node> one_value(Key key, const Pick& pick, const Names& names) {
  const auto words = key->value.words;
  const bool by_word = !words.empty() && (key.ranges().empty() || pick(0, 1) == 0);
  switch (key->value.sort) {
    case Sort::map:
      if (key->path == "vessel.shape") return std::nullopt;  // it must have room for what it holds
      return random_map(key, pick, names);
    case Sort::amount:
      return text_node(random_amount(key, pick));
    case Sort::word:
    case Sort::facing:
    case Sort::take:
      return text_node(by_word ? std::string(any(words, pick)) : random_amount(key, pick));
    case Sort::reference:
      return name_among(key->value.of, pick, names);
    case Sort::yes_no:
      return text_node(pick(0, 1) == 0 ? "yes" : "no");
    case Sort::clock:
      return text_node(fmt::format("{:02}:{:02}", pick(0, 23), pick(0, 59)));
    case Sort::surfaces:
      return text_node(std::string(any(plan::surface_words, pick).text));
    case Sort::date:
      if (!key->value.of.empty() && pick(1, 3) == 1) {
        Node span = map_node();
        const int from = pick(1, 28);
        put(span, "from", text_node(fmt::format("2027-03-{:02}", from)));
        put(span, "to", text_node(random_date(pick, from)));
        return span;
      }
      return text_node(random_date(pick));
    case Sort::name:
      return text_node(fmt::format("more {}", pick(1, 1'000'000)));
    default:
      return std::nullopt;
  }
}

Node list_of(Node item) {
  Node list;
  list.kind = Node::Kind::list;
  list.items.push_back(std::move(item));
  return list;
}

}  // namespace

std::optional<plan::Node> random_value(Key key, const Pick& pick, const Names& names) {
  auto value = one_value(key, pick, names);
  if (!value) return value;
  const auto under = [&](std::optional<Node> name, Node of) -> std::optional<Node> {
    if (!name) return std::nullopt;
    Node map = map_node();
    put(map, name->text, std::move(of));
    return map;
  };
  switch (key->value.many) {
    case Many::list:
      return list_of(std::move(*value));
    case Many::one_or_list:
      return pick(0, 1) == 0 ? std::move(*value) : list_of(std::move(*value));
    case Many::by_name:
      return under(name_among(named_by(key), pick, names), std::move(*value));
    case Many::list_by_name:
      return under(name_among(named_by(key), pick, names), list_of(std::move(*value)));
    case Many::one_or_by_name:
      return pick(0, 1) == 0 ? std::move(value)
                             : under(name_among(named_by(key), pick, names), std::move(*value));
    case Many::one_or_by_surface:
      if (pick(0, 1) == 0) return value;
      [[fallthrough]];
    case Many::by_surface:
      return under(text_node(std::string(any(plan::surface_words, pick).text)), std::move(*value));
    default:
      return value;
  }
}

void add_keys(plan::Node& map, std::string_view path, const Pick& pick, const Names& names) {
  for (const Key key : plan::keys_of(path)) {
    Node* there = map.find(key.name());
    if (there == nullptr) {
      if (pick(1, one_key_in) == 1) add(map, key, path, pick, names);
    } else if (key->value.sort == Sort::map) {
      const std::string_view inner = key->value.of.empty() ? key->path : key->value.of;
      const bool by_name = key->value.many == Many::by_name;
      for (Node& item : there->items) {
        if (item.kind == Node::Kind::map) add_keys(item, inner, pick, names);
      }
      for (plan::Entry& entry : there->entries) {
        if (by_name && entry.value.kind == Node::Kind::map) {
          add_keys(entry.value, inner, pick, names);
        }
      }
      if (there->kind == Node::Kind::map && !by_name) add_keys(*there, inner, pick, names);
    }
  }
}

}  // namespace drystage::support
