// What `drystage help`, `drystage completion` and the manual page say: all from one table.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "cli/process.h"
#include "cli/topics.h"
#include "cli/workspace.h"
#include "support/answer.h"

namespace drystage::testing {
namespace {

using support::unwrapped;
using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

std::string help(const std::string& of) {
  const Outcome outcome = drystage({"help", of});
  EXPECT_EQ(outcome.status, 0) << of;
  return outcome.out;
}

/// What another program prints; the test fails where it does.
std::string printed(const std::string& name, const std::vector<std::string>& words) {
  const Outcome outcome = program(name, words);
  EXPECT_EQ(outcome.status, 0) << name << ": " << outcome.err;
  return outcome.out;
}

/// The names that stand under a head of the list of commands and topics.
std::vector<std::string> names_under(const std::string& head) {
  std::vector<std::string> out;
  const std::string all = drystage({"help"}).out;
  for (const std::string& line : lines(all.substr(all.find(head) + head.size() + 1))) {
    if (line.empty()) break;
    const bool begins = line.starts_with("  ") && line[2] != ' ';
    if (begins) out.push_back(line.substr(2, line.find(' ', 2) - 2));
  }
  return out;
}

std::vector<std::string> commands() { return names_under("Commands:"); }

TEST(Help, NamesEveryCommandAndTopicOnOneScreen) {
  EXPECT_THAT(commands(), ElementsAre("start", "run", "check", "size", "needs", "mishaps", "odds",
                                      "weigh", "resume", "card", "schema", "completion", "help"));
  EXPECT_THAT(names_under("Topics of `drystage help`:"),
              ElementsAre("words", "margins", "cautions", "exit"));
  const std::string all = drystage({"help"}).out;
  EXPECT_EQ(all, drystage({"--help"}).out);
  for (const std::string& line : lines(all)) EXPECT_LE(terminal_columns(line), 80) << line;
  EXPECT_LE(lines(all).size(), 40U);
}

TEST(Help, OfACommandIsWhatItsOwnHelpSays) {
  for (const std::string& command : commands()) {
    const std::string text = help(command);
    EXPECT_EQ(text, drystage({command, "--help"}).out);
    EXPECT_THAT(text, StartsWith("Usage: drystage " + command + " "));
    for (const std::string& line : lines(text)) EXPECT_LE(terminal_columns(line), 80) << line;
  }
}

TEST(Help, ShowsExamplesWhoseOptionsThereAre) {
  for (const std::string& command : commands()) {
    const std::string text = help(command);
    const std::size_t from = text.find("\nExamples:\n");
    const std::size_t until = text.find("\nOptions:\n");
    ASSERT_LT(from, until) << command;
    const std::string examples = text.substr(from, until - from);
    EXPECT_THAT(examples, HasSubstr("drystage " + command));
    const std::string options = text.substr(until);
    for (std::size_t at = examples.find(" --"); at != std::string::npos;
         at = examples.find(" --", at + 1)) {
      const std::size_t end = examples.find_first_of(" \n", at + 1);
      EXPECT_THAT(options, HasSubstr(examples.substr(at + 1, end - at - 1)));
    }
  }
}

TEST(Help, OfATopicSaysItAll) {
  for (const cli::Topic& topic : cli::topics) {
    const std::string text = help(topic.name);
    EXPECT_THAT(text, StartsWith(topic.title));
    for (const std::string& line : lines(topic.text)) {
      EXPECT_THAT(unwrapped(text), HasSubstr(line));
    }
    for (const std::string& line : lines(text)) EXPECT_LE(terminal_columns(line), 80) << line;
  }
}

TEST(Help, SuggestsWhatWasMeant) {
  const Outcome outcome = drystage({"help", "nedes"});
  EXPECT_EQ(outcome.status, 2);
  EXPECT_THAT(outcome.err, HasSubstr("did you mean 'needs'?"));
  EXPECT_THAT(drystage({"help", "marginz"}).err, HasSubstr("did you mean 'margins'?"));
}

TEST(ManPage, IsWhatTheProgramPrintsAndHasEveryOption) {
  const auto docs = std::filesystem::path(DRYSTAGE_TEST_DATA).parent_path() / "docs";
  const std::string page = help("man");
  EXPECT_EQ(page, read_file(docs / "drystage.1")) << "sh tests/cli/accept.sh writes it anew";
  const std::string lint =
      program("mandoc", {"-T", "lint", "-W", "warning", (docs / "drystage.1").string()}).out;
  EXPECT_THAT(lint, AllOf(Not(HasSubstr("WARNING")), Not(HasSubstr("ERROR"))));
  const std::string shown = printed("mandoc", {"-T", "markdown", (docs / "drystage.1").string()});
  for (const std::string& command : commands()) {
    EXPECT_THAT(shown, HasSubstr("drystage " + command + " "));
  }
  EXPECT_THAT(page, HasSubstr(".It Fl \\-survive Ar KIND,..."));
}

// --- completion ---

std::string script(const std::string& shell) {
  const Outcome outcome = drystage({"completion", shell});
  EXPECT_EQ(outcome.status, 0);
  return outcome.out;
}

/// What bash offers for a line that ends in what is being typed.
std::string bash_offers(const std::string& line) {
  const std::string last = std::to_string(std::ranges::count(line, ' '));
  return printed("bash", {"-c", script("bash") + "COMP_WORDS=(" + line + ")\nCOMP_CWORD=" + last +
                                    "\n_drystage\nprintf '%s\\n' \"${COMPREPLY[@]}\""});
}

TEST(Completion, OfBashKnowsCommandsOptionsAndTopics) {
  EXPECT_EQ(bash_offers("drystage mi"), "mishaps\n");
  EXPECT_EQ(bash_offers("drystage size --su"), "--survive\n");
  EXPECT_EQ(bash_offers("drystage needs --su"), "\n");
  EXPECT_EQ(bash_offers("drystage help caut"), "cautions\n");
  EXPECT_EQ(bash_offers("drystage completion f"), "fish\n");
  EXPECT_THAT(bash_offers("drystage run /et"), HasSubstr("/etc"));
}

TEST(Completion, OfFishKnowsCommandsOptionsAndTopics) {
  const auto offers = [](const std::string& line) {
    return printed("fish", {"-c", script("fish") + "complete -C '" + line + "'"});
  };
  EXPECT_THAT(offers("drystage mi"), StartsWith("mishaps\tWhat if any one thing breaks?"));
  EXPECT_THAT(offers("drystage size --su"), StartsWith("--survive"));
  EXPECT_THAT(offers("drystage needs --su"), Not(HasSubstr("--survive")));
  EXPECT_EQ(offers("drystage help caut"), "cautions\n");
}

TEST(Completion, OfZshIsReadWithoutComplaint) {
  const std::string read = "compdef() { echo \"$1 for $2\"; }\n" + script("zsh");
  EXPECT_EQ(printed("zsh", {"-f", "-c", read}), "_drystage for drystage\n");
}

TEST(Completion, OfAnotherShellIsRefused) {
  const Outcome outcome = drystage({"completion", "tcsh"});
  EXPECT_EQ(outcome.status, 2);
  EXPECT_THAT(outcome.err, HasSubstr("expected bash, zsh or fish"));
}

}  // namespace
}  // namespace drystage::testing
