// What `drystage size` takes on the command line, and what it refuses.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "cli/process.h"
#include "cli/workspace.h"
#include "support/plan_text.h"

namespace drystage::testing::size_options_test {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::ordered_json;

constexpr int wrong = 2;

/// Three days with a few cans, two of which share a name with another thing.
support::PlanText small_trip() {
  support::PlanText plan;
  plan.margins = {"drinking_water: 5 L", "fuel: 5 L"};
  plan.containers = {
      "{name: can 1, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.2 kg}",
      "{name: \"can, blue\", holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.2 kg}",
      "{name: spare, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1.2 kg}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2200 kg, limit: 3500 kg}, tanks: "
      "[{name: main tank, holds: 90 L, filled: 90 L}, "
      "{name: can 1, holds: 20 L, filled: 19 L, empty_mass: 4.5 kg}]}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 3}"};
  return plan;
}

class SizeOptions : public ::testing::Test {
 protected:
  [[nodiscard]] Outcome size(const std::vector<std::string>& options) const {
    std::vector<std::string> words{"size", plan_};
    words.insert(words.end(), options.begin(), options.end());
    return drystage(words, {.folder = workspace_.folder()});
  }

  void expect_refused(const std::vector<std::string>& options, const std::string& reason) const {
    const Outcome outcome = size(options);
    EXPECT_EQ(outcome.status, wrong);
    EXPECT_EQ(outcome.out, "");
    EXPECT_THAT(outcome.err, HasSubstr(reason));
    EXPECT_THAT(workspace_.names(), ElementsAre("trip.yaml"));
  }

  void expect_taken(const std::vector<std::string>& options) const {
    const Outcome outcome = size(options);
    EXPECT_LE(outcome.status, 1) << outcome.err;
    EXPECT_EQ(outcome.err, "");
  }

  /// What the answer says was asked for.
  [[nodiscard]] Json asked(std::vector<std::string> options) const {
    options.insert(options.end(), {"--format", "json"});
    return Json::parse(size(options).out).at("asked");
  }

  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", small_trip().text());
};

TEST_F(SizeOptions, HelpNamesThemInEightyColumns) {
  const Outcome outcome = drystage({"size", "--help"});
  EXPECT_EQ(outcome.status, 0);
  for (const char* word : {"--least", "--survive", "--keep", "--confirmed-only", "--write",
                           "--jobs", "--wide", "--format", "heat_wave"}) {
    EXPECT_THAT(outcome.out, HasSubstr(word));
  }
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
}

TEST_F(SizeOptions, AreOfNoOtherCommand) {
  for (const char* command : {"run", "check", "needs", "mishaps"}) {
    for (const char* option : {"--least", "--survive", "--keep", "--confirmed-only", "--write"}) {
      const Outcome outcome = drystage({command, plan_, option});
      EXPECT_EQ(outcome.status, wrong);
      EXPECT_THAT(outcome.err, HasSubstr(std::string("no option '") + option + "'"));
    }
  }
  expect_refused({"--two"}, "no option '--two'");
}

TEST_F(SizeOptions, LeastIsMassUnlessItIsCost) {
  EXPECT_EQ(asked({}), Json({{"least", "mass"},
                             {"survive", nullptr},
                             {"tried", nullptr},
                             {"confirmed_only", false},
                             {"confidence", nullptr}}));
  EXPECT_EQ(asked({"--least", "mass"}).at("least"), "mass");
  expect_refused({"--least", "time"}, "--least time: expected one of mass, cost");
  expect_refused({"--least", "cost"}, "--least cost: nothing on offer under size: has a cost");
}

TEST_F(SizeOptions, SurviveTakesKindsOrAllOfThem) {
  EXPECT_EQ(asked({"--survive", "stuck,heat_wave", "--survive", "one_more", "--survive", "stuck"})
                .at("survive"),
            Json({"stuck", "heat_wave", "one_more"}));
  EXPECT_EQ(asked({"--survive", "mishap"}).at("survive"), Json::array());
  EXPECT_EQ(asked({"--survive", "stuck,mishap"}).at("survive"), Json::array());
}

TEST_F(SizeOptions, SurviveRefusesWhatIsNoKind) {
  expect_refused({"--survive", "mishaps"},
                 "--survive mishaps: no such kind of mishap; did you mean \"mishap\"? Kinds are ");
  expect_refused({"--survive", "stuck,meteor"}, "--survive meteor: no such kind of mishap. Kinds");
  expect_refused({"--survive", "meteor"}, "one_more or own; mishap is all of them");
  expect_refused({"--survive", ""}, "no such kind of mishap");
}

TEST_F(SizeOptions, ConfirmedOnlyIsTaken) {
  EXPECT_EQ(asked({"--confirmed-only"}).at("confirmed_only"), true);
}

TEST_F(SizeOptions, KeepTakesNamesWithCommasBetweenOrInThem) {
  expect_taken({"--keep", "spare, main tank"});
  expect_taken({"--keep", "can, blue"});
  expect_taken({"--keep", "water/can 1", "--keep", "truck/can 1,spare"});
}

TEST_F(SizeOptions, KeepRefusesWhatThePlanHasNot) {
  expect_refused({"--keep", "spear"},
                 "--keep spear: the plan has no such thing; did you mean \"spare\"? It has "
                 "water/can 1, can, blue, spare, main tank, truck/can 1");
  expect_refused({"--keep", "elephant"}, "--keep elephant: the plan has no such thing. It has ");
  expect_refused({"--keep", "spare,"}, "the plan has no such thing");
}

TEST_F(SizeOptions, KeepRefusesANameThatSeveralThingsHave) {
  expect_refused({"--keep", "can 1"},
                 "--keep can 1: several things are called so; write water/can 1 or truck/can 1");
}

TEST_F(SizeOptions, WriteRefusesThePlanItselfAndWhereTheOutputGoes) {
  expect_refused({"--write", plan_}, "that is the plan itself");
  expect_refused({"--write", "./trip.yaml"}, "--write ./trip.yaml: that is the plan itself");
  expect_refused({"--write", "sized.yaml", "--output", "./sized.yaml"},
                 "--write sized.yaml: --output goes there");
  expect_refused({"--write", "-"}, "--write -: expected the name of a file");
  expect_refused({"--write", ""}, "expected the name of a file");
}

TEST_F(SizeOptions, WriteRefusesALinkToThePlan) {
  std::filesystem::create_symlink(plan_, workspace_.path("link.yaml"));
  const Outcome outcome = size({"--write", "link.yaml"});
  EXPECT_EQ(outcome.status, wrong);
  EXPECT_THAT(outcome.err, HasSubstr("--write link.yaml: that is the plan itself"));
}

TEST_F(SizeOptions, WriteRefusesWhatTheFileWouldNotHave) {
  expect_refused({"--write", "sized.yaml", "--set", "trip.title=Another"},
                 "--write with --set: the file would not have the change");
}

TEST_F(SizeOptions, ThePlanIsReadBeforeNamesAreLookedUp) {
  const std::string bad = workspace_.write("bad.yaml", "drystage: 1\n");
  const Outcome outcome = drystage({"size", bad, "--keep", "elephant"});
  EXPECT_EQ(outcome.status, wrong);
  EXPECT_THAT(outcome.err, Not(HasSubstr("elephant")));
}

TEST_F(SizeOptions, DrawsNoProgressWhereNobodyLooks) { EXPECT_EQ(size({}).err, ""); }

TEST(SizeOptionsSurvive, EndsWhereNothingButEquipmentIsOnOffer) {
  const Outcome outcome =
      drystage({"size", DRYSTAGE_SCENARIOS "/base-camp.yaml", "--survive", "mishap"});
  EXPECT_EQ(outcome.status, 1);
  EXPECT_THAT(outcome.out, HasSubstr("NOT ENOUGH ON OFFER"));
}

TEST_F(SizeOptions, ConfidenceIsAShareOfTrips) {
  const auto confidence = [&](const std::vector<std::string>& options) {
    return asked(options).at("confidence");
  };
  EXPECT_EQ(confidence({"--confidence", "80%"}),
            Json({{"chance", 0.8}, {"of", "any"}, {"trips", 2000}, {"seed", 1}}));
  EXPECT_EQ(confidence({"--confidence", "50 %", "--vital", "--trips", "100", "--seed", "9"}),
            Json({{"chance", 0.5}, {"of", "life"}, {"trips", 100}, {"seed", 9}}));
  // Of 100 % no trips can tell.
  for (const char* wrong_share :
       {"0", "0%", "100%", "1.2", "0.95", "95", "often", "", "49%", "-95%"}) {
    expect_refused({"--confidence", wrong_share},
                   std::string("--confidence ") + wrong_share +
                       ": expected on how many of 100 trips margins are to be kept, as in 95%: "
                       "50 to 99.99 %");
  }
}

TEST_F(SizeOptions, SoManyTripsAreDrawnThatTheyCanShowTheConfidence) {
  expect_refused(
      {"--confidence", "95%", "--trips", "72"},
      "--trips 72 with --confidence 95%: so few trips cannot show it. It takes 73 or more");
  expect_taken({"--confidence", "95%", "--trips", "73"});
  EXPECT_EQ(asked({"--confidence", "99.5%"}).at("confidence").at("trips"), 4 * 765);
  expect_refused({"--confidence", "95%", "--trips", "0"}, "--trips 0: expected a whole number");
  expect_refused({"--confidence", "95%", "--trips", "1000000"}, "from 1 to 100000");
  expect_refused({"--confidence", "95%", "--seed", "-1"}, "--seed -1: expected a whole number");
}

TEST_F(SizeOptions, TripsAreDrawnForAConfidenceAlone) {
  for (const std::vector<std::string>& options :
       std::vector<std::vector<std::string>>{{"--trips", "100"}, {"--seed", "2"}, {"--vital"}}) {
    expect_refused(options, options[0] + " without --confidence: trips are drawn for that alone");
  }
  expect_refused({"--confidence", "95%", "--chart", "chart.svg"}, "--chart with --confidence");
  for (const char* command : {"run", "odds", "mishaps"}) {
    const Outcome outcome = drystage({command, plan_, "--confidence", "95%"});
    EXPECT_EQ(outcome.status, wrong);
    EXPECT_THAT(outcome.err, HasSubstr("no option '--confidence'"));
  }
}

}  // namespace
}  // namespace drystage::testing::size_options_test
