// Random plans that are filled up from the table of keys.
#include "support/richer_plan.h"

#include <gtest/gtest.h>

#include <map>
#include <random>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "declared.h"
#include "plan/log.h"
#include "plan/read.h"
#include "plan/rewrite.h"
#include "plan/tree.h"
#include "support/cases.h"
#include "support/random_readings.h"
#include "support/schema_faults.h"
#include "support/trip.h"

namespace drystage::plan::richer_plan_test {
namespace {

// The same plans each time with one compiler.
class Plans {
 public:
  std::string next() {
    const std::string text = support::richer_plan(pick_).text();
    // What is found on the way must go with all the rest of the plan.
    return pick_(1, 3) == 1 ? support::with_random_readings(pick_, text) : text;
  }

 private:
  std::mt19937 random_{5};
  support::Pick pick_ = [this](int low, int high) {
    return low + static_cast<int>(random_() % static_cast<unsigned>(high - low + 1));
  };
};

// What never comes up by itself, and why.
const std::map<std::string_view, std::string_view> exceptions{
    {"include", "is a matter of several files"},
};

// Every declared key but those of values that stand alone.
std::set<std::string_view> all_keys() {
  std::set<std::string_view> made;
  for (const auto& some : declarations) {
    for (const Declaration& one : some) {
      if (one.name() != "*") made.insert(one.path);
    }
  }
  return made;
}

TEST(RicherPlan, HasEveryDeclaredKeySoonerOrLater) {
  auto missing = all_keys();
  std::set<std::string_view> unexpected;
  Plans plans;
  constexpr int most = 1500;
  // The last ones take as many plans as all others: they are waited for where there is time.
  constexpr int per_cent = 100;
  const bool all = support::cases(per_cent) == per_cent;
  const std::size_t rare = all ? 0 : missing.size() / 25;
  for (int i = 0; i < most && missing.size() > exceptions.size() + rare; ++i) {
    Log log;
    Walk([&](Key key, const std::string&, const Node&) {
      missing.erase(key->path);
      if (exceptions.contains(key->path)) unexpected.insert(key->path);
    }).map(parse_tree(plans.next(), {}, log).value(), "");
  }
  if (all) {
    for (const std::string_view path : missing) EXPECT_TRUE(exceptions.contains(path)) << path;
  }
  EXPECT_LE(missing.size(), exceptions.size() + rare);
  for (const std::string_view path : unexpected) ADD_FAILURE() << path << " does come up";
  for (const auto& [path, why] : exceptions) EXPECT_TRUE(all_keys().contains(path)) << path;
}

TEST(RicherPlan, IsTakenByReaderAndSchemaAndWrittenBackAsItIs) {
  std::vector<std::string> texts;
  for (Plans plans; texts.size() < static_cast<std::size_t>(support::cases(30));)
    texts.push_back(plans.next());
  const auto faults = support::schema_faults(texts);
  ASSERT_EQ(faults.size(), texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) {
    EXPECT_EQ(faults[i], "valid") << texts[i];
    const ReadPlan reading = read_text(texts[i]);
    ASSERT_TRUE(reading.plan) << texts[i];
    EXPECT_EQ(rewrite(texts[i], *reading.plan, *reading.plan), texts[i]);
    EXPECT_GT(support::travel(*reading.plan).days(), 0U) << texts[i];
  }
}

}  // namespace
}  // namespace drystage::plan::richer_plan_test
