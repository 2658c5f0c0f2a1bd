// Water and food that a vehicle keeps for itself is a reserve of its own in every command.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/process.h"
#include "cli/workspace.h"
#include "support/plan_text.h"

namespace drystage::testing::own_stock_test {
namespace {

using Json = nlohmann::json;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

/// Ada drinks 4 L a day of the truck's 60 L; Ben in the wagon as much of its own 18 L: on day 5 it
/// is dry.
std::string plan_text() {
  support::PlanText text;
  text.margins = {"drinking_water: 1 day", "food: 1 day", "drinking_water:wagon: 6 L"};
  const auto person = [](const char* name, const char* vehicle) {
    return std::string("{name: ") + name +
           ", mass: 70 kg, height: 172 cm, age: 40, sex: female, rides_in: " + vehicle +
           ", observed: {drinking: 4 L/day, meals: 3}}";
  };
  text.people = {person("Ada", "truck"), person("Ben", "wagon")};
  const auto vehicle = [](const std::string& name, const std::string& more) {
    return "{name: " + name + ", fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: " + name +
           " tank, holds: 90 L, filled: 90 L}], observed: [{surface: sealed, uses: 10 L/100km}]" +
           more + "}";
  };
  text.vehicles = {vehicle("truck", ""), vehicle("wagon", ", own: [water, food]")};
  text.containers = {"{name: can, holds: 60 L, filled: 60 L, in: truck}",
                     "{name: wagon can, holds: 20 L, filled: 18 L, in: wagon, empty_mass: 1 kg}"};
  text.food = {"{item: stores, kept: dry, meals: 60, carried_by: truck}",
               "{item: box, kept: dry, meals: 30, carried_by: wagon}"};
  return text.text();
}

class OwnStockEverywhere : public ::testing::Test {
 protected:
  [[nodiscard]] Outcome ask(const std::string& command, std::vector<std::string> options) const {
    options.insert(options.begin(), {command, plan_});
    return drystage(options);
  }
  [[nodiscard]] Json json(const std::string& command) const {
    return Json::parse(ask(command, {"--format", "json"}).out);
  }

  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", plan_text());
};

TEST_F(OwnStockEverywhere, RunSaysWhoseItIsAndTheFixGoesThere) {
  const Outcome outcome = ask("run", {"--all"});
  EXPECT_EQ(outcome.status, 1);
  EXPECT_THAT(outcome.out,
              AllOf(HasSubstr("DOES NOT HOLD: drinking water of wagon"), HasSubstr("for wagon"),
                    HasSubstr("Drinking wagon"), HasSubstr("Food wagon")));
  EXPECT_THAT(outcome.out, Not(HasSubstr("carries all the")));
  const Json worst = json("run")["verdict"]["worst"];
  EXPECT_EQ(worst["reserve"], "drinking_water:wagon");
  EXPECT_EQ(worst["day"], 5);
  EXPECT_THAT(ask("run", {"--format", "csv"}).out, HasSubstr("\n1,2027-03-01,food:wagon,meals,"));
}

TEST_F(OwnStockEverywhere, NeedsMishapsSizeAndResumeKnowIt) {
  // From the first morning 5 days of 4 L, and 6 L of margin.
  EXPECT_THAT(ask("needs", {"--format", "csv"}).out, HasSubstr("drinking_water:wagon,L,26.0"));
  EXPECT_THAT(ask("mishaps", {"--all"}).out, HasSubstr("rinking water of wagon"));
  const Outcome size = ask("size", {});
  EXPECT_EQ(size.status, 0);
  EXPECT_THAT(size.out, HasSubstr("L containers of drinking water for wagon"));
  const Outcome rest = ask("resume", {"--evening", "2", "--container", "wagon can=11 L"});
  EXPECT_THAT(rest.out, HasSubstr("rinking water of wagon")) << rest.err;
}

TEST_F(OwnStockEverywhere, AMishapThatStrikesItAloneIsFound) {
  std::string text = plan_text();
  const std::string can = "{name: wagon can, holds: 20 L, filled: 18 L";
  text.replace(text.find(can), can.size(),
               "{name: other can, holds: 20 L, filled: 20 L, in: wagon}\n    - " + can);
  const std::string plan = workspace_.write("two-cans.yaml", text);
  EXPECT_EQ(drystage({"run", plan}).status, 0);
  const std::string out = drystage({"mishaps", plan, "--all"}).out;
  EXPECT_THAT(out, HasSubstr("other can lost, on day 1, Mon 01 Mar, 00:00. Drinking water of wagon "
                             "runs out"));
  // Without the wagon its water is common, and nothing is asked of its own any more.
  EXPECT_THAT(out, Not(HasSubstr("wagon left behind, on")));
}

TEST_F(OwnStockEverywhere, OnTheRoadSharingIsTheFirstHelp) {
  const Outcome rest = ask("resume", {"--evening", "2", "--container", "wagon can=4 L"});
  EXPECT_EQ(rest.status, 1);
  EXPECT_THAT(rest.out, HasSubstr("SHARE"));
  EXPECT_THAT(rest.out, Not(HasSubstr("ALARM")));
  // Where all have too little together, it is none.
  const Outcome dry =
      ask("resume", {"--evening", "2", "--container", "wagon can=4 L", "--container", "can=4 L"});
  EXPECT_THAT(dry.out, Not(HasSubstr("SHARE")));
}

TEST_F(OwnStockEverywhere, SharingCountsOnWhatIsTakenOnLaterToo) {
  std::string text = plan_text();
  const auto put = [&text](const std::string& old, const std::string& instead) {
    ASSERT_NE(text.find(old), std::string::npos) << old;
    text.replace(text.find(old), old.size(), instead);
  };
  const std::string stay = "stay: {nights: 5}";
  put(stay,
      "stay: {nights: 2}\n  - drive: {to: Well, distance: 100 km, surfaces: sealed}\n"
      "  - resupply: {drinking_water: to next}\n  - stay: {nights: 8}");
  put("places:\n",
      "places:\n  " + support::PlanText::place("Well", "air", "drinking_water: {}") + "\n");
  const std::string plan = workspace_.write("well.yaml", text);
  const Outcome rest = drystage({"resume", plan, "--evening", "2", "--container", "wagon can=1 L"});
  EXPECT_THAT(rest.out, HasSubstr("SHARE")) << rest.err;
}

TEST_F(OwnStockEverywhere, SomebodyMoreIsTakenInByEither) {
  const Outcome outcome = ask("mishaps", {"--only", "one_more", "--all"});
  EXPECT_THAT(outcome.out, HasSubstr("one person more in wagon, on day 1"));
  EXPECT_THAT(outcome.out, HasSubstr("one person more"));
}

TEST_F(OwnStockEverywhere, AKitMayHaveOneVehicleThatKeepsItsOwn) {
  const std::string kit = workspace_.write(
      "kit.yaml",
      "drystage: 1\nvehicles:\n  - {name: wagon, fuel: diesel, own: [water, food], mass: {empty: "
      "2000 kg}, tanks: [{name: tank, holds: 90 L, filled: 90 L}]}\n");
  const Outcome outcome = drystage({"check", kit});
  EXPECT_EQ(outcome.status, 0) << outcome.err;
}

TEST_F(OwnStockEverywhere, OneVehicleMustLeaveItsStockCommon) {
  const Outcome outcome = drystage({"run", plan_, "--set", "vehicles.truck.own=water"});
  EXPECT_EQ(outcome.status, 2);
  EXPECT_THAT(outcome.err, HasSubstr("every vehicle has its own water"));
}

}  // namespace
}  // namespace drystage::testing::own_stock_test
