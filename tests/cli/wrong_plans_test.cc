// The folder of wrong plans, each checked as a user checks it: whole outputs.

#include <gtest/gtest.h>

#include <filesystem>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing {
namespace {

const std::filesystem::path folder = std::filesystem::path(DRYSTAGE_TEST_DATA) / "wrong";

std::vector<std::string> wrong_plans() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".yaml") names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

/// How many errors a text of diagnostics tells of.
std::size_t errors_in(const std::string& text) {
  std::size_t count = 0;
  for (std::size_t at = text.find(": error: "); at != std::string::npos;
       at = text.find(": error: ", at + 1)) {
    ++count;
  }
  return count;
}

class WrongPlan : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Each, WrongPlan, ::testing::ValuesIn(wrong_plans()), AsTestName{});

TEST_P(WrongPlan, IsReportedWholeByTheCommandAndNothingIsRun) {
  const std::string file = GetParam() + ".yaml";
  const std::string expected = read_file(folder / (GetParam() + ".expected"));
  const std::size_t errors = errors_in(expected);
  for (const char* command : {"check", "run"}) {
    const Outcome outcome = drystage({command, file}, {.folder = folder.string()});
    if (errors == 0) {
      // Laid out, a plan without errors may be warned of more.
      EXPECT_EQ(difference(expected, outcome.err.substr(0, expected.size())), "");
      EXPECT_LE(outcome.status, 1);
      continue;
    }
    const std::string sum = file + ": " + std::to_string(errors) +
                            (errors == 1 ? " error" : " errors") + "; nothing was run\n";
    EXPECT_EQ(difference(expected + sum, outcome.err), "");
    EXPECT_EQ(outcome.out, "");
    EXPECT_EQ(outcome.status, 2);
  }
}

}  // namespace
}  // namespace drystage::testing
