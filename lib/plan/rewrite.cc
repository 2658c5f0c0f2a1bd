#include "plan/rewrite.h"

#include <fmt/core.h>

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <tuple>
#include <utility>
#include <variant>

#include "plan/key_values.h"
#include "plan/log.h"
#include "plan/read.h"
#include "plan/same_plan.h"
#include "plan/sections.h"
#include "plan/text_edit.h"
#include "plan/utf8.h"
#include "plan/words.h"
#include "units/parse.h"

namespace drystage::plan {
namespace {

// A shape or dip marks: they can be taken out, but nobody knows those of another vessel.
bool is_measured(const KeyValue& value) {
  return std::holds_alternative<Shape>(value.said) ||
         std::holds_alternative<std::vector<DipMark>>(value.said);
}

// Whether the default of a key depends on the word of another one.
bool goes_by_word(Key key) { return key->absent.find(", ") != std::string_view::npos; }

// Writes what a thing says otherwise than before; of a map within it, only what stands there.
void change_thing(TextEdit& edit, const TextPart& thing, const KeyValues& before,
                  const KeyValues& after) {
  bool other_word = false;
  bool other_capacity = false;
  for (std::size_t i = 0; i < after.size(); ++i) {
    if (after[i].said == before[i].said) continue;
    other_word = other_word || after[i].key->value.sort == Sort::word;
    other_capacity = other_capacity || after[i].key.name() == "capacity";
  }
  std::vector<std::string_view> removed;
  std::vector<NewMember> added;
  for (std::size_t i = 0; i < after.size(); ++i) {
    const KeyValue& value = after[i];
    const std::string_view name = value.key.name();
    const TextPart* map = value.within.empty() ? &thing : thing.find(value.within);
    const TextPart* old = map == nullptr ? nullptr : map->find(name);
    // In Ah it is another share of another capacity.
    const bool other_share = other_capacity && old != nullptr && name == "filled" &&
                             !units::parse(old->text, units::Kind::fraction);
    if (value.said == before[i].said && !other_share) continue;
    if (value.said == KeyValue::Said()) {
      if (old != nullptr && map == &thing) removed.push_back(name);
    } else if (is_measured(value)) {
      continue;
    } else if (old != nullptr && value.key->value.sort == Sort::reference) {
      edit.set_value(*old, written(value));
    } else if (old != nullptr) {
      const bool has_word = old->text.ends_with("meals");
      edit.set_scalar(*old, written(value) + (has_word ? " meals" : ""));
    } else if (map == &thing && !(other_word && goes_by_word(value.key))) {
      // What is still to be said when another word brings its own default, the next round does.
      added.push_back({std::string(name), written(value)});
    }
  }
  edit.change_map(thing, removed, added);
}

// What a new thing is written with, and what would hold without it only where its neighbours have
// it. `alone`: nothing stands in the list yet.
std::vector<NewMember> members_of(const KeyValues& values, bool alone) {
  std::vector<NewMember> members;
  for (const KeyValue& value : values) {
    if (value.said == KeyValue::Said() || is_measured(value) || !value.within.empty()) continue;
    const bool shows_choice = alone && value.key.name() == "for";
    members.push_back(
        {std::string(value.key.name()), written(value), value.usual && !shows_choice});
  }
  return members;
}

template <class Thing>
auto called(const std::vector<Thing>& things, const std::string& name) {
  return std::ranges::find(things, name, &Thing::name);
}

const TextPart* find(const TextPart& map, const std::vector<std::string>& keys) {
  const TextPart* found = &map;
  for (const std::string& key : keys) {
    if (found != nullptr) found = found->find(key);
  }
  return found;
}

// Writes one list anew: changes what stays, takes out what is gone, puts in what is new.
void change_list(TextEdit& edit, const TextPart& root, const KeyedList& before,
                 const KeyedList& after) {
  const TextPart* map = after.section.empty() ? &root : root.find(after.section);
  if (map != nullptr && !after.section.empty()) map = &map->items.at(after.item);
  const TextPart* list = map == nullptr ? nullptr : find(*map, after.keys);
  if (map == nullptr || (list == nullptr ? 0 : list->items.size()) != before.things.size()) {
    throw std::logic_error("the plan is not the one of the text");
  }
  std::vector<bool> removed;
  for (const KeyedThing& was : before.things) {
    const auto is = called(after.things, was.name);
    removed.push_back(is == after.things.end());
    if (!removed.back()) {
      change_thing(edit, list->items[removed.size() - 1], was.values, is->values);
    }
  }
  std::vector<NewItem> added;
  int last = -1;
  for (const KeyedThing& thing : after.things) {
    const auto was = called(before.things, thing.name);
    if (was != before.things.end()) {
      last = static_cast<int>(was - before.things.begin());
    } else {
      added.push_back({last, members_of(thing.values, before.things.empty())});
    }
  }
  if (!before.things.empty()) {
    edit.change_list(*list, removed, added);
  } else if (!added.empty()) {
    edit.begin_list(*map, after.keys, added, after.beside);
  }
}

// An offer under `size:` that names no kind is of the battery's. Where that is another now, the
// offer says of which kind it was.
void keep_offered_kinds(TextEdit& edit, const TextPart& root, const Plan& before,
                        const Plan& after) {
  const TextPart* batteries = find(root, {"size", "batteries"});
  if (batteries == nullptr) return;
  for (const Member& member : batteries->members) {
    const auto was = called(before.power.banks, units::tidy_blanks(member.key));
    if (was == before.power.banks.end()) continue;
    const auto is = called(after.power.banks, was->name);
    if (is == after.power.banks.end() || is->kind == was->kind) continue;
    for (const TextPart& offer : member.value.items) {
      const std::string_view kind = text_of(battery_words, was->kind);
      if (offer.form == TextPart::Form::scalar) {
        edit.set_value(offer, fmt::format("{{capacity: {}, kind: {}}}", offer.text, kind));
      } else if (offer.find("kind") == nullptr) {
        edit.change_map(offer, {}, {{"kind", std::string(kind)}});
      }
    }
  }
}

// How many spare wheels each vehicle has. A vehicle that says nothing of tyres has none to change.
void change_spare_wheels(TextEdit& edit, const TextPart& root, const Plan& before,
                         const Plan& after) {
  for (std::size_t v = 0; v < after.vehicles.size(); ++v) {
    const std::optional<TyreKit>& was = before.vehicles[v].tyres;
    const std::optional<TyreKit>& is = after.vehicles[v].tyres;
    if (!was || !is || was->spare_wheels == is->spare_wheels) continue;
    const TextPart& vehicle = root.find("vehicles")->items.at(v);
    const TextPart* count = find(vehicle, {"tyres", "spare_wheels"});
    if (count == nullptr) throw std::logic_error("the plan is not the one of the text");
    edit.set_scalar(*count, std::to_string(is->spare_wheels));
  }
}

// What batteries a plan offers, each of a kind that is said or that of its bank.
auto offered_batteries(const Plan& plan) {
  using Amount = std::optional<double>;
  std::vector<std::tuple<int, BatteryKind, double, Amount, Amount, Amount>> made;
  for (const BatteryOffers& offers : plan.size.batteries) {
    const BatteryKind kind = plan.power.banks.at(static_cast<std::size_t>(offers.bank)).kind;
    for (const BatteryOffer& one : offers.sizes) {
      made.emplace_back(offers.bank, one.kind.value_or(kind), one.capacity_ah, one.mass_kg,
                        one.cost, one.space_l);
    }
  }
  return made;
}

Node tree_of(std::string_view text) {
  Log log;
  auto root = parse_tree(text, {}, log);
  if (!root) throw std::logic_error("the plan's text cannot be read");
  return std::move(*root);
}

// One round of changes. Of two that come to stand at one place, the inner one is asked for first.
std::string changed(std::string_view text, const Plan& before, const Plan& after) {
  const TextPart root = lay_out(text, tree_of(text));
  TextEdit edit(text);
  keep_offered_kinds(edit, root, before, after);
  const auto lists_before = keyed_lists(before);
  const auto lists_after = keyed_lists(after);
  if (lists_before.size() != lists_after.size()) {
    throw std::logic_error("the plan has other vehicles or consumables");
  }
  change_spare_wheels(edit, root, before, after);
  for (std::size_t i = 0; i < lists_after.size(); ++i) {
    change_list(edit, root, lists_before[i], lists_after[i]);
  }
  return edit.result();
}

}  // namespace

std::string rewrite(std::string_view source, const Plan& before, const Plan& after) {
  const bool marked = source.starts_with(byte_order_mark);
  if (marked) source.remove_prefix(byte_order_mark.size());
  const Node root = tree_of(source);
  std::string text(source);
  Plan plan = before;
  std::string wrong = difference(plan, after);
  // What a battery's kind brings with it is seen, and mended, when it has been read again.
  constexpr int rounds = 2;
  for (int round = 0; round < rounds && !wrong.empty(); ++round) {
    text = changed(text, plan, after);
    ReadPlan reading = read_text(text);
    if (!reading.plan) {
      const auto& all = reading.diagnostics;
      const auto error = std::ranges::find(all, Severity::error, &Diagnostic::severity);
      throw std::logic_error("the changed plan cannot be read: " +
                             (error == all.end() ? std::string("no reason") : error->what));
    }
    plan = std::move(*reading.plan);
    wrong = difference(plan, after);
  }
  if (!wrong.empty()) throw std::logic_error("the changed plan reads otherwise: " + wrong);
  if (!same_besides(root, tree_of(text)) || offered_batteries(before) != offered_batteries(plan)) {
    throw std::logic_error("the changed plan reads otherwise in what was not to change");
  }
  return std::string(marked ? byte_order_mark : "") + text;
}

}  // namespace drystage::plan
