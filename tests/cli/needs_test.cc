// `drystage needs` as a user runs it, beside what the library answers.
#include "answers/onward/needs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "answers/onward/turn_back.h"
#include "cli/csv.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "plan/read.h"
#include "support/trip.h"

namespace drystage::testing::needs_test {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::StartsWith;

constexpr int wrong = 2;

Outcome needs(const std::string& plan, std::vector<std::string> options = {}) {
  options.insert(options.begin(), {"needs", plan});
  return drystage(options);
}

/// What the library says of a scenario.
struct Told {
  support::Trip trip;
  answers::Needs needs;
  answers::TurnBack turn_back;

  explicit Told(const std::string& name)
      : trip(support::travel(*plan::read_file(scenario_path(name)).plan)),
        needs(answers::morning_needs(trip)),
        turn_back(answers::turn_back_points(trip)) {}

  [[nodiscard]] const engine::ReserveInfo& info(int reserve) const {
    return trip.course.reserves[static_cast<std::size_t>(reserve)];
  }
  [[nodiscard]] Json place(int index) const {
    return index < 0 ? Json() : Json(trip.plan.places[static_cast<std::size_t>(index)].name);
  }
};

void expect_number(const Json& got, double value) {
  if (!std::isfinite(value)) {
    EXPECT_TRUE(got.is_null());
  } else {
    EXPECT_DOUBLE_EQ(got.get<double>(), value);
  }
}

void expect_moment(const Json& got, const std::optional<answers::Moment>& at) {
  ASSERT_EQ(got.is_null(), !at);
  if (!at) return;
  EXPECT_EQ(got.at("day"), at->day + 1);
  EXPECT_DOUBLE_EQ(got.at("hour").get<double>(), at->hour);
  EXPECT_DOUBLE_EQ(got.at("done_km").get<double>(), at->done_km);
  EXPECT_DOUBLE_EQ(got.at("to_go_km").get<double>(), at->to_go_km);
}

class NeedsCommand : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, NeedsCommand, ::testing::ValuesIn(scenarios()), AsTestName{});

TEST_P(NeedsCommand, SaysInJsonWhatTheLibraryAnswers) {
  const Told told(GetParam());
  const Outcome outcome = needs(scenario_path(GetParam()), {"--format", "json"});
  EXPECT_EQ(outcome.status, told.needs.met() ? 0 : 1);
  const Json json = Json::parse(outcome.out);
  EXPECT_EQ(json.at("format"), "drystage.needs/1");
  EXPECT_EQ(json.at("met"), told.needs.met());
  ASSERT_EQ(json.at("days").size(), told.trip.days());
  ASSERT_EQ(json.at("reserves").size(), told.needs.reserves.size());
  for (std::size_t i = 0; i < told.needs.reserves.size(); ++i) {
    const auto& name = told.info(told.needs.reserves[i]).name;
    EXPECT_EQ(json.at("reserves").at(i).at("name"), name);
    for (std::size_t day = 0; day < told.trip.days(); ++day) {
      const answers::Need& need = told.needs.need(day, i);
      const Json& got = json.at("days").at(day).at("reserves").at(name);
      ASSERT_EQ(got.is_null(), !need.judged);
      if (!need.judged) continue;
      expect_number(got.at("must_have"), need.must_have);
      expect_number(got.at("has"), need.has);
      expect_number(got.at("to_spare"), need.slack());
      EXPECT_EQ(got.at("met"), !need.lacks());
      EXPECT_EQ(got.at("fits"), need.fits);
      EXPECT_EQ(got.at("until").at("day"), need.until_day + 1);
      EXPECT_EQ(got.at("until").at("place"), told.place(need.until_place));
    }
  }
  const Json& stretches = json.at("turn_back").at("stretches");
  ASSERT_EQ(stretches.size(), told.turn_back.stretches.size());
  for (std::size_t s = 0; s < stretches.size(); ++s) {
    const answers::SupplyStretch& stretch = told.turn_back.stretches[s];
    EXPECT_EQ(stretches.at(s).at("reserve"), told.info(stretch.reserve).name);
    EXPECT_EQ(stretches.at(s).at("from"), told.place(stretch.from_place));
    EXPECT_EQ(stretches.at(s).at("to"), told.place(stretch.to_place));
    EXPECT_EQ(stretches.at(s).at("possible") == "always", stretch.always);
    expect_moment(stretches.at(s).at("leaves"), stretch.leaves);
    expect_moment(stretches.at(s).at("last"), stretch.last);
    expect_moment(stretches.at(s).at("again"), stretch.again);
    expect_moment(stretches.at(s).at("even"), stretch.even);
    const Json& times = stretches.at(s).at("windows");
    ASSERT_EQ(times.size(), stretch.windows.size());
    for (std::size_t w = 0; w < times.size(); ++w) {
      expect_moment(times.at(w).at("from"), stretch.windows[w].from);
      expect_moment(times.at(w).at("last"), stretch.windows[w].last);
    }
  }
  const Json& windows = json.at("turn_back").at("all");
  ASSERT_EQ(windows.size(), told.turn_back.windows.size());
  for (std::size_t w = 0; w < windows.size(); ++w) {
    const answers::Window& window = told.turn_back.windows[w];
    expect_moment(windows.at(w).at("from"), window.from);
    expect_moment(windows.at(w).at("last"), window.last);
    const Json decides = window.decides < 0 ? Json() : Json(told.info(window.decides).name);
    EXPECT_EQ(windows.at(w).at("decides"), decides);
  }
}

TEST_P(NeedsCommand, SaysTheSameInCsv) {
  const support::Trip trip = support::travel(*plan::read_file(scenario_path(GetParam())).plan);
  const answers::Needs all = answers::morning_needs(trip);
  const Outcome outcome = needs(scenario_path(GetParam()), {"--format", "csv"});
  EXPECT_EQ(outcome.status, all.met() ? 0 : 1);
  const std::vector<Row> rows = parse_csv(outcome.out);
  const Row head{"day",      "date", "reserve", "unit",      "must_have",  "has",
                 "to_spare", "met",  "fits",    "until_day", "until_hour", "until_place"};
  const auto judged = std::ranges::count_if(all.table, &answers::Need::judged);
  ASSERT_EQ(rows.size(), 1 + static_cast<std::size_t>(judged));
  EXPECT_EQ(rows.front(), head);
  std::size_t next = 1;
  for (std::size_t n = 0; n < all.table.size(); ++n) {
    const answers::Need& need = all.table[n];
    if (!need.judged) continue;
    const Row& row = rows[next++];
    const auto reserve = static_cast<std::size_t>(all.reserves[n % all.reserves.size()]);
    EXPECT_EQ(row[0], std::to_string(n / all.reserves.size() + 1));
    EXPECT_EQ(row[2], trip.course.reserves[reserve].name);
    EXPECT_EQ(row[3], trip.course.reserves[reserve].unit);
    const std::array<double, 3> values{need.must_have, need.has, need.slack()};
    for (std::size_t v = 0; v < values.size(); ++v) {
      const std::string& cell = row[4 + v];
      ASSERT_EQ(cell.empty(), !std::isfinite(values.at(v)));
      EXPECT_TRUE(cell.empty() || std::abs(std::stod(cell) - values.at(v)) < 6e-5) << cell;
    }
    EXPECT_EQ(row[7], need.lacks() ? "no" : "yes");
    EXPECT_EQ(row[8], need.fits ? "yes" : "no");
    EXPECT_EQ(row[9], std::to_string(need.until_day + 1));
    EXPECT_NEAR(std::stod(row[10]), need.until_h, 6e-5);
    const auto place = static_cast<std::size_t>(std::max(0, need.until_place));
    EXPECT_EQ(row[11], need.until_place < 0 ? "" : trip.plan.places[place].name);
  }
}

void expect_page(const std::string& name, const std::string& system) {
  const Outcome outcome = needs(scenario_path(name), {"--units", system});
  EXPECT_THAT(outcome.out,
              ::testing::AnyOf(StartsWith(outcome.status == 0 ? "MET:" : "NOT MET."),
                               StartsWith(outcome.status == 0 ? "MET:" : "MET FOR WHAT LIFE")));
  EXPECT_THAT(outcome.out, HasSubstr("\nTurning back"));
  for (const std::string& line : lines(outcome.out)) EXPECT_LE(terminal_columns(line), 80) << line;
}

TEST_P(NeedsCommand, FitsAPage) { expect_page(GetParam(), "metric"); }

TEST(NeedsCommandUnits, FitAPage) {
  for (const char* name : {"base-camp", "family-two-vehicles"}) {
    for (const char* system : {"us", "imperial"}) expect_page(name, system);
  }
}

TEST(NeedsCommandTable, MayBeWide) {
  int widest = 0;
  for (const std::string& line : lines(needs(scenario_path("high-plateau"), {"--wide"}).out)) {
    widest = std::max(widest, terminal_columns(line));
  }
  EXPECT_GT(widest, 100);
}

TEST(NeedsCommandUnits, AreOfTheTableAlone) {
  const std::string plan = scenario_path("base-camp");
  EXPECT_NE(needs(plan, {"--units", "us"}).out, needs(plan).out);
  EXPECT_THAT(needs(plan, {"--units", "us"}).out, HasSubstr("Drinking, US gal"));
  for (const char* format : {"json", "csv"}) {
    EXPECT_EQ(needs(plan, {"--format", format, "--units", "us"}).out,
              needs(plan, {"--format", format}).out);
  }
}

TEST(NeedsCommandErrors, AWrongPlanIsToldAndNothingIsAnswered) {
  const Workspace workspace;
  const std::string plan = workspace.write("plan.yaml", "drystage: 1\ntrip: {title: 5 apples}\n");
  const std::string file = workspace.path("needs.json");
  const Outcome outcome = needs(plan, {"--output", file, "--format", "json"});
  EXPECT_EQ(outcome.status, wrong);
  EXPECT_EQ(outcome.out, "");
  EXPECT_THAT(outcome.err, HasSubstr("plan.yaml"));
  EXPECT_EQ(workspace.names(), std::vector<std::string>{"plan.yaml"});
}

TEST(NeedsCommandOutput, IsWholeInAFile) {
  const Workspace workspace;
  for (const char* format : {"table", "csv", "json"}) {
    const std::string file = workspace.path(std::string("needs.") + format);
    const std::vector<std::string> options{"--format", format};
    const Outcome shown = needs(scenario_path("base-camp"), options);
    const Outcome written =
        needs(scenario_path("base-camp"), {"--format", format, "--output", file});
    EXPECT_EQ(written.status, shown.status);
    EXPECT_EQ(written.out, "");
    EXPECT_EQ(read_file(file), shown.out) << format;
  }
  EXPECT_EQ(workspace.names().size(), 3U);
}

TEST(NeedsCommandOutput, IsNotOverThePlan) {
  const Workspace workspace;
  const std::string text = read_file(scenario_path("base-camp"));
  const std::string plan = workspace.write("plan.yaml", text);
  EXPECT_EQ(needs(plan, {"--output", plan}).status, wrong);
  EXPECT_EQ(read_file(plan), text);
}

}  // namespace
}  // namespace drystage::testing::needs_test
