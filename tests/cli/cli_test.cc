// The command line as a user meets it: options, exit statuses, and what goes where.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <regex>

#include "cli/process.h"
#include "cli/workspace.h"
#include "support/answer.h"

namespace drystage::testing {
namespace {

using support::unwrapped;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

constexpr int holds = 0;
constexpr int does_not_hold = 1;
constexpr int wrong = 2;
constexpr int file_trouble = 3;

const std::string escape = "\x1b[";

std::string plain(const std::string& text) {
  return std::regex_replace(text, std::regex("\x1b\\[[0-9;]*m"), "");
}

/// A wrong use of the command line: nothing on standard output, the reason on the other.
void expect_refused(const Outcome& outcome, int status, const std::string& reason) {
  EXPECT_EQ(outcome.status, status);
  EXPECT_EQ(outcome.out, "");
  EXPECT_THAT(outcome.err, HasSubstr(reason));
}

// --- help and version ---

TEST(Cli, HelpNamesEveryCommandAndExitStatus) {
  const Outcome outcome = drystage({"--help"});
  EXPECT_EQ(outcome.status, holds);
  EXPECT_EQ(outcome.err, "");
  for (const char* word : {"Usage: drystage", "run", "check", "Exit status"}) {
    EXPECT_THAT(outcome.out, HasSubstr(word));
  }
}

TEST(Cli, HelpOfACommandNamesItsOptionsInEightyColumns) {
  const Outcome outcome = drystage({"run", "--help"});
  EXPECT_EQ(outcome.status, holds);
  for (const char* option : {"--format", "--units", "--wide", "--output", "--set", "--color"}) {
    EXPECT_THAT(outcome.out, HasSubstr(option));
  }
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
}

TEST(Cli, VersionIsTheBuildsVersion) {
  const Outcome outcome = drystage({"--version"});
  EXPECT_EQ(outcome.status, holds);
  EXPECT_EQ(outcome.out, "drystage " DRYSTAGE_VERSION "\n");
}

// --- a wrong command line ---

TEST(Cli, WithoutWordsIsWrongAndShowsTheUsage) {
  const Outcome outcome = drystage({});
  EXPECT_EQ(outcome.status, wrong);
  EXPECT_THAT(outcome.out + outcome.err, HasSubstr("Usage: drystage"));
}

TEST(Cli, SuggestsTheCommandThatWasMeant) {
  expect_refused(drystage({"rnu", scenario_path("base-camp")}), wrong, "did you mean 'run'?");
}

TEST(Cli, SaysWhereThePlanBelongs) {
  expect_refused(drystage({"trip.yaml", "run"}), wrong,
                 "the command comes before the plan, as in drystage run trip.yaml");
  expect_refused(drystage({"run"}), wrong, "expected a plan file, as in drystage run trip.yaml");
}

TEST(Cli, NamesAnUnknownOption) {
  expect_refused(drystage({"run", scenario_path("base-camp"), "--fromat", "json"}), wrong,
                 "--fromat");
  expect_refused(drystage({"check", scenario_path("base-camp"), "--wide"}), wrong, "--wide");
}

TEST(Cli, RefusesAnUnknownFormatUnitOrColor) {
  const std::string plan = scenario_path("base-camp");
  expect_refused(drystage({"run", plan, "--format", "xml"}), wrong, "table, csv, json");
  expect_refused(drystage({"run", plan, "--units", "cubits"}), wrong, "metric, us, imperial");
  expect_refused(drystage({"run", plan, "--color", "blue"}), wrong, "auto, always, never");
}

TEST(Cli, WantsExactlyOnePlan) {
  expect_refused(drystage({"run"}), wrong, "plan");
  expect_refused(drystage({"run", scenario_path("base-camp"), scenario_path("long-loop")}), wrong,
                 "one plan");
}

// --- the plan as a file ---

TEST(Cli, SaysThatAFileIsMissing) {
  const Workspace workspace;
  for (const char* command : {"run", "check"}) {
    expect_refused(drystage({command, workspace.path("no-such-plan.yaml")}), file_trouble,
                   "No such file");
  }
}

TEST(Cli, SaysThatAPlanIsAFolder) {
  const Workspace workspace;
  expect_refused(drystage({"run", workspace.folder()}), file_trouble, "folder");
}

TEST(Cli, TellsAllErrorsOfAWrongPlanAtOnceAndRunsNothing) {
  const std::string plan = std::string(DRYSTAGE_TEST_DATA) + "/wrong/contradictions.yaml";
  for (const char* command : {"run", "check"}) {
    const Outcome outcome = drystage({command, plan});
    expect_refused(outcome, wrong, ": error: ");
    std::size_t errors = 0;
    for (const std::string& line : lines(outcome.err)) {
      if (line.find(": error: ") != std::string::npos) ++errors;
    }
    EXPECT_GE(errors, 3U) << outcome.err;
    EXPECT_THAT(outcome.err, HasSubstr(std::to_string(errors) + " errors; nothing was run"));
  }
}

// --- --set ---

TEST(Cli, SetChangesAValueForThisRun) {
  const std::string plan = scenario_path("desert-crossing");
  EXPECT_EQ(drystage({"run", plan}).status, does_not_hold);
  // The three cans of 20 L that the plan lacks, in one.
  const Outcome outcome =
      drystage({"run", plan, "--set", "water.containers.sealed spare.holds=70 L", "--set",
                "water.containers.sealed spare.filled=70 L"});
  EXPECT_EQ(outcome.status, holds) << outcome.out;
  EXPECT_EQ(drystage({"run", plan}).status, does_not_hold);
}

TEST(Cli, SetMovesTheDayOfTheFirstBreach) {
  const std::string plan = scenario_path("desert-crossing");
  EXPECT_THAT(drystage({"run", plan}).out, HasSubstr("Below its margin from day 9."));
  EXPECT_THAT(drystage({"run", plan, "--set", "margins.drinking_water=1 day"}).out,
              HasSubstr("Below its margin from day 11."));
}

TEST(Cli, SetIsJudgedLikeTheFile) {
  const std::string plan = scenario_path("desert-crossing");
  expect_refused(drystage({"run", plan, "--set", "margins.drinking_wate=1 day"}), wrong,
                 "did you mean \"drinking_water\"?");
  expect_refused(drystage({"run", plan, "--set", "margins.food=many"}), wrong, "food");
  expect_refused(drystage({"run", plan, "--set", "margins.food"}), wrong, "path=value");
}

// --- --output ---

TEST(Cli, OutputWritesTheSameBytesIntoAFile) {
  const Workspace workspace;
  const std::string file = workspace.path("answer.json");
  const std::vector<std::string> words{"run", scenario_path("long-loop"), "--format", "json"};
  const Outcome shown = drystage(words);
  std::vector<std::string> with_output = words;
  with_output.insert(with_output.end(), {"--output", file});
  const Outcome written = drystage(with_output);
  EXPECT_EQ(written.status, shown.status);
  EXPECT_EQ(written.out, "");
  EXPECT_EQ(written.err, "");
  EXPECT_EQ(read_file(file), shown.out);
  EXPECT_THAT(workspace.names(), ElementsAre("answer.json"));
}

TEST(Cli, OutputReplacesWhatWasThere) {
  const Workspace workspace;
  const std::string file =
      workspace.write("answer.txt", std::string(100'000, 'x') + "\nA planning aid.\n");
  const Outcome outcome = drystage({"run", scenario_path("base-camp"), "--output", file});
  EXPECT_EQ(outcome.status, does_not_hold);
  EXPECT_EQ(read_file(file), drystage({"run", scenario_path("base-camp")}).out);
  EXPECT_THAT(workspace.names(), ElementsAre("answer.txt"));
}

TEST(Cli, OutputThatCannotBeWrittenLeavesNothing) {
  const Workspace workspace;
  const std::string no_folder = workspace.path("missing/answer.txt");
  expect_refused(drystage({"run", scenario_path("base-camp"), "--output", no_folder}), file_trouble,
                 no_folder);
  const std::string file = workspace.write("file", "kept");
  expect_refused(drystage({"run", scenario_path("base-camp"), "--output", file + "/answer.txt"}),
                 file_trouble, file + "/answer.txt");
  EXPECT_EQ(read_file(file), "kept");
  EXPECT_THAT(workspace.names(), ElementsAre("file"));
}

TEST(Cli, OutputOfAWrongPlanLeavesTheOldFileAsItWas) {
  const Workspace workspace;
  const std::string file = workspace.write("answer.txt", "last week's answer\n");
  const std::string plan = std::string(DRYSTAGE_TEST_DATA) + "/wrong/contradictions.yaml";
  EXPECT_EQ(drystage({"run", plan, "--output", file}).status, wrong);
  EXPECT_EQ(read_file(file), "last week's answer\n");
  EXPECT_THAT(workspace.names(), ElementsAre("answer.txt"));
}

TEST(Cli, AFullDiskIsTroubleWithAFile) {
  const Outcome outcome = drystage({"run", scenario_path("base-camp")}, {.out_to = "/dev/full"});
  EXPECT_EQ(outcome.status, file_trouble);
  EXPECT_THAT(outcome.err, HasSubstr("No space left on device"));
}

TEST(Cli, AnEmptyNameOfAFileIsRefused) {
  for (const char* command : {"run", "check", "odds", "size", "weigh"}) {
    expect_refused(drystage({command, scenario_path("base-camp"), "--output", ""}), wrong,
                   "--output: expected the name of a file, and this one is empty; without "
                   "--output it goes to standard output");
  }
  expect_refused(drystage({"run", scenario_path("base-camp"), "--chart", ""}), wrong,
                 "--chart: expected the name of a file");
  expect_refused(drystage({"size", scenario_path("base-camp"), "--write", ""}), wrong,
                 "--write: expected the name of a file");
  expect_refused(drystage({"schema", "--output", ""}), wrong, "--output: expected");
}

TEST(Cli, TellsOfAUnitThatStandsApartFromItsNumber) {
  expect_refused(drystage({"odds", scenario_path("base-camp"), "--at-most", "5", "%"}), wrong,
                 "5 and % came as two words: write 5% as one, or put quotes around both, as in "
                 "\"5 %\"");
  expect_refused(
      drystage({"resume", scenario_path("base-camp"), "--evening", "2", "--drinking", "85", "L"}),
      wrong, "write 85L as one");
  expect_refused(drystage({"odds", "--at-most=5", "%", scenario_path("base-camp")}), wrong,
                 "write 5% as one");
}

// --- --units ---

TEST(Cli, UnitsChangeWhatTheTableShows) {
  const std::string plan = scenario_path("desert-crossing");
  const std::string metric = drystage({"run", plan}).out;
  EXPECT_THAT(metric, HasSubstr(" km "));
  EXPECT_THAT(metric, HasSubstr("°C"));
  EXPECT_THAT(metric, Not(HasSubstr("gal")));
  const std::string us = drystage({"run", plan, "--units", "us"}).out;
  EXPECT_THAT(us, HasSubstr("US gal"));
  EXPECT_THAT(us, HasSubstr("°F"));
  EXPECT_THAT(us, HasSubstr(" mi "));
  const std::string imperial = drystage({"run", plan, "--units", "imperial"}).out;
  EXPECT_THAT(imperial, HasSubstr("imp gal"));
  EXPECT_THAT(imperial, HasSubstr("°C"));
  EXPECT_THAT(imperial, HasSubstr(" mi "));
}

TEST(Cli, UnitsDoNotChangeTheVerdict) {
  for (const std::string& name : scenarios()) {
    const int status = drystage({"run", scenario_path(name)}).status;
    for (const char* system : {"us", "imperial"}) {
      EXPECT_EQ(drystage({"run", scenario_path(name), "--units", system}).status, status) << name;
    }
  }
}

// --- --wide ---

TEST(Cli, AllAndWideShowWhatTheUsualTableLeavesOut) {
  const std::string plan = scenario_path("family-two-vehicles");
  EXPECT_THAT(unwrapped(drystage({"run", plan}).out), HasSubstr("--all shows them."));
  for (const char* option : {"--all", "--wide"}) {
    const std::string all = drystage({"run", plan, option}).out;
    EXPECT_THAT(all, Not(HasSubstr("--all")));
    for (const char* title : {"Drinking", "Utility", "Fuel van", "Fuel car", "Battery", "Food"}) {
      EXPECT_THAT(all, HasSubstr(title)) << option;
    }
  }
}

TEST(Cli, ATerminalsWidthIsUsed) {
  const std::string plan = scenario_path("high-plateau");
  const auto longest = [](const Outcome& outcome) {
    int most = 0;
    for (const std::string& line : lines(outcome.out)) {
      most = std::max(most, terminal_columns(line));
    }
    return most;
  };
  const std::vector<std::string> words{"run", plan, "--color", "never"};
  const Outcome piped = drystage(words);
  const Outcome usual = drystage(words, {.out_is_terminal = true});
  EXPECT_EQ(usual.out, piped.out);
  const Outcome wide = drystage(words, {.out_is_terminal = true, .columns = 140});
  EXPECT_GT(longest(wide), 80);
  EXPECT_LE(longest(wide), 140);
  // More than two hundred nobody reads.
  EXPECT_LE(longest(drystage(words, {.out_is_terminal = true, .columns = 1000})), 200);
  // Prose is as narrow as it must be; tables have their 80.
  const Outcome narrow = drystage(words, {.out_is_terminal = true, .columns = 66});
  EXPECT_LE(terminal_columns(lines(narrow.out).front()), 66);
  EXPECT_LE(longest(narrow), 80);
  // What goes into a file is the same everywhere.
  const Workspace workspace;
  std::vector<std::string> into = words;
  into.insert(into.end(), {"--output", workspace.path("answer.txt")});
  EXPECT_LE(drystage(into, {.out_is_terminal = true, .columns = 140}).status, 1);
  EXPECT_EQ(longest({.out = read_file(workspace.path("answer.txt"))}), longest(piped));
}

TEST(Cli, ATableWithNamesInWideCharactersFitsEightyColumns) {
  const Workspace workspace;
  std::string text = read_file(scenario_path("base-camp"));
  const std::string name = "Pelican Sound";
  for (std::size_t at = text.find(name); at != std::string::npos; at = text.find(name)) {
    text.replace(at, name.size(), "ペリカンの長い入り江のキャンプ");
  }
  const Outcome outcome = drystage({"run", workspace.write("plan.yaml", text)});
  EXPECT_EQ(outcome.status, does_not_hold) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("ペリカン"));
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
}

// --- --color ---

TEST(Cli, ColorIsForTerminalsUnlessAsked) {
  const std::string plan = scenario_path("desert-crossing");
  const std::string never = drystage({"run", plan, "--color", "never"}).out;
  EXPECT_THAT(never, Not(HasSubstr(escape)));
  EXPECT_EQ(drystage({"run", plan}).out, never);
  const std::string always = drystage({"run", plan, "--color", "always"}).out;
  EXPECT_THAT(always, HasSubstr(escape));
  EXPECT_EQ(plain(always), never);
}

TEST(Cli, BreachesAreMarkedBySignNotByColorAlone) {
  const Outcome outcome = drystage({"run", scenario_path("desert-crossing"), "--color", "never"});
  int marked = 0;
  for (const std::string& line : lines(outcome.out)) {
    if (std::regex_search(line, std::regex("^ *1[1-4] .*! *[0-9]"))) ++marked;
  }
  EXPECT_EQ(marked, 4);
}

TEST(Cli, MachinesGetNoColor) {
  for (const char* format : {"json", "csv"}) {
    const Outcome outcome = drystage(
        {"run", scenario_path("desert-crossing"), "--format", format, "--color", "always"});
    EXPECT_THAT(outcome.out, Not(HasSubstr(escape)));
  }
}

}  // namespace
}  // namespace drystage::testing
