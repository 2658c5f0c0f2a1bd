// `drystage odds` as a user runs it: what it says, its forms, and what it refuses.
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "cli/csv.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "cli/xml.h"
#include "plan/keys.h"
#include "plan/uncertainty.h"
#include "plan/uncertainty_sources.h"
#include "plan/uncertainty_values.h"
#include "plan/values.h"
#include "support/answer.h"
#include "support/plan_text.h"

namespace drystage::testing::odds_test {
namespace {

using Json = nlohmann::json;
using support::unwrapped;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

/// Four days at a camp with 30 L to drink, and a truck that stands there.
std::string plan_text(const std::string& margin = "8 L", const std::string& uncertainty = {}) {
  support::PlanText text;
  text.margins = {"drinking_water: " + margin};
  text.people = {
      "{name: Ada, mass: 80 kg, height: 175 cm, age: 40, sex: female, observed: "
      "{drinking: 5 L/day, meals: 3}}"};
  text.containers = {"{name: can, holds: 30 L, filled: 30 L, for: drinking}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 60 L, "
      "filled: 60 L}], observed: [{surface: sealed, uses: 10 L/100km}]}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 4}"};
  if (!uncertainty.empty()) text.uncertainty = {uncertainty};
  return text.text();
}

std::string nothing_drawn() {
  std::string all;
  for (const auto& word : plan::source_words) {
    all += (all.empty() ? "" : ", ") + std::string(word.text);
  }
  return "leave_out: [" + all + "]";
}

class OddsCommand : public ::testing::Test {
 protected:
  [[nodiscard]] Outcome ask(const std::vector<std::string>& options,
                            const std::string& text = plan_text()) const {
    std::vector<std::string> words{"odds", workspace_.write("trip.yaml", text)};
    words.insert(words.end(), options.begin(), options.end());
    return drystage(words);
  }

  Workspace workspace_;
};

TEST_F(OddsCommand, SaysHowLikelyTroubleIs) {
  const Outcome outcome = ask({"--trips", "400"});
  EXPECT_EQ(outcome.status, 0);
  const std::string text = unwrapped(outcome.out);
  EXPECT_THAT(text, ::testing::ContainsRegex(
                        "^[0-9.]+ % of trips fall below a margin of drinking water or fuel \\("));
  EXPECT_THAT(text,
              AllOf(HasSubstr("of trips one of these runs out"), HasSubstr("What helps most: "),
                    HasSubstr("400 trips drawn, seed 1."), HasSubstr("95 times in 100"),
                    HasSubstr("What makes trips differ"), HasSubstr("no permission to go")));
  for (const std::string& line : lines(outcome.out)) {
    EXPECT_LE(terminal_columns(line), 80) << line;
    EXPECT_THAT(line, Not(::testing::EndsWith(" ")));
  }
  EXPECT_THAT(outcome.out, Not(::testing::ContainsRegex("[Ss]afe")));
}

TEST_F(OddsCommand, FitsAScreenOnEveryShippedPlan) {
  for (const std::string& name : scenarios()) {
    SCOPED_TRACE(name);
    const Outcome outcome = drystage({"odds", scenario_path(name), "--trips", "10"});
    EXPECT_EQ(outcome.status, 0) << outcome.err;
    EXPECT_LE(lines(outcome.out).size(), name == "long-loop" ? 62U : 46U);
    for (const std::string& line : lines(outcome.out))
      EXPECT_LE(terminal_columns(line), 80) << line;
  }
}

TEST_F(OddsCommand, NeverSaysNever) {
  const Outcome outcome = ask({"--trips", "200"}, plan_text("1 L", nothing_drawn()));
  const std::string text = unwrapped(outcome.out);
  EXPECT_THAT(text, StartsWith("Of 200 trips, none falls below a margin"));
  // z² / (n + z²) of 200.
  EXPECT_THAT(
      text,
      HasSubstr("On none of them does one of these run out (so on less than 1.9 % of trips)."));
}

TEST_F(OddsCommand, EndsByWhatIsAccepted) {
  EXPECT_EQ(ask({"--trips", "300", "--at-most", "1%"}, plan_text("20 L")).status, 1);
  const Outcome accepted =
      ask({"--trips", "300", "--at-most", "5 %"}, plan_text("1 L", nothing_drawn()));
  EXPECT_EQ(accepted.status, 0);
  EXPECT_THAT(unwrapped(accepted.out), HasSubstr("ACCEPTED: at most 5 % is."));
  // By the upper end: of so few trips nothing better is known.
  EXPECT_EQ(ask({"--trips", "20", "--at-most", "5%"}, plan_text("1 L", nothing_drawn())).status, 1);
}

TEST_F(OddsCommand, NeverSaysThatAChanceIsMoreThanItself) {
  const std::string plan = plan_text("12 L");
  const Json json = Json::parse(ask({"--trips", "300", "--format", "json"}, plan).out);
  const double high = 100 * json.at("life").at("breach").at("high").get<double>();
  ASSERT_GT(high, 10);
  ASSERT_LT(high, 99);
  // A little less than the upper end, and the same when it is rounded.
  const std::string most = fmt::format("{:.3f}", high - 0.001);
  const Outcome outcome = ask({"--trips", "300", "--at-most", most + "%"}, plan);
  EXPECT_EQ(outcome.status, 1);
  const std::string text = unwrapped(outcome.out);
  EXPECT_THAT(text, HasSubstr("NOT ACCEPTED: it may be " + fmt::format("{:.3f}", high) + " %"));
}

TEST_F(OddsCommand, AsJsonHasWhatIsPromised) {
  const Outcome outcome = ask({"--trips", "300", "--format", "json", "--worst", "2"});
  const Json json = Json::parse(outcome.out);
  EXPECT_EQ(json.at("format"), "drystage.odds/1");
  EXPECT_EQ(json.at("trips"), 300);
  EXPECT_EQ(json.at("seed"), 1);
  const Json& water = json.at("reserves").at(0);
  EXPECT_EQ(water.at("name"), "drinking_water");
  for (const char* what : {"breach", "dry"}) {
    const Json& chance = water.at(what);
    EXPECT_LE(chance.at("low"), chance.at("chance"));
    EXPECT_LE(chance.at("chance"), chance.at("high"));
    EXPECT_TRUE(json.at("life").at(what).contains("high"));
  }
  int first = 0;
  for (const auto& [day, trips] : water.at("first_breach_days").items()) {
    EXPECT_GE(std::stoi(day), 1);
    first += trips.get<int>();
  }
  EXPECT_EQ(first, std::lround(water.at("breach").at("chance").get<double>() * 300));
  EXPECT_EQ(water.at("bands").size(), 4U);
  for (const Json& band : water.at("bands")) {
    EXPECT_LE(band.at("p5"), band.at("p50"));
    EXPECT_LE(band.at("p50"), band.at("p95"));
  }
  for (const Json& driver : json.at("drivers")) {
    EXPECT_TRUE(driver.at("source").is_string());
    EXPECT_LE(driver.at("low"), driver.at("share"));
  }
  EXPECT_EQ(json.at("worst").size(), 2U);
}

TEST_F(OddsCommand, AsCsvHasARowForEachDayAndReserve) {
  const Outcome outcome = ask({"--trips", "100", "--format", "csv"});
  const auto rows = parse_csv(outcome.out);
  ASSERT_EQ(rows.size(), 1 + 4 * 3U);  // water, fuel, food
  EXPECT_EQ(rows[0][0], "day");
  EXPECT_EQ(rows[1][2], "drinking_water");
  for (const auto& row : rows) EXPECT_EQ(row.size(), rows[0].size());
}

TEST_F(OddsCommand, SameSeedSameBytesOnAnyNumberOfThreads) {
  const std::string path = workspace_.write("trip.yaml", plan_text());
  const std::vector<std::string> words{"odds", path, "--trips", "450", "--format", "json"};
  const auto with = [&](std::vector<std::string> more) {
    std::vector<std::string> all = words;
    all.insert(all.end(), more.begin(), more.end());
    return drystage(all).out;
  };
  const std::string one = with({"--jobs", "1"});
  EXPECT_EQ(with({"--jobs", "3"}), one);
  EXPECT_NE(with({"--seed", "2"}), one);
}

TEST_F(OddsCommand, ATripWithNothingDrawnIsThePlansOwn) {
  for (const std::string& name : scenarios()) {
    SCOPED_TRACE(name);
    const std::string path = scenario_path(name);
    Json run = Json::parse(drystage({"run", path, "--format", "json"}).out);
    const Outcome trip =
        drystage({"odds", path, "--trip", "7", "--format", "json", "--set", "uncertainty." + [] {
                    std::string text = nothing_drawn();
                    return text.replace(text.find(": "), 2, "=");
                  }()});
    Json same = Json::parse(trip.out);
    // Other weather and fixes are asked of plans, and not of trips.
    for (Json* one : {&run, &same}) {
      one->erase("spell");
      one->erase("mend");
      one->erase("drawn");
      one->at("verdict").erase("without_unconfirmed");
    }
    EXPECT_EQ(same.dump(), run.dump());
  }
}

TEST_F(OddsCommand, ShowsATripAsRunShowsAPlan) {
  const Outcome outcome = drystage({"odds", scenario_path("high-plateau"), "--trip", "11"});
  EXPECT_THAT(outcome.out, StartsWith("Trip 11 of seed 1: "));
  EXPECT_THAT(outcome.out, AllOf(HasSubstr("HOLD"), HasSubstr("Each day's low point"),
                                 Not(HasSubstr("Tried:"))));
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
  EXPECT_THAT(ask({"--trips", "300", "--worst", "3"}, plan_text("20 L")).out,
              AllOf(HasSubstr("The worst trips"), HasSubstr("--trip NUMBER")));
}

/// A plan whose only can is lost on the first morning that it can be.
std::string lost_can() {
  return plan_text("8 L",
                   support::all_but({plan::Source::containers}) + "\n  containers: {day: 100 %}");
}

TEST_F(OddsCommand, WhatIsLostOnATripIsAnEventOfIt) {
  const std::string plan = lost_can();
  const Outcome shown = ask({"--trip", "3", "--seed", "2"}, plan);
  EXPECT_THAT(shown.out, StartsWith("Trip 3 of seed 2: day "));
  EXPECT_THAT(shown.out, AllOf(HasSubstr("Events"), HasSubstr("        can lost"),
                               Not(HasSubstr("No event of note"))));
  const Json drawn =
      Json::parse(ask({"--trip", "3", "--seed", "2", "--format", "json"}, plan).out).at("drawn");
  EXPECT_EQ(drawn.at("trip"), 3);
  EXPECT_EQ(drawn.at("seed"), 2);
  EXPECT_THAT(drawn.at("story").get<std::string>(), HasSubstr("can lost"));
  EXPECT_THAT(drawn.at("happened").dump(), HasSubstr("\"what\":\"can lost\""));
  EXPECT_GE(drawn.at("happened").at(0).at("day"), 1);
}

TEST_F(OddsCommand, ATripLacksAsMuchInOneFormAsInTheOther) {
  const Outcome worst =
      drystage({"odds", scenario_path("high-plateau"), "--trips", "300", "--worst", "1"});
  const std::string text = unwrapped(worst.out);
  const std::size_t at = text.find("The worst trips");
  ASSERT_NE(at, std::string::npos);
  const std::string told = text.substr(at);
  const std::string number = told.substr(16, told.find(' ', 16) - 16);
  const std::size_t from = told.find("short by ");
  const std::string lacks = told.substr(from, told.find('.', from) - from);
  EXPECT_THAT(unwrapped(drystage({"odds", scenario_path("high-plateau"), "--trip", number}).out),
              HasSubstr(lacks));
}

TEST_F(OddsCommand, AStoryTellsOfNothingThatThePlanHasNot) {
  for (const char* trip : {"1", "2", "3", "4", "5", "6", "7", "8"}) {
    const std::string text = unwrapped(ask({"--trip", trip}).out);
    for (const char* thing : {"batteries", "compressors", "panels"}) {
      EXPECT_THAT(text, Not(HasSubstr(thing))) << trip;
    }
  }
}

TEST_F(OddsCommand, SaysThatNoTripIsBad) {
  const std::string fine = plan_text("1 L", nothing_drawn());
  EXPECT_THAT(ask({"--trips", "50", "--worst", "3"}, fine).out,
              HasSubstr("The worst trips: none of these trips falls below a margin.\n"));
  const Json json =
      Json::parse(ask({"--trips", "50", "--worst", "3", "--format", "json"}, fine).out);
  EXPECT_TRUE(json.at("worst").empty());
}

TEST_F(OddsCommand, NamesOnlyReservesThatThePlanHas) {
  support::PlanText on_foot;
  on_foot.vehicles = {};
  on_foot.margins = {"drinking_water: 1 L"};
  on_foot.itinerary = {"{at: Base}", "stay: {nights: 2}"};
  const std::string text = unwrapped(ask({"--trips", "50"}, on_foot.text()).out);
  EXPECT_THAT(text, AllOf(HasSubstr("a margin of drinking water"), Not(HasSubstr("fuel")),
                          Not(HasSubstr("one of these run"))));
}

TEST_F(OddsCommand, MarksWhatIsLeftOutAmongTheSources) {
  const std::string text =
      unwrapped(ask({"--show-sources"}, plan_text("8 L", "leave_out: [delays, work]")).out);
  EXPECT_THAT(text, AllOf(HasSubstr("delays.length left out, not drawn; 1 day: "),
                          HasSubstr("work.trip left out, not drawn; 20 %"),
                          Not(HasSubstr("1 days")), Not(HasSubstr("priors.h"))));
  EXPECT_THAT(text, HasSubstr("meals.trip 10 %"));
}

TEST_F(OddsCommand, ShowsTheWeatherOfATripAlsoBeforeAHalt) {
  const auto warmest = [&](const std::string& left_out) {
    const Json json =
        Json::parse(drystage({"odds", scenario_path("high-plateau"), "--trip", "11", "--format",
                              "json", "--set", "uncertainty.leave_out=" + left_out})
                        .out);
    std::vector<double> out;
    for (const Json& day : json.at("days")) out.push_back(day.at("t_max_c"));
    return out;
  };
  // Somebody is ill on trip 11; whether that happens or not, the days before are as warm.
  const std::vector<double> with = warmest("[delays]");
  const std::vector<double> without = warmest("[delays, illness]");
  ASSERT_GT(with.size(), without.size());
  for (std::size_t day = 0; day < 10; ++day) EXPECT_NEAR(with[day], without[day], 1e-9) << day;
}

TEST_F(OddsCommand, ListsWhatIsDrawnAndWhereItIsFrom) {
  const Outcome outcome = ask({"--show-sources"}, plan_text("8 L", "work: 33 %"));
  EXPECT_EQ(outcome.status, 0);
  const std::string text = unwrapped(outcome.out);
  for (const plan::UncertaintySource& source : plan::uncertainty_sources) {
    EXPECT_THAT(text, HasSubstr(std::string(source.path.substr(source.path.find('.') + 1))));
    EXPECT_THAT(text, HasSubstr(unwrapped(std::string(source.source))));
  }
  EXPECT_THAT(text, HasSubstr("33 % (usually 20 %)"));
  EXPECT_THAT(text, HasSubstr("`spread`: air "));
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
}

TEST_F(OddsCommand, KnowsTheValueOfEveryKey) {
  for (const plan::UncertaintySource& source : plan::uncertainty_sources) {
    EXPECT_EQ(
        std::ranges::count(plan::uncertainty_values, source.path, &plan::UncertaintyValue::path), 1)
        << source.path;
  }
  EXPECT_EQ(plan::uncertainty_values.size(), plan::uncertainty_sources.size());
  // Each is the one of its own key: its default where nothing is said.
  const plan::Plan plan = support::read_plan(plan_text());
  for (const plan::UncertaintyValue& value : plan::uncertainty_values) {
    for (const auto& some : plan::declarations) {
      const auto found = std::ranges::find(some, value.path, &plan::Declaration::path);
      if (found == some.end()) continue;
      const auto number = value.of(plan.uncertainty);
      if (!number) continue;
      EXPECT_DOUBLE_EQ(*number, plan::default_number(plan::Key(*found)).value()) << value.path;
    }
  }
}

TEST_F(OddsCommand, DrawsBandsAndDays) {
  const std::string chart = workspace_.path("odds.svg");
  const Outcome outcome = ask({"--trips", "200", "--chart", chart});
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  const std::string picture = read_file(chart);
  EXPECT_EQ(xml_faults(chart), "");
  EXPECT_THAT(picture, AllOf(HasSubstr("90 of 100 trips"), HasSubstr("Drinking water"),
                             HasSubstr("It is no")));
}

TEST_F(OddsCommand, RefusesWhatCannotBe) {
  const auto refused = [&](const std::vector<std::string>& options, const std::string& words) {
    const Outcome outcome = ask(options);
    EXPECT_EQ(outcome.status, 2);
    EXPECT_EQ(outcome.out, "");
    EXPECT_THAT(outcome.err, HasSubstr(words));
  };
  refused({"--trips", "0"}, "--trips 0: expected a whole number, from 1 to 10000000");
  refused({"--trips", "many"}, "expected a whole number");
  refused({"--trips", "1e4"}, "expected a whole number");
  refused({"--seed", "-1"}, "--seed -1: expected a whole number");
  refused({"--at-most", "5"}, "--at-most 5: expected a share in percent, as in 5%");
  refused({"--at-most", "0%"}, "expected a share in percent");
  refused({"--until", "0.5"}, "expected a share in percent, as in ±0.5%");
  refused({"--until", "1%", "--trips", "5"}, "--until and --trips contradict");
  refused({"--trip", "x"}, "--trip x: expected a whole number");
  refused({"--trip", "1", "--chart", "x.svg"}, "--trip with --chart");
  refused({"--trip", "1", "--at-most", "5%"}, "--trip with --at-most: that is of all trips");
  refused({"--show-sources", "--trips", "5"}, "--show-sources with --trips");
  refused({"--show-sources", "--trip", "3"}, "--show-sources with --trip");
  refused({"--show-sources", "--format", "json"}, "it is text alone");
  refused({"--worst", "0"}, "--worst 0: expected a whole number, from 1 to 1000");
}

TEST_F(OddsCommand, RunsUntilTheIntervalIsNarrow) {
  const Outcome outcome = ask({"--until", "±2%", "--format", "json"});
  const Json json = Json::parse(outcome.out);
  const Json& chance = json.at("life").at("breach");
  EXPECT_LE((chance.at("high").get<double>() - chance.at("low").get<double>()) / 2, 0.02);
  EXPECT_EQ(json.at("trips").get<int>() % 4000, 0);
}

}  // namespace
}  // namespace drystage::testing::odds_test
