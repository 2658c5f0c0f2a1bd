// Every shipped scenario, run as a user runs it: its outputs, compared with those under
// tests/cli/expected. What reserves do each day is kept in CSV; JSON says the same (csv_test.cc),
// and is kept whole for one scenario. After a deliberate change of behaviour `tests/cli/accept.sh
// BINARY` writes them anew; read them before accepting them.

#include <gtest/gtest.h>

#include <filesystem>
#include <set>

#include "cli/json_difference.h"
#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing {
namespace {

const std::filesystem::path expected_folder =
    std::filesystem::path(DRYSTAGE_TEST_DATA) / "cli" / "expected";

/// The scenario with the shortest JSON of those with a bank and a cabinet part of which freezes.
constexpr const char* kept_whole = "family-two-vehicles";

/// One kind of output that is kept for a scenario.
struct Kept {
  const char* ending;
  std::vector<std::string> options;
};

const std::vector<Kept>& kept() {
  static const std::vector<Kept> all{{"txt", {}},
                                     {"wide.txt", {"--wide"}},
                                     {"json", {"--format", "json"}},
                                     {"csv", {"--format", "csv"}}};
  return all;
}

std::vector<std::string> run_words(const std::string& plan, const std::vector<std::string>& more) {
  std::vector<std::string> words{"run", plan};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

/// What is written down for each scenario: its exit status.
int expected_status(const std::string& name) {
  for (const std::string& line : lines(read_file(expected_folder / "statuses"))) {
    if (line.substr(0, line.find(' ')) == name) return std::stoi(line.substr(line.find(' ') + 1));
  }
  ADD_FAILURE() << "no exit status is written down for " << name;
  return -1;
}

class Scenario : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, Scenario, ::testing::ValuesIn(scenarios()), AsTestName{});

TEST_P(Scenario, PrintsWhatIsWrittenDown) {
  const int status = expected_status(GetParam());
  for (const Kept& kind : kept()) {
    const Outcome outcome = drystage(run_words(scenario_path(GetParam()), kind.options));
    EXPECT_EQ(outcome.status, status);
    EXPECT_EQ(outcome.err, "");
    const std::string file = GetParam() + "." + kind.ending;
    const bool is_json = file.ends_with(".json");
    const bool whole = !is_json || GetParam() == kept_whole;
    const auto compare = is_json ? json_difference : difference;
    EXPECT_EQ(compare(read_file(expected_folder / file),
                      whole ? outcome.out : without_days_of_reserves(outcome.out)),
              "")
        << "in " << file << "; if that is meant: sh tests/cli/accept.sh BINARY";
  }
}

TEST_P(Scenario, IsARightFile) {
  const Outcome outcome = drystage({"check", GetParam() + ".yaml"}, {.folder = DRYSTAGE_SCENARIOS});
  EXPECT_EQ(outcome.status, 0);
  EXPECT_EQ(outcome.err, "");
  EXPECT_EQ(outcome.out.rfind(GetParam() + ".yaml: right: ", 0), 0U) << outcome.out;
}

// Two are enough: every sort of reserve is in one of them, and the words are the same in all.
TEST(Scenarios, PrintTheSameInEveryLocaleTimeZoneAndFolder) {
  const std::vector<Surroundings> places{
      {.set = {{"LC_ALL", "C"}}},
      {.set = {{"LC_ALL", "C.UTF-8"}, {"LANG", "C.UTF-8"}}},
      {.set = {{"LOCPATH", DRYSTAGE_TEST_LOCALES}, {"LC_ALL", "de_DE.UTF-8"}}},
      {.set = {{"LOCPATH", DRYSTAGE_TEST_LOCALES}, {"LANG", "de_DE.UTF-8"}}, .unset = {"LC_ALL"}},
      {.set = {{"TZ", "Pacific/Kiritimati"}}},
      {.set = {{"TZ", "America/Los_Angeles"}}},
      {.folder = "/"},
  };
  for (const char* scenario : {"base-camp", "family-two-vehicles"}) {
    for (const Kept& kind : kept()) {
      const std::vector<std::string> words = run_words(scenario_path(scenario), kind.options);
      const Outcome here = drystage(words);
      for (const Surroundings& place : places) {
        const Outcome there = drystage(words, place);
        EXPECT_EQ(there.status, here.status);
        EXPECT_EQ(there.err, here.err);
        EXPECT_EQ(difference(here.out, there.out), "")
            << (place.set.empty() ? place.folder : place.set.front().second);
      }
    }
  }
}

TEST_P(Scenario, FitsEightyColumns) {
  for (const char* system : {"metric", "us", "imperial"}) {
    const Outcome outcome = drystage({"run", scenario_path(GetParam()), "--units", system});
    for (const std::string& line : lines(outcome.out)) {
      EXPECT_LE(terminal_columns(line), 80) << line;
    }
  }
}

TEST_P(Scenario, BeginsWithTheVerdict) {
  const Outcome outcome = drystage({"run", scenario_path(GetParam())});
  const std::string begins = outcome.status == 0 ? "HOLDS" : "DOES NOT HOLD: ";
  EXPECT_EQ(outcome.out.substr(0, begins.size()), begins);
  const bool fixes = outcome.out.find("\nFix: ") != std::string::npos &&
                     outcome.out.find("\nThen the plan holds.") != std::string::npos;
  EXPECT_EQ(fixes, outcome.status == 1);
}

TEST_P(Scenario, SaysThatItIsInvented) {
  const std::string text = read_file(scenario_path(GetParam()));
  EXPECT_EQ(text.front(), '#');
  const std::string comment = text.substr(0, text.find("\ndrystage:"));
  EXPECT_NE(comment.find("invented"), std::string::npos);
}

TEST(Comparing, ShowsTheLinesThatDiffer) {
  EXPECT_EQ(difference("a\nb\nc\n", "a\nb\nc\n"), "");
  EXPECT_EQ(difference("a\nb\nc\n", "a\nx\nc\nd\n"), "- 2: b\n+ 2: x\n+ 4: d\n");
  EXPECT_NE(difference("a\nb\n", "a\nb"), "");
}

TEST(Comparing, ShowsTheValuesThatDiffer) {
  EXPECT_EQ(json_difference(R"({"a": [1, 2.5]})", R"({"a": [1, 2.5000000000001]})"), "");
  EXPECT_EQ(json_difference(R"({"a": [1, 2.5]})", R"({"a": [1, 2.501], "b": "x"})"),
            "- /a/1: 2.5\n+ /a/1: 2.501\n+ /b: \"x\"\n");
  EXPECT_EQ(json_difference(R"({"a": 1, "b": true})", R"({"a": 1})"), "- /b: true\n");
}

TEST(Scenarios, HaveNoExpectationsLeftOverFromOnesThatAreGone) {
  std::set<std::string> wanted{"statuses"};
  for (const std::string& name : scenarios()) {
    for (const Kept& kind : kept()) wanted.insert(name + "." + kind.ending);
  }
  for (const auto& entry : std::filesystem::directory_iterator(expected_folder)) {
    EXPECT_TRUE(wanted.contains(entry.path().filename().string())) << entry.path();
  }
}

TEST(Scenarios, TheDesertCrossingFailsOnTheDayThatItsCommentNames) {
  const std::string path = scenario_path("desert-crossing");
  const Outcome outcome = drystage({"run", path});
  EXPECT_TRUE(outcome.out.starts_with("DOES NOT HOLD: drinking water runs out on day 12,"))
      << outcome.out;
  EXPECT_NE(outcome.out.find("Below its margin from day 9."), std::string::npos);
  EXPECT_NE(read_file(path).find("day 9, Tuesday 16 March 2027"), std::string::npos);
}

TEST(Scenarios, TheDesertCrossingIsMendedByWhatItsAnswerNames) {
  const std::string failing = read_file(scenario_path("desert-crossing"));
  const std::string mended = read_file(scenario_path("desert-crossing-mended"));
  const Outcome outcome = drystage({"run", scenario_path("desert-crossing")});
  EXPECT_NE(outcome.out.find("Fix: three more 20 L containers of drinking water."),
            std::string::npos);
  EXPECT_EQ(drystage({"run", scenario_path("desert-crossing-mended")}).status, 0);
  // Beyond comment and title, the two files differ in those containers alone.
  const auto plan = [](const std::string& text) { return text.substr(text.find("\nmargins:")); };
  const std::vector<std::string> changes = lines(difference(plan(failing), plan(mended)));
  ASSERT_EQ(changes.size(), 3U);
  for (const std::string& change : changes) {
    EXPECT_EQ(change.front(), '+');
    EXPECT_NE(change.find("holds: 20 L, filled: 20 L, for: drinking"), std::string::npos) << change;
  }
}

TEST(Scenarios, TheBaseCampsBatteryFailsOnTheDayThatItsCommentNames) {
  const std::string path = scenario_path("base-camp");
  const Outcome outcome = drystage({"run", path});
  EXPECT_TRUE(outcome.out.starts_with(
      "DOES NOT HOLD: camp bank falls below its margin on day 7, Sun 17 Jan 2027"))
      << outcome.out;
  EXPECT_NE(read_file(path).find("day 7, Sunday 17 January 2027"), std::string::npos);
}

TEST(Scenarios, TheLongLoopHoldsAndSaysWhatDependsOnAPromise) {
  const Outcome outcome = drystage({"run", scenario_path("long-loop")});
  EXPECT_TRUE(outcome.out.starts_with("HOLDS IN USUAL WEATHER, AND ONLY IF ")) << outcome.out;
  for (const char* words :
       {"Not confirmed: diesel at Saint Odo Mission.", "Without, fuel of truck runs out",
        "diesel at Sandover Store: shut, next open Tue 11 May", "brackish water in wash can"}) {
    EXPECT_NE(outcome.out.find(words), std::string::npos) << words;
  }
}

}  // namespace
}  // namespace drystage::testing
