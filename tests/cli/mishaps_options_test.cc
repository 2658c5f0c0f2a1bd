// What `drystage mishaps` takes on the command line, and what it refuses.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing::mishaps_options_test {
namespace {

using ::testing::HasSubstr;
using Json = nlohmann::ordered_json;

constexpr int wrong = 2;

Outcome mishaps(const std::vector<std::string>& options) {
  std::vector<std::string> words{"mishaps", scenario_path("base-camp")};
  words.insert(words.end(), options.begin(), options.end());
  return drystage(words);
}

void expect_refused(const std::vector<std::string>& options, const std::string& reason) {
  const Outcome outcome = mishaps(options);
  EXPECT_EQ(outcome.status, wrong);
  EXPECT_EQ(outcome.out, "");
  EXPECT_THAT(outcome.err, HasSubstr(reason));
}

TEST(MishapsOptions, HelpNamesThemAndEveryKindInEightyColumns) {
  const Outcome outcome = drystage({"mishaps", "--help"});
  EXPECT_EQ(outcome.status, 0);
  for (const char* word : {"--two", "--only", "--days", "--jobs", "container", "supply", "stuck",
                           "shut", "compressor", "charger", "battery", "vehicle", "heat_wave",
                           "dull_spell", "soft_going", "one_more", "own"}) {
    EXPECT_THAT(outcome.out, HasSubstr(word));
  }
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
}

TEST(MishapsOptions, AreOfNoOtherCommand) {
  for (const char* command : {"run", "check", "needs"}) {
    for (const char* option : {"--two", "--only", "--days"}) {
      const Outcome outcome = drystage({command, scenario_path("base-camp"), option});
      EXPECT_EQ(outcome.status, wrong);
      EXPECT_THAT(outcome.err, HasSubstr(std::string("no option '") + option + "'"));
    }
  }
}

TEST(MishapsOptions, OnlyRefusesWhatIsNoKind) {
  expect_refused({"--only", "suply"},
                 "--only suply: no such kind of mishap; did you mean \"supply\"?");
  expect_refused({"--only", "supply,meteor"}, "--only meteor: no such kind of mishap. Kinds are ");
  expect_refused({"--only", "meteor"}, "one_more or own");
  expect_refused({"--only", "stuck,"}, "no such kind of mishap");
  expect_refused({"--only", ""}, "no such kind of mishap");
}

TEST(MishapsOptions, OnlyMayBeRepeatedOrHaveCommas) {
  const Outcome outcome = mishaps({"--only", "stuck,heat_wave", "--only", "one_more", "--only",
                                   "stuck", "--days", "2", "--format", "json"});
  const Json tried = Json::parse(outcome.out).at("tried");
  EXPECT_EQ(tried.at("only"), Json({"stuck", "heat_wave", "one_more"}));
  EXPECT_EQ(tried.at("days"), Json({2, 2}));
}

TEST(MishapsOptions, DaysRefusesWhatIsNoDayOfTheTrip) {
  for (const char* text : {"x", "0", "3-", "-", "3-x", "2.5", "3-5-7", "", "99999999999"}) {
    expect_refused({"--days", text}, "expected a day of the trip");
  }
  expect_refused({"--days", "5-3"}, "did you mean --days 3-5?");
  expect_refused({"--days", "900"}, "--days 900: the trip has ");
  expect_refused({"--days", "2-900"}, "--days 2-900: the trip has ");
}

TEST(MishapsOptions, JobsRefusesWhatIsNoNumberOfThreads) {
  for (const char* text : {"0", "many", "2.5", "9999", ""}) {
    expect_refused({"--jobs", text}, "expected a number of threads, from 1 to 1024");
  }
}

TEST(MishapsOptions, JobsChangesNothingOfTheAnswer) {
  const Outcome one = mishaps({"--jobs", "1", "--format", "json"});
  EXPECT_EQ(mishaps({"--jobs", "3", "--format", "json"}).out, one.out);
  EXPECT_EQ(Json::parse(one.out).at("format"), "drystage.mishaps/1");
}

TEST(MishapsOptions, DrawsNoProgressWhereNobodyLooks) {
  EXPECT_EQ(mishaps({"--only", "stuck"}).err, "");
}

}  // namespace
}  // namespace drystage::testing::mishaps_options_test
