#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <string>

#include "cli/workspace.h"
#include "plan/keys.h"
#include "plan/read.h"
#include "plan_text.h"
#include "support/key_tables.h"

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

TEST(FormatPage, HasExamplesThatAreAPlanTogether) {
  const ReadPlan reading = read_text(examples());
  EXPECT_TRUE(reading.plan.has_value()) << all_of(reading);
  EXPECT_TRUE(reading.diagnostics.empty()) << all_of(reading);
}

// With DRYSTAGE_ACCEPT set the tables are written anew.
TEST(FormatPage, HasTheTablesThatComeFromTheDeclaration) {
  std::ifstream file(page);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  const std::string made = support::with_key_tables(text);
  if (std::getenv("DRYSTAGE_ACCEPT") != nullptr) std::ofstream(page) << made;
  EXPECT_EQ(testing::difference(made, text), "") << "DEVELOPERS.md says how to write them anew";
}

TEST(FormatPage, HasEveryKeyInATable) {
  std::ifstream file(page);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  for (const auto& some : declarations) {
    for (const Declaration& one : some) {
      // What stands under these is shown in tables of their own.
      const bool is_shown =
          one.map() != "water" && one.map() != "power" && one.map() != "itinerary";
      if (one.name() == "*" || !is_shown) continue;
      const std::string name(one.name());
      EXPECT_TRUE(text.find("| `" + name + "`") != std::string::npos ||
                  text.find("." + name + "`") != std::string::npos)
          << one.path;
    }
  }
}

}  // namespace
}  // namespace drystage::plan
