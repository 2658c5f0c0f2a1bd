// When `run` draws lines of block characters.
#include "cli/sparklines.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

constexpr LocaleVariables utf8{.lang = "en_GB.UTF-8"};

TEST(Sparklines, AreForTerminalsThatCanAndTextInUtf8) {
  EXPECT_TRUE(wants_sparklines(true, "xterm", utf8));
  EXPECT_FALSE(wants_sparklines(false, "xterm", utf8));
  EXPECT_FALSE(wants_sparklines(true, "dumb", utf8));
  EXPECT_FALSE(wants_sparklines(true, nullptr, utf8));
  EXPECT_FALSE(wants_sparklines(true, "xterm", {}));
  EXPECT_FALSE(wants_sparklines(true, "xterm", {.lang = "C"}));
}

TEST(Sparklines, GoByTheFirstLocaleVariableThatIsSet) {
  EXPECT_TRUE(is_utf8({.all = "C.UTF-8", .ctype = "C", .lang = "C"}));
  EXPECT_FALSE(is_utf8({.all = "C", .ctype = "C.UTF-8", .lang = "C.UTF-8"}));
  EXPECT_FALSE(is_utf8({.ctype = "de_DE.ISO-8859-1", .lang = "C.UTF-8"}));
  EXPECT_TRUE(is_utf8({.all = "", .ctype = "", .lang = "C.UTF-8"}));
}

TEST(Sparklines, KnowUtf8HoweverItIsSpelt) {
  for (const char* name : {"C.utf8", "en_US.UTF8", "sr_RS.UTF-8@latin", "UTF-8", "de_DE.utf-8"}) {
    EXPECT_TRUE(is_utf8({.lang = name})) << name;
  }
  for (const char* name :
       {"C", "POSIX", "en_US", "ja_JP.EUC-JP", "ru_RU.KOI8-R", "x.UTF-16", "de_DE@utf8"}) {
    EXPECT_FALSE(is_utf8({.lang = name})) << name;
  }
}

/// `run` as it prints to a terminal.
std::string on_a_terminal(std::vector<std::string> more, const std::string& locale,
                          const std::string& term = "xterm") {
  std::vector<std::string> words{"run", testing::scenario_path("base-camp"), "--color", "never"};
  words.insert(words.end(), more.begin(), more.end());
  const testing::Outcome outcome = testing::drystage(
      words, {.set = {{"LC_ALL", locale}, {"TERM", term}}, .out_is_terminal = true});
  EXPECT_LT(outcome.status, 2) << outcome.err;
  return outcome.out;
}

const char* const lowest_block = "▁";

TEST(SparklinesOfRun, StandBelowTheTablesOnATerminalWithAll) {
  const std::string text = on_a_terminal({"--all"}, "C.UTF-8");
  EXPECT_THAT(text, HasSubstr(lowest_block));
  for (const std::string& line : testing::lines(text)) {
    EXPECT_LE(testing::terminal_columns(line), 80) << line;
  }
  // All else is what goes into a pipe.
  const std::string piped = testing::drystage({"run", testing::scenario_path("base-camp"), "--all"},
                                              {.set = {{"LC_ALL", "C.UTF-8"}}})
                                .out;
  EXPECT_THAT(piped, Not(HasSubstr(lowest_block)));
  const std::size_t block = text.find(lowest_block);
  const std::size_t begin = text.rfind("\n\n", block) + 1;
  const std::size_t end = text.find("\n\n", block) + 1;
  ASSERT_LT(begin, end);
  EXPECT_EQ(text.substr(0, begin) + text.substr(end), piped);
}

// One screen has no room for them.
TEST(SparklinesOfRun, StayAwayWithoutAll) {
  EXPECT_EQ(on_a_terminal({}, "C.UTF-8"),
            testing::drystage({"run", testing::scenario_path("base-camp")}).out);
}

TEST(SparklinesOfRun, StayAwayWhereTheyCannotBeShownOrWereNotAskedFor) {
  EXPECT_THAT(on_a_terminal({"--all"}, "C"), Not(HasSubstr(lowest_block)));
  EXPECT_THAT(on_a_terminal({"--all"}, "C.UTF-8", "dumb"), Not(HasSubstr(lowest_block)));
  for (const char* format : {"csv", "json"}) {
    EXPECT_THAT(on_a_terminal({"--all", "--format", format}, "C.UTF-8"),
                Not(HasSubstr(lowest_block)));
  }
  const testing::Workspace workspace;
  const std::string file = workspace.path("run.txt");
  EXPECT_EQ(on_a_terminal({"--all", "--output", file}, "C.UTF-8"), "");
  EXPECT_THAT(testing::read_file(file), Not(HasSubstr(lowest_block)));
}

}  // namespace
}  // namespace drystage::cli
