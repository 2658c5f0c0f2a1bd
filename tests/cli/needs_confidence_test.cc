// `drystage needs --confidence` and `drystage card --confidence`, as somebody runs them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cli/process.h"
#include "cli/workspace.h"
#include "support/plan_text.h"

namespace drystage::testing::needs_confidence_test {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::ordered_json;

constexpr int holds = 0;
constexpr int fails = 1;
constexpr int wrong = 2;

support::PlanText four_days() {
  support::PlanText plan;
  plan.margins = {"drinking_water: 1 day"};
  plan.containers = {"{name: can, holds: 25 L, filled: 21 L, for: drinking}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 4}"};
  plan.uncertainty = {"drinking: {person: 10 %, day: 0 %}",
                      support::all_but({plan::Source::drinking})};
  return plan;
}

class NeedsConfidence : public ::testing::Test {
 protected:
  [[nodiscard]] Outcome run(std::vector<std::string> words) const {
    return drystage(words, {.folder = workspace_.folder()});
  }
  [[nodiscard]] std::string written(const std::string& name) const {
    std::ifstream file(workspace_.folder() + "/" + name, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }

  Workspace workspace_;
  std::string plan_ = workspace_.write("trip.yaml", four_days().text());
};

TEST_F(NeedsConfidence, RaisesWhatMustBeThere) {
  const Outcome plain = run({"needs", plan_, "--format", "json"});
  EXPECT_EQ(plain.status, holds);
  const Json before = Json::parse(plain.out);
  EXPECT_TRUE(before["confidence"].is_null());
  const Outcome outcome =
      run({"needs", plan_, "--format", "json", "--confidence", "95%", "--trips", "300"});
  // Some drink more than the litre to spare.
  EXPECT_EQ(outcome.status, fails) << outcome.err;
  const Json json = Json::parse(outcome.out);
  EXPECT_EQ(json["confidence"]["chance"], 0.95);
  EXPECT_EQ(json["confidence"]["trips"], 300);
  EXPECT_EQ(json["confidence"]["seed"], 1);
  EXPECT_EQ(json["confidence"]["on_time"], 300);
  const auto must = [](const Json& answer) {
    return answer["days"][0]["reserves"]["drinking_water"]["must_have"].get<double>();
  };
  EXPECT_NEAR(must(before), 20, 1e-3);
  // 16 L and the margin, times what somebody drinks who drinks more than 19 in 20: exp(0.1 z).
  EXPECT_GT(must(json), 20 * 1.17);
  EXPECT_LT(must(json), 20 * 1.25);
}

TEST_F(NeedsConfidence, SaysSoInWords) {
  const Outcome outcome = run({"needs", plan_, "--confidence", "90%", "--trips", "200"});
  std::string words = outcome.out;
  for (char& letter : words) letter = letter == '\n' ? ' ' : letter;
  EXPECT_THAT(words, HasSubstr("enough on 90 % of drawn trips as well (200 trips, of which 200 "
                               "are on time to the end; seed 1)"));
  EXPECT_THAT(run({"needs", plan_}).out, Not(HasSubstr("drawn trips")));
}

TEST_F(NeedsConfidence, IsTheSameOnAnyNumberOfThreads) {
  const std::vector<std::string> words{"needs", plan_, "--confidence", "95%", "--trips", "200"};
  std::vector<std::string> one = words;
  one.insert(one.end(), {"--jobs", "1"});
  std::vector<std::string> three = words;
  three.insert(three.end(), {"--jobs", "3"});
  EXPECT_EQ(run(one).out, run(three).out);
}

TEST_F(NeedsConfidence, IsOnTheCard) {
  const std::vector<std::string> words{"card", plan_, "--confidence", "95%", "--trips", "100"};
  const auto card = [&](const std::string& file) {
    std::vector<std::string> all = words;
    all.insert(all.end(), {"--output", file});
    return run(all);
  };
  // The plan holds; some drink more than it has.
  const Outcome outcome = card("trip.html");
  EXPECT_EQ(outcome.status, fails) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("holds as planned, and has less than must have on the card"));
  EXPECT_THAT(written("trip.html"), HasSubstr("enough on 95 % of drawn trips"));
  EXPECT_EQ(run({"card", plan_, "--output", "plain.html"}).status, holds);
  EXPECT_THAT(written("plain.html"), Not(HasSubstr("drawn trips")));
  EXPECT_EQ(card("trip.svg").status, fails);
  EXPECT_THAT(written("trip.svg"), HasSubstr("NOT ENOUGH ON 95 % OF DRAWN TRIPS"));
}

TEST_F(NeedsConfidence, SaysWhereTooFewTripsAreOnTime) {
  support::PlanText late = four_days();
  late.places.push_back(support::PlanText::place("There", "air"));
  late.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 3000 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 80 L}]}"};
  late.itinerary = {"{at: Base}", "drive: {to: There, distance: 90 km, surfaces: {sealed: 90 km}}",
                    "stay: {nights: 6}",
                    "drive: {to: Base, distance: 90 km, surfaces: {sealed: 90 km}}"};
  late.uncertainty = {"delays: {day: 30 %}", support::all_but({plan::Source::delays})};
  const std::string plan = workspace_.write("late.yaml", late.text());
  const Outcome outcome = run({"needs", plan, "--confidence", "95%", "--trips", "100"});
  EXPECT_EQ(outcome.status, wrong);
  EXPECT_EQ(outcome.out, "");
  EXPECT_THAT(outcome.err, HasSubstr("of 100 trips are on time to the end"));
  EXPECT_THAT(outcome.err, HasSubstr("it takes 73 to show it"));
}

TEST_F(NeedsConfidence, AsksForWhatItUnderstands) {
  EXPECT_EQ(run({"needs", plan_, "--confidence", "95%", "--vital"}).status, wrong);
  const Outcome alone = run({"needs", plan_, "--trips", "100"});
  EXPECT_EQ(alone.status, wrong);
  EXPECT_THAT(alone.err, HasSubstr("--trips without --confidence"));
  const Outcome few = run({"needs", plan_, "--confidence", "95%", "--trips", "20"});
  EXPECT_EQ(few.status, wrong);
  EXPECT_THAT(few.err, HasSubstr("so few trips cannot show it"));
  EXPECT_THAT(run({"card", plan_, "--confidence", "5", "--output", "trip.pdf"}).err,
              HasSubstr("as in 95%"));
}

}  // namespace
}  // namespace drystage::testing::needs_confidence_test
