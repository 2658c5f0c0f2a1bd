// What the pages show is what the program prints.

#include <gtest/gtest.h>

#include <filesystem>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing {
namespace {

const std::filesystem::path project = std::filesystem::path(DRYSTAGE_TEST_DATA).parent_path();

/// What stands on a page between a command after "$ " and the end of its block.
std::string shown_after(const std::string& page, const std::string& command) {
  const std::string line = "$ " + command + "\n";
  const std::size_t from = page.rfind(line);
  if (from == std::string::npos) return "the page does not show: " + command;
  const std::size_t begin = from + line.size();
  return page.substr(begin, page.find("```", begin) - begin);
}

TEST(Pages, TheReadmeShowsARealRun) {
  const std::string command = "drystage run scenarios/desert-crossing.yaml";
  const Outcome outcome =
      drystage({"run", "scenarios/desert-crossing.yaml"}, {.folder = project.string()});
  EXPECT_EQ(difference(shown_after(read_file(project / "README.md"), command), outcome.out), "")
      << "if that is meant: sh tests/cli/accept.sh BINARY";
}

TEST(Pages, TheGuideEndsWithARunOfItsPlanThatHolds) {
  const Outcome outcome =
      drystage({"run", (project / "docs" / "guide-trip.yaml").string(), "--wide"});
  EXPECT_EQ(outcome.status, 0) << outcome.out << outcome.err;
  EXPECT_NE(read_file(project / "docs" / "guide.md").find(outcome.out), std::string::npos)
      << "the guide does not show this:\n"
      << outcome.out;
}

}  // namespace
}  // namespace drystage::testing
