#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <string>

#include "plan/log.h"
#include "plan/read.h"
#include "plan/tree.h"
#include "plan_text.h"

namespace drystage::plan {
namespace {

constexpr const char* page = DRYSTAGE_TEST_DATA "/../docs/format.md";

// The indented examples of the page, one after another: together they are a plan.
std::string examples() {
  std::ifstream file(page);
  std::string made;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with("    ") && !line.starts_with("    --set")) made += line.substr(4) + "\n";
  }
  return made;
}

// The keys that the format itself has, and not those that a user chooses.
void keys_of(const Node& node, const std::string& under, std::set<std::string>& keys) {
  static const std::set<std::string> named_by_user{
      "places", "climate",  "activities", "utility_use", "margins",
      "speeds", "surfaces", "fuel_cans",  "tanks",       "batteries",
      "panels", "cabinets", "food",       "diesel",      "dip"};
  for (const Entry& entry : node.entries) {
    if (!named_by_user.contains(under)) keys.insert(entry.key);
    keys_of(entry.value, named_by_user.contains(under) ? "" : entry.key, keys);
  }
  // In a list the name stands under a key of its own.
  for (const Node& item : node.items) keys_of(item, "", keys);
}

TEST(FormatPage, HasExamplesThatAreAPlanTogether) {
  const Reading reading = read_text(examples());
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_TRUE(reading.diagnostics.empty()) << all_of(reading);
}

TEST(FormatPage, HasEveryKeyInATableOrAListOfItsOwn) {
  std::ifstream file(page);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  Log log;
  const auto root = parse_tree(whole_plan(), {}, log);
  ASSERT_TRUE(root.has_value());
  std::set<std::string> keys;
  keys_of(*root, "", keys);
  EXPECT_GT(keys.size(), 100U);
  keys.erase("february");  // stands for all months in the page
  for (const std::string& key : keys) {
    const bool named = text.find("`" + key + "`") != std::string::npos ||
                       text.find("." + key + "`") != std::string::npos ||
                       text.find("`" + key + ":") != std::string::npos ||
                       text.find("{" + key) != std::string::npos;
    EXPECT_TRUE(named) << key;
  }
}

}  // namespace
}  // namespace drystage::plan
