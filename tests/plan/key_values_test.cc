// The lists by which things are written and compared, against the table of keys.
#include "plan/key_values.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "declared.h"
#include "plan/log.h"
#include "plan/same_plan.h"
#include "plan/tree.h"
#include "plan_text.h"
#include "support/schema_faults.h"

namespace drystage::plan::key_values_test {
namespace {

std::string path_of(const KeyedList& list) {
  const std::string path = fmt::format("{}", fmt::join(list.keys, "."));
  return list.section.empty() ? path : fmt::format("{}.{}", list.section, path);
}

// The declared keys of a map and of the maps within it. What a vessel is measured by is compared as
// a whole.
void collect(std::string_view map, std::set<std::string_view>& paths) {
  for (const Key key : keys_of(map)) {
    const bool is_map = key->value.sort == Sort::map && key->path != "vessel.shape";
    if (is_map) {
      collect(key->value.of.empty() ? key->path : key->value.of, paths);
    } else {
      paths.insert(key->path);
    }
  }
}

TEST(KeyValues, HaveEveryDeclaredKeyOfTheThing) {
  const Plan plan = read_text(whole_plan()).plan.value();
  std::set<std::string> kinds;
  for (const KeyedList& list : keyed_lists(plan)) {
    std::set<std::string_view> declared;
    collect(path_of(list), declared);
    EXPECT_FALSE(declared.empty()) << path_of(list);
    for (const KeyedThing& thing : list.things) {
      std::set<std::string_view> listed;
      for (const KeyValue& value : thing.values) listed.insert(value.key->path);
      EXPECT_EQ(listed.size(), thing.values.size()) << thing.name;
      for (const std::string_view path : declared) {
        EXPECT_TRUE(listed.contains(path)) << path << " of " << thing.name;
      }
      for (const std::string_view path : listed) {
        EXPECT_TRUE(declared.contains(path)) << path << " of " << thing.name;
      }
      kinds.insert(path_of(list));
    }
  }
  EXPECT_EQ(kinds.size(), 7U);
}

// Takes out what a path of --set leads to.
void take_out(Node& node, std::string_view path) {
  const std::size_t end = std::min(path.find_first_of(".["), path.size());
  const std::string_view rest = path.substr(end);
  if (rest.empty()) {
    std::erase_if(node.entries, [&](const Entry& entry) { return entry.key == path; });
    return;
  }
  Node* inner = end == 0 ? &node : node.find(path.substr(0, end));
  if (rest.front() == '.') return take_out(*inner, rest.substr(1));
  const std::size_t close = rest.find(']');
  Node& item = inner->items.at(std::stoul(std::string(rest.substr(1, close - 1))));
  return take_out(item, rest.substr(std::min(close + 2, rest.size())));
}

TEST(KeyValues, TellPlansApartByEveryKey) {
  const ReadPlan reading = read_text(whole_plan());
  Log log;
  const Node root = parse_tree(whole_plan(), {}, log).value();
  std::set<std::string_view> listed;
  for (const KeyedList& list : keyed_lists(*reading.plan)) collect(path_of(list), listed);
  // What the plan says of these holds without it too.
  const std::set<std::string_view> usual{"water.containers.for",    "power.batteries.rate",
                                         "power.charging.while",    "power.batteries.floor",
                                         "power.batteries.cut_off", "consumables.stores.in"};
  std::set<std::string_view> told;
  std::set<std::string_view> untold;
  Walk([&](Key key, const std::string& path, const Node& /*value*/) {
    if (!listed.contains(key->path) || path.ends_with(']')) return;
    Node changed = root;
    take_out(changed, path);
    const ReadPlan other = read_text(support::json_text(changed));
    if (!other.plan) return;
    (difference(*reading.plan, *other.plan).empty() ? untold : told).insert(key->path);
  }).map(root, "");
  for (const std::string_view path : untold) {
    EXPECT_TRUE(told.contains(path) || usual.contains(path)) << path;
  }
  EXPECT_GT(told.size(), 30U);
}

}  // namespace
}  // namespace drystage::plan::key_values_test
