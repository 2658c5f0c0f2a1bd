// What the pages show is what the program prints.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::StartsWith;

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
  std::vector<std::string> words = words_of(command.substr(0, command.find(" | ")));
  words.erase(words.begin());
  const Outcome outcome = drystage(words, {.folder = folder});
  const std::string shown = shown_after(page, command);
  EXPECT_GT(shown.size(), 20U) << "the page shows next to nothing of: " << command;
  EXPECT_THAT(outcome.out, HasSubstr(shown)) << "shown for: " << command << "\n" << outcome.err;
}

TEST(Pages, TheReadmeShowsARealVerdict) {
  const std::string page = read_file(project / "README.md");
  const std::string command = "drystage run scenarios/desert-crossing.yaml";
  ASSERT_THAT(commands_on(page), Contains(command));
  expect_printed(page, command, project.string());
  EXPECT_THAT(shown_after(page, command), StartsWith("DOES NOT HOLD: "));
}

TEST(Pages, TheReadmeShowsTheFrontOfTheCard) {
  EXPECT_TRUE(std::filesystem::exists(project / "docs" / "card.png"));
  EXPECT_LT(std::filesystem::file_size(project / "docs" / "card.png"), 300'000U);
  EXPECT_THAT(read_file(project / "README.md"), HasSubstr("docs/card.png"));
}

/// Words between blanks; of a link what is shown of it.
std::size_t words_in(const std::string& page) {
  std::istringstream words(page);
  return static_cast<std::size_t>(std::distance(std::istream_iterator<std::string>(words),
                                                std::istream_iterator<std::string>()));
}

TEST(Pages, TheGuideIsShortAndBeginsWithAFirstPlan) {
  const std::string page = read_file(project / "docs" / "guide.md");
  EXPECT_LT(words_in(page), 3400U);
  EXPECT_LT(page.find("drystage start"), page.find("## 2."));
}

// Its trip.yaml is what `start` writes.
TEST(Pages, TheGuideShowsWhatTheProgramPrints) {
  const Workspace space;
  EXPECT_EQ(drystage({"start", "--defaults", "--output", space.path("trip.yaml")}).status, 0);
  const std::string page = read_file(project / "docs" / "guide.md");
  const std::vector<std::string> commands = commands_on(page);
  EXPECT_GE(commands.size(), 6U);
  for (const std::string& command : commands) expect_printed(page, command, space.folder());
}

TEST(Pages, TheEveningShowsWhatTheProgramPrints) {
  const std::string page = read_file(project / "docs" / "evening.md");
  const std::vector<std::string> commands = commands_on(page);
  EXPECT_EQ(commands.size(), 2U);
  for (const std::string& command : commands) expect_printed(page, command, project.string());
  EXPECT_LT(words_in(page), 1000U);
}

// What it tells people to add is read by the program.
TEST(Pages, TheGuideAddsWhatThePlanTakes) {
  const std::string page = read_file(project / "docs" / "guide.md");
  const std::string head = "```yaml\n";
  const std::size_t begin = page.find(head) + head.size();
  const std::string added = page.substr(begin, page.find("```", begin) - begin);
  std::string plan = drystage({"start", "--defaults"}).out;
  const std::size_t places = plan.find("places:");
  const std::size_t itinerary = plan.find("\nitinerary:") + 1;
  const std::size_t vehicles = plan.find("\nvehicles:") + 1;
  const std::string of_the_page = added.substr(added.find("  Long Pan:"));
  const std::size_t rest = of_the_page.find("itinerary:");
  plan = plan.substr(0, itinerary) + of_the_page.substr(0, rest) + of_the_page.substr(rest) +
         plan.substr(vehicles);
  ASSERT_LT(places, itinerary);
  const Workspace space;
  const std::string path = space.write("trip.yaml", plan);
  const Outcome checked = drystage({"check", path});
  EXPECT_EQ(checked.status, 0) << checked.err;
}

}  // namespace
}  // namespace drystage::testing
