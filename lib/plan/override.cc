#include "plan/override.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "plan/words.h"
#include "units/text.h"

namespace drystage::plan {
namespace {

// A step of a path: a key or a name, or a place in a list.
struct Step {
  std::string word;
  std::optional<std::size_t> index;
  bool adds = false;  // an item at the end of a list
};

// Splits a path; nothing if its brackets or quotes are not in order.
std::optional<std::vector<Step>> split(std::string_view path) {
  std::vector<Step> steps;
  std::size_t at = 0;
  bool wants_word = true;
  while (at < path.size() || wants_word) {
    if (wants_word) {
      Step step;
      if (at < path.size() && (path[at] == '"' || path[at] == '\'')) {
        const std::size_t end = path.find(path[at], at + 1);
        if (end == std::string_view::npos) return std::nullopt;
        step.word = path.substr(at + 1, end - at - 1);
        at = end + 1;
      } else {
        const std::size_t end = std::min(path.find_first_of(".[", at), path.size());
        step.word = path.substr(at, end - at);
        at = end;
      }
      if (step.word.empty()) return std::nullopt;
      steps.push_back(std::move(step));
      wants_word = false;
    } else if (path[at] == '.') {
      ++at;
      wants_word = true;
    } else if (path[at] == '[') {
      const std::size_t end = path.find(']', at);
      if (end == std::string_view::npos || end == at + 1 || end - at > 8) return std::nullopt;
      if (path.substr(at, end - at) == "[+") {
        steps.push_back({.word = {}, .index = {}, .adds = true});
        at = end + 1;
        continue;
      }
      std::size_t index = 0;
      for (const char c : path.substr(at + 1, end - at - 1)) {
        if (!units::is_digit(c)) return std::nullopt;
        index = index * 10 + static_cast<std::size_t>(c - '0');
      }
      steps.push_back({{}, index});
      at = end + 1;
    } else {
      return std::nullopt;
    }
  }
  return steps;
}

// What a list item is called: its name, or what else tells it from the others.
std::string item_name(const Node& item) {
  for (const std::string_view key : {"name", "item", "surface", "on"}) {
    if (const Node* name = item.find(key)) return name->text;
  }
  return {};
}

// True if the path has just come to a map whose keys are names that the user chose: there a part
// of the path that does not exist is a slip, never a new thing.
bool holds_user_names(const std::vector<Step>& steps, std::size_t depth) {
  static constexpr std::array<std::string_view, 3> sections{"places", "climate", "activities"};
  return depth == 1 && std::find(sections.begin(), sections.end(), steps[0].word) != sections.end();
}

class Applier {
 public:
  Applier(const Override& set, Log& log)
      : log_(log),
        origin_{{}, set.option.empty() ? "--set " + set.path + "=" + set.value : set.option} {}

  void run(const Override& set, Node& root) {
    auto value = parse_tree(set.value, origin_.set, log_);
    if (!value) return;
    const auto steps = split(set.path);
    if (!steps) {
      log_.error(origin_, fmt::format("{} is not a path", units::in_quotes(set.path)),
                 "keys with dots between them, such as people[0].mass or vehicles.truck.idle");
      return;
    }
    Node* node = &root;
    for (std::size_t i = 0; i < steps->size() && node != nullptr; ++i) {
      const bool last = i + 1 == steps->size();
      node = down(*node, (*steps)[i], last || !holds_user_names(*steps, i));
    }
    if (node == nullptr) return;
    value->origin = origin_;
    *node = std::move(*value);
  }

 private:
  // The node one step further down, made if it may be; null, with an error, if it cannot be there.
  Node* down(Node& node, const Step& step, bool may_add) {
    if (step.adds) return new_item(node);
    if (step.index) return by_index(node, *step.index);
    if (node.kind == Node::Kind::list) return by_name(node, step.word);
    if (node.kind == Node::Kind::text) {
      log_.error(
          origin_,
          fmt::format("there is nothing inside the plain value {}", units::in_quotes(node.text)),
          fmt::format("a path that ends before {}", units::in_quotes(step.word)));
      return nullptr;
    }
    if (Node* found = node.find(step.word)) return found;
    std::vector<std::string> known;
    for (const Entry& entry : node.entries) known.push_back(entry.key);
    if (!may_add) {
      log_.error(origin_, fmt::format("there is no {} in the plan", units::in_quotes(step.word)),
                 one_of(known), did_you_mean(step.word, known));
      return nullptr;
    }
    if (node.kind == Node::Kind::empty) node.kind = Node::Kind::map;
    Node added;
    added.origin = origin_;
    node.entries.push_back({step.word, origin_, added});
    return &node.entries.back().value;
  }

  Node* new_item(Node& node) {
    if (node.kind == Node::Kind::empty) node.kind = Node::Kind::list;
    if (node.kind != Node::Kind::list) {
      log_.error(origin_, "there is no list where [+] is asked for", "a path to a list");
      return nullptr;
    }
    Node added;
    added.origin = origin_;
    node.items.push_back(std::move(added));
    return &node.items.back();
  }

  Node* by_index(Node& node, std::size_t index) {
    if (node.kind == Node::Kind::list && index < node.items.size()) return &node.items[index];
    log_.error(origin_,
               node.kind == Node::Kind::list
                   ? fmt::format("the list has no item [{}]", index)
                   : fmt::format("there is no list where [{}] is asked for", index),
               node.items.empty() ? std::string("a path to an item that exists")
                                  : fmt::format("[0] to [{}]", node.items.size() - 1));
    return nullptr;
  }

  Node* by_name(Node& node, const std::string& name) {
    std::vector<std::string> known;
    for (Node& item : node.items) {
      if (item_name(item) == name) return &item;
      if (!item_name(item).empty()) known.push_back(item_name(item));
    }
    log_.error(origin_, fmt::format("the list has no item {}", units::in_quotes(name)),
               known.empty() ? std::string("the place of the item in the list, such as [0]")
                             : one_of(known),
               did_you_mean(name, known));
    return nullptr;
  }

  Log& log_;
  Origin origin_;
};

}  // namespace

void apply(const Override& set, Node& root, Log& log) { Applier(set, log).run(set, root); }

}  // namespace drystage::plan
