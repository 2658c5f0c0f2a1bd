#include "plan/merge.h"

#include <algorithm>
#include <map>
#include <string>

#include "units/text.h"

namespace drystage::plan {
namespace {

using Places = std::map<std::string, std::size_t, std::less<>>;

// What tells an item of a list from the others, as its reader takes it; empty where nothing does.
std::string own_name(const Node& item) {
  for (const std::string_view key : {"name", "item"}) {
    if (const Node* name = item.find(key)) return units::tidy_blanks(name->text);
  }
  return {};
}

bool has_names(const Node& list) {
  return std::ranges::any_of(list.items, [](const Node& item) { return !own_name(item).empty(); });
}

// Half a table of depths, or half a shape, is none.
bool is_one_value(std::string_view key) { return key == "dip" || key == "shape"; }

Node merged_value(const Node& base, const Node& over);

Node merged_list(const Node& base, const Node& over) {
  Node made = base;
  made.origin = over.origin;
  Places places;
  for (std::size_t i = 0; i < base.items.size(); ++i)
    places.try_emplace(own_name(base.items[i]), i);
  for (const Node& item : over.items) {
    const auto found = places.find(own_name(item));
    if (found == places.end() || found->first.empty()) {
      made.items.push_back(item);
      continue;
    }
    made.items[found->second] = merged_value(made.items[found->second], item);
    places.erase(found);  // a second one of that name is for the reader to refuse
  }
  return made;
}

Node merged_map(const Node& base, const Node& over) {
  Node made = base;
  made.origin = over.origin;
  Places places;
  for (std::size_t i = 0; i < base.entries.size(); ++i) places.emplace(base.entries[i].key, i);
  std::vector<bool> goes(base.entries.size(), false);
  for (const Entry& entry : over.entries) {
    const auto found = places.find(entry.key);
    if (found == places.end()) {
      made.entries.push_back(entry);
      continue;
    }
    Entry& there = made.entries[found->second];
    goes[found->second] = entry.value.kind == Node::Kind::empty;
    there.origin = entry.origin;
    there.value = is_one_value(entry.key) ? entry.value : merged_value(there.value, entry.value);
  }
  std::vector<Entry> kept;
  for (std::size_t i = 0; i < made.entries.size(); ++i) {
    if (i >= goes.size() || !goes[i]) kept.push_back(std::move(made.entries[i]));
  }
  made.entries = std::move(kept);
  return made;
}

Node merged_value(const Node& base, const Node& over) {
  const bool both_maps = base.kind == Node::Kind::map && over.kind == Node::Kind::map;
  if (both_maps && !over.entries.empty()) return merged_map(base, over);
  const bool both_lists = base.kind == Node::Kind::list && over.kind == Node::Kind::list;
  if (both_lists && !over.items.empty() && (has_names(base) || has_names(over))) {
    return merged_list(base, over);
  }
  return over;
}

}  // namespace

Node laid_over(const Node& base, const Node& over) { return merged_map(base, over); }

}  // namespace drystage::plan
