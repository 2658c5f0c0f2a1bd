// What `drystage mishaps` gives to programs, of sweeps made by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/workspace.h"
#include "report/mishaps/report.h"
#include "support/mishaps.h"

namespace drystage {
namespace {

using answers::Outcome;
using plan::MishapKind;
using report::MishapsAnswer;
using support::dry;
using support::holding;
using support::mishaps_answer;
using support::nibbling;
using Json = nlohmann::ordered_json;
using ::testing::SizeIs;

/// Three failures, of which the last has not been tried.
MishapsAnswer answer_of_five() {
  MishapsAnswer answer = mishaps_answer(14, {"can 1 lost", "=well, \"old\"", "stuck at Base"});
  answer.sweep.failures[1].kind = MishapKind::supply;
  answer.sweep.failures[2].kind = MishapKind::stuck;
  answer.sweep.findings = {holding(0, 0), nibbling(answer, 0, 1, "drinking_water", 2.5),
                           dry(answer, 0, 2, "food", Outcome::runs_out), holding(1, 0),
                           dry(answer, 1, 13, "drinking_water")};
  answer.sweep.findings.back().retreat_saves = true;
  answer.sweep.findings.back().dry_day = 15;
  answer.sweep.asked = 5;
  return answer;
}

Json json_of(const MishapsAnswer& answer) { return Json::parse(report::mishaps_json(answer)); }

TEST(MishapsJson, HasEveryFailureWithAllItsFindings) {
  const Json json = json_of(answer_of_five());
  EXPECT_EQ(json.at("format"), "drystage.mishaps/1");
  EXPECT_EQ(json.at("trip").at("days"), 14);
  const Json& failures = json.at("failures");
  ASSERT_THAT(failures, SizeIs(3));
  EXPECT_EQ(failures[0].at("name"), "can 1 lost");
  EXPECT_EQ(failures[0].at("kind"), "container");
  EXPECT_EQ(failures[0].at("worst"), "runs_out");
  EXPECT_THAT(failures[0].at("findings"), SizeIs(3));
  EXPECT_EQ(failures[1].at("kind"), "supply");
  EXPECT_EQ(failures[2].at("worst"), nullptr);
  EXPECT_THAT(failures[2].at("findings"), SizeIs(0));
}

TEST(MishapsJson, SaysOfAFindingWhatComesOfIt) {
  const Json json = json_of(answer_of_five());
  const Json& first = json.at("failures")[0].at("findings");
  EXPECT_EQ(first[0], Json::parse(R"({"day": 1, "date": "2027-03-01", "hour": 6.0,
    "outcome": "holds", "reserve": null, "unit": null, "slack": null, "dry": null,
    "retreat_saves": null})"));
  EXPECT_EQ(first[1], Json::parse(R"({"day": 2, "date": "2027-03-02", "hour": 6.0,
    "outcome": "eats_margin", "reserve": "drinking_water", "unit": "L", "slack": -2.5, "dry": null,
    "retreat_saves": null})"));
  EXPECT_EQ(json.at("failures")[1].at("findings")[1],
            Json::parse(R"({"day": 14, "date": "2027-03-14", "hour": 6.0,
    "outcome": "runs_out_vital", "reserve": "drinking_water", "unit": "L", "slack": -10.0,
    "dry": {"day": 16, "date": "2027-03-16", "hour": 9.0, "where": "Base", "short": 4.0,
    "for_h": 9.0}, "retreat_saves": true})"));
}

TEST(MishapsJson, GivesTheVerdictAndTheWorst) {
  MishapsAnswer answer = answer_of_five();
  const Json verdict = json_of(answer).at("verdict");
  EXPECT_EQ(verdict.at("survives_any_one"), false);
  EXPECT_EQ(verdict.at("partial"), false);
  EXPECT_EQ(verdict.at("failures"), Json::parse(R"({"tried": 2, "run_out_vital": 1, "run_out": 1,
    "eat_margin": 0})"));
  EXPECT_EQ(verdict.at("worst").at("failure"), "=well, \"old\"");
  EXPECT_EQ(verdict.at("worst").at("day"), 14);
  EXPECT_EQ(verdict.at("without_mishap").at("outcome"), "holds");
  answer.sweep.findings = {holding(0, 0)};
  answer.sweep.asked = 1;
  const Json calm = json_of(answer).at("verdict");
  EXPECT_EQ(calm.at("survives_any_one"), true);
  EXPECT_EQ(calm.at("worst"), nullptr);
}

TEST(MishapsJson, SaysWhatWasAskedForAndHowMuchOfItIsDone) {
  MishapsAnswer answer = answer_of_five();
  EXPECT_EQ(json_of(answer).at("tried"), Json::parse(R"({"runs": 5, "runs_asked": 5, "only": null,
    "days": null, "left_out": []})"));
  answer.sweep.asked = 9;
  answer.narrowed = {.only = {MishapKind::heat_wave}, .days = {{2, 4}}};
  answer.planned.plan.mishaps.left_out = {MishapKind::shut};
  const Json json = json_of(answer);
  EXPECT_EQ(json.at("tried"), Json::parse(R"({"runs": 5, "runs_asked": 9, "only": ["heat_wave"],
    "days": [3, 5], "left_out": ["shut"]})"));
  EXPECT_EQ(json.at("verdict").at("partial"), true);
  EXPECT_EQ(json.at("verdict").at("survives_any_one"), false);
}

TEST(MishapsJson, HasAllPairs) {
  MishapsAnswer answer = answer_of_five();
  EXPECT_EQ(json_of(answer).at("pairs"), nullptr);
  answer.two = true;
  EXPECT_EQ(
      json_of(answer).at("pairs"),
      Json::parse(
          R"({"first_mishaps_tried": 0, "first_mishaps_asked": null, "runs": 0, "found": []})"));
  answers::PairSweep sweep{.pairs = {}, .asked = 3, .done = 2, .runs = 77};
  for (int n = 0; n < 30; ++n) {
    sweep.pairs.push_back({.first = 0,
                           .second = 2,
                           .tried = 20,
                           .dry = 2,
                           .first_day = 1,
                           .first_hour = 7.5,
                           .worst = dry(answer, 2, 3, "drinking_water")});
  }
  answer.pairs = sweep;
  const Json json = json_of(answer);
  EXPECT_EQ(json.at("verdict").at("partial"), true);
  EXPECT_EQ(json.at("pairs").at("first_mishaps_tried"), 2);
  EXPECT_EQ(json.at("pairs").at("first_mishaps_asked"), 3);
  EXPECT_EQ(json.at("pairs").at("runs"), 77);
  ASSERT_THAT(json.at("pairs").at("found"), SizeIs(30));
  const Json& pair = json.at("pairs").at("found").front();
  EXPECT_EQ(pair.at("first"), Json::parse(R"({"failure": "can 1 lost", "day": 2,
    "date": "2027-03-02", "hour": 7.5})"));
  EXPECT_EQ(pair.at("second"), Json::parse(R"({"failure": "stuck at Base", "day": 4,
    "date": "2027-03-04", "hour": 6.0})"));
  EXPECT_EQ(pair.at("reserve"), "drinking_water");
  EXPECT_EQ(pair.at("dry").at("short"), 4);
  EXPECT_EQ(pair.at("combinations"), Json::parse(R"({"tried": 20, "dry": 2})"));
}

TEST(MishapsJson, PassesOnRemarksAndWarnings) {
  MishapsAnswer answer = answer_of_five();
  answer.sweep.remarks = {"of how it was reckoned"};
  answer.warnings = {"odd"};
  const Json json = json_of(answer);
  EXPECT_EQ(json.at("remarks"), Json::array({"of how it was reckoned"}));
  EXPECT_EQ(json.at("warnings"), Json::array({"odd"}));
}

TEST(MishapsCsv, HasARowForEachFindingAndNoFormula) {
  const std::string text = report::mishaps_csv(answer_of_five());
  const std::vector<std::string> lines = testing::lines(text);
  ASSERT_THAT(lines, SizeIs(6));
  EXPECT_EQ(lines[0],
            "failure,kind,day,date,hour,outcome,reserve,unit,slack,dry_day,dry_date,dry_hour,where,"
            "short,dry_for_h,retreat_saves\r");
  EXPECT_EQ(lines[1], "can 1 lost,container,1,2027-03-01,6.0000,holds,,,,,,,,,,\r");
  EXPECT_EQ(lines[2],
            "can 1 lost,container,2,2027-03-02,6.0000,eats_margin,drinking_water,L,-2.5000,,,,,,,"
            "\r");
  EXPECT_EQ(lines[5],
            "\"'=well, \"\"old\"\"\",supply,14,2027-03-14,6.0000,runs_out_vital,drinking_water,L,"
            "-10.0000,16,2027-03-16,9.0000,Base,4.0000,9.0000,yes\r");
}

}  // namespace
}  // namespace drystage
