// What the pages show is what the program prints.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <string>
#include <vector>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;

const std::filesystem::path project = std::filesystem::path(DRYSTAGE_TEST_DATA).parent_path();

/// What stands on a page between a command after "$ " and the end of its block.
std::string shown_after(const std::string& page, const std::string& command) {
  const std::string line = "$ " + command + "\n";
  const std::size_t from = page.rfind(line);
  if (from == std::string::npos) return "the page does not show: " + command;
  const std::size_t begin = from + line.size();
  return page.substr(begin, page.find("```", begin) - begin);
}

/// The commands of a page's blocks, in order: what stands after "$ " at the head of each.
std::vector<std::string> commands_on(const std::string& page) {
  const std::string head = "```\n$ ";
  std::vector<std::string> out;
  for (std::size_t at = page.find(head); at != std::string::npos; at = page.find(head, at)) {
    at += head.size();
    out.push_back(page.substr(at, page.find('\n', at) - at));
  }
  return out;
}

/// The words of a command as a shell takes them: blanks between, none between double quotes.
std::vector<std::string> words_of(const std::string& command) {
  std::vector<std::string> out(1);
  bool quoted = false;
  for (const char c : command) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ' ' && !quoted) {
      out.emplace_back();
    } else {
      out.back() += c;
    }
  }
  return out;
}

/// A command of a page must print what the page shows of it, which may be a part.
void expect_printed(const std::string& page, const std::string& command,
                    const std::string& folder) {
  std::vector<std::string> words = words_of(command);
  words.erase(words.begin());
  const Outcome outcome = drystage(words, {.folder = folder});
  const std::string shown = shown_after(page, command);
  EXPECT_GT(shown.size(), 100U) << "the page shows next to nothing of: " << command;
  EXPECT_THAT(outcome.out, HasSubstr(shown)) << "shown for: " << command << "\n" << outcome.err;
}

TEST(Pages, TheReadmeShowsARealRun) {
  const std::string command = "drystage run scenarios/desert-crossing.yaml";
  const Outcome outcome =
      drystage({"run", "scenarios/desert-crossing.yaml"}, {.folder = project.string()});
  EXPECT_EQ(difference(shown_after(read_file(project / "README.md"), command), outcome.out), "")
      << "if that is meant: sh tests/cli/accept.sh BINARY";
}

TEST(Pages, TheReadmeShowsWhatMishapsReallyDo) {
  const std::string page = read_file(project / "README.md");
  const std::string command = "drystage mishaps scenarios/desert-crossing-mended.yaml";
  ASSERT_THAT(commands_on(page), Contains(command));
  expect_printed(page, command, project.string());
}

TEST(Pages, TheReadmeShowsWhatToLoad) {
  const std::string page = read_file(project / "README.md");
  const std::string command = "drystage size scenarios/desert-crossing.yaml";
  ASSERT_THAT(commands_on(page), Contains(command));
  expect_printed(page, command, project.string());
}

TEST(Pages, TheGuideEndsWithARunOfItsPlanThatHolds) {
  const Outcome outcome =
      drystage({"run", (project / "docs" / "guide-trip.yaml").string(), "--wide"});
  EXPECT_EQ(outcome.status, 0) << outcome.out << outcome.err;
  EXPECT_NE(read_file(project / "docs" / "guide.md").find(outcome.out), std::string::npos)
      << "the guide does not show this:\n"
      << outcome.out;
}

// By then the guide's trip.yaml has become what lies beside it.
TEST(Pages, TheGuideShowsTheNeedsAndMishapsOfItsPlan) {
  const Workspace space;
  std::filesystem::copy_file(project / "docs" / "guide-trip.yaml", space.path("trip.yaml"));
  const std::string page = read_file(project / "docs" / "guide.md");
  const std::vector<std::string> commands = commands_on(page);
  EXPECT_THAT(commands, Contains("drystage needs trip.yaml"));
  EXPECT_THAT(commands, Contains("drystage mishaps trip.yaml --all"));
  for (const std::string& command : commands) {
    const bool of_the_plan = command.starts_with("drystage needs trip.yaml") ||
                             command.starts_with("drystage mishaps trip.yaml");
    if (of_the_plan) expect_printed(page, command, space.folder());
  }
}

// Of its trip.yaml, of the same with what the page adds to it, and of what is written of that.
TEST(Pages, TheGuideShowsWhatToLoadAndWhatBecomesOfIt) {
  const std::string page = read_file(project / "docs" / "guide.md");
  const std::string plan = read_file(project / "docs" / "guide-trip.yaml");
  const std::string head = "```yaml\n";
  const std::size_t added = page.find(head + "size:\n");
  ASSERT_NE(added, std::string::npos);
  const std::size_t begin = added + head.size();
  const Workspace space;
  EXPECT_NE(space.write("trip.yaml", plan), "");
  EXPECT_NE(
      space.write("shop.yaml", plan + "\n" + page.substr(begin, page.find("```", begin) - begin)),
      "");
  int shown = 0;
  for (const std::string& command : commands_on(page)) {
    if (!command.starts_with("drystage size ") && !command.ends_with(" sized.yaml")) continue;
    ++shown;
    expect_printed(page, command, space.folder());
  }
  EXPECT_EQ(shown, 5);
}

}  // namespace
}  // namespace drystage::testing
