// `drystage size` as a user runs it: what it writes can be run, holds, and is the user's own file
// but for the set.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "cli/csv.h"
#include "cli/process.h"
#include "cli/workspace.h"
#include "support/answer.h"
#include "support/plan_text.h"

namespace drystage::testing {
namespace {

using support::unwrapped;
using ::testing::ContainsRegex;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;
using Json = nlohmann::ordered_json;

constexpr int wrong = 2;
constexpr int unwritten = 3;

void expect_eighty_columns(const std::string& text) {
  for (const std::string& line : lines(text)) EXPECT_LE(terminal_columns(line), 80) << line;
}

/// Every remark of a plan file: from its # to the end of the line.
std::vector<std::string> remarks_of(const std::string& text) {
  std::vector<std::string> out;
  for (const std::string& line : lines(text)) {
    const std::size_t at = line.starts_with('#') ? 0 : line.find(" #");
    if (at != std::string::npos) out.push_back(line.substr(at));
  }
  return out;
}

/// A folder of its own with one plan in it.
class Folder {
 public:
  explicit Folder(const std::string& text) : text_(text), plan_(space_.write("trip.yaml", text)) {}

  [[nodiscard]] Outcome command(std::vector<std::string> words) const {
    return drystage(words, {.folder = space_.folder()});
  }
  [[nodiscard]] Outcome size(const std::vector<std::string>& options = {}) const {
    std::vector<std::string> words{"size", "trip.yaml"};
    words.insert(words.end(), options.begin(), options.end());
    return command(words);
  }
  [[nodiscard]] Json json(std::vector<std::string> options = {}) const {
    options.insert(options.end(), {"--format", "json"});
    return Json::parse(size(options).out);
  }
  [[nodiscard]] std::string read(const std::string& name) const {
    return read_file(space_.path(name));
  }
  [[nodiscard]] std::vector<std::string> names() const { return space_.names(); }
  [[nodiscard]] const std::string& text() const { return text_; }
  void write(const std::string& name, const std::string& text) const {
    EXPECT_NE(space_.write(name, text), "");
  }

 private:
  Workspace space_;
  std::string text_;
  std::string plan_;
};

/// How many of a thing, or which size of it, an answer says to load; 0 where it has no line.
double loaded(const Json& answer, const std::string& name) {
  for (const Json& line : answer.at("load").at("lines")) {
    if (line.at("name") == name) return line.at("load").at("amount").get<double>();
  }
  return 0;
}

class SizeOf : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, SizeOf, ::testing::ValuesIn(scenarios()), AsTestName{});

TEST_P(SizeOf, WritesAPlanThatIsRightAndHoldsAndIsElseTheUsersOwn) {
  const Folder folder(read_file(scenario_path(GetParam())));
  const Outcome outcome = folder.size({"--write", "sized.yaml"});
  ASSERT_EQ(outcome.status, 0) << outcome.err;
  EXPECT_EQ(outcome.err, "");
  EXPECT_THAT(outcome.out, HasSubstr("\nWritten to sized.yaml.\n"));
  expect_eighty_columns(outcome.out);
  EXPECT_THAT(folder.names(), ElementsAre("sized.yaml", "trip.yaml"));
  EXPECT_EQ(folder.read("trip.yaml"), folder.text());
  const Outcome run = folder.command({"run", "sized.yaml"});
  EXPECT_EQ(run.status, 0) << run.out << run.err;
  const Outcome check = folder.command({"check", "sized.yaml"});
  EXPECT_EQ(check.status, 0);
  EXPECT_THAT(check.out, StartsWith("sized.yaml: right: "));
  const std::string written = folder.read("sized.yaml");
  EXPECT_THAT(written, Not(ContainsRegex(" -0[ ,}]")));
  for (const std::string& remark : remarks_of(folder.text())) {
    EXPECT_THAT(written, HasSubstr(remark));
  }
}

// Short ones, with and without prices.
constexpr const char* short_trip = "last-camp";
constexpr const char* priced_trip = "coast-road";

TEST(SizeCommand, LeavesNothingToSizeInWhatItWrote) {
  for (const char* name : {short_trip, priced_trip, "two-at-once"}) {
    const Folder folder(read_file(scenario_path(name)));
    const double kg = folder.json({"--write", "sized.yaml"}).at("load").at("totals").at("kg");
    const Outcome again = folder.command({"size", "sized.yaml", "--format", "json"});
    const Json answer = Json::parse(again.out);
    EXPECT_NEAR(answer.at("load").at("totals").at("kg").get<double>(), kg, 0.1) << name;
    for (const Json& line : answer.at("load").at("lines")) {
      EXPECT_EQ(line.at("load").at("amount"), line.at("plan").at("amount")) << name << line;
      EXPECT_EQ(line.at("load").at("detail"), line.at("plan").at("detail")) << name << line;
    }
  }
}

TEST(SizeCommand, WhatIsToSurviveMishapsDoesSo) {
  for (const char* name : {short_trip, "two-at-once"}) {
    const Folder folder(read_file(scenario_path(name)));
    EXPECT_EQ(folder.size({"--write", "lean.yaml"}).status, 0);
    const Outcome outcome = folder.size({"--survive", "mishap", "--write", "safe.yaml"});
    EXPECT_EQ(outcome.status, 0) << outcome.err;
    EXPECT_THAT(unwrapped(outcome.out), HasSubstr("runs drinking water or fuel dry"));
    expect_eighty_columns(outcome.out);
    // Without being asked for it is not so.
    EXPECT_EQ(folder.command({"mishaps", "lean.yaml"}).status, 1) << name;
    EXPECT_EQ(folder.command({"mishaps", "safe.yaml"}).status, 0) << name;
    EXPECT_EQ(folder.command({"run", "safe.yaml"}).status, 0) << name;
  }
}

TEST(SizeCommand, WhatIsToSurviveOneKindOfMishapDoesSo) {
  const Folder folder(read_file(scenario_path(short_trip)));
  const auto kg = [](const Json& answer) {
    return answer.at("load").at("totals").at("kg").get<double>();
  };
  EXPECT_LT(kg(folder.json()), kg(folder.json({"--survive", "shut", "--write", "sized.yaml"})));
  EXPECT_EQ(folder.command({"mishaps", "sized.yaml", "--only", "shut"}).status, 0);
}

/// Five days of 4 L and a margin of 18 L are 38 L: two containers of 20 L, which are light and
/// dear, or four of 10 L, one of them the plan's own.
support::PlanText priced() {
  support::PlanText plan;
  plan.margins = {"drinking_water: 18 L"};
  plan.containers = {"{name: spare, holds: 10 L, filled: 10 L, empty_mass: 0.7 kg}",
                     "{name: jug, holds: 5 L, filled: 5 L}"};
  return plan;
}

const std::string prices =
    "size:  # of the two shops\n"
    "  containers:\n"
    "    drinking:\n"
    "      - {holds: 20 L, empty_mass: 1 kg, cost: 50}\n"
    "      - {holds: 10 L, empty_mass: 1.5 kg, cost: 5}\n";

TEST(SizeCommand, LeastMassAndLeastCostAreUnlikeSets) {
  const Folder folder(priced().text() + prices);
  const Json light = folder.json({"--write", "light.yaml"});
  EXPECT_EQ(light.at("asked").at("least"), "mass");
  EXPECT_EQ(loaded(light, "20 L container of drinking water"), 2);
  EXPECT_EQ(loaded(light, "10 L container of drinking water"), 0);
  EXPECT_EQ(light.at("load").at("totals").at("cost"), 100);
  EXPECT_NEAR(light.at("load").at("totals").at("kg").get<double>(), 2 * 21, 1e-9);
  const Json cheap = folder.json({"--least", "cost", "--write", "cheap.yaml"});
  EXPECT_EQ(cheap.at("asked").at("least"), "cost");
  EXPECT_EQ(loaded(cheap, "20 L container of drinking water"), 0);
  EXPECT_EQ(loaded(cheap, "10 L container of drinking water"), 4);
  EXPECT_EQ(cheap.at("load").at("totals").at("cost"), 20);
  EXPECT_NEAR(cheap.at("load").at("totals").at("kg").get<double>(), 10.7 + 3 * 11.5, 1e-9);
  for (const char* name : {"light.yaml", "cheap.yaml"}) {
    EXPECT_EQ(folder.command({"run", name}).status, 0) << name;
    EXPECT_THAT(folder.read(name), HasSubstr("size:  # of the two shops\n")) << name;
  }
  EXPECT_THAT(folder.size().out, StartsWith("LOAD 42 kg, at a cost of 100: the lightest set"));
  EXPECT_THAT(folder.size({"--least", "cost"}).out, StartsWith("LOAD 46 kg, at a cost of 20: the "
                                                               "cheapest set"));
}

TEST(SizeCommand, WhatIsKeptStaysAsItIsAndIsCountedOn) {
  const Folder folder(priced().text() + prices);
  const std::vector<std::string> own = priced().containers;
  const Outcome outcome = folder.size({"--keep", "jug, spare", "--write", "sized.yaml"});
  EXPECT_EQ(outcome.status, 0);
  EXPECT_THAT(outcome.out, HasSubstr("kept as "));
  const std::string written = folder.read("sized.yaml");
  for (const std::string& line : own) EXPECT_THAT(written, HasSubstr(line));
  // Of this search alone: the file keeps what it kept before.
  EXPECT_THAT(written, Not(HasSubstr("keep:")));
  const Json answer = folder.json({"--keep", "jug, spare"});
  EXPECT_EQ(loaded(answer, "jug"), 5);
  EXPECT_EQ(loaded(answer, "spare"), 10);
  // 38 L less 15 L are 23 L: 20 and 10.
  EXPECT_EQ(loaded(answer, "20 L container of drinking water"), 1);
  EXPECT_EQ(loaded(answer, "10 L container of drinking water"), 1);
  EXPECT_EQ(loaded(folder.json(), "jug"), 0);
}

TEST(SizeCommand, CountsOnNothingUnconfirmedIfSoAsked) {
  support::PlanText plan;
  plan.margins = {"drinking_water: 1 L"};
  plan.containers = {"{name: can, holds: 20 L, filled: 20 L}"};
  plan.vehicles = {
      "{name: car, fuel: petrol, mass: {empty: 1500 kg}, tanks: "
      "[{name: tank, holds: 60 L, filled: 60 L}]}"};
  plan.places = {support::PlanText::place("Base", "air"),
                 support::PlanText::place("Well", "air", "drinking_water: {confirmed: no}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 4}",
                    "drive: {to: Well, distance: 20 km, surfaces: sealed}",
                    "resupply: {drinking_water: fill}", "stay: {nights: 4}"};
  const Folder folder(plan.text());
  const Outcome hopes = folder.size({"--write", "hopes.yaml"});
  EXPECT_EQ(hopes.status, 0);
  EXPECT_THAT(hopes.out, StartsWith("HOLDS ONLY IF "));
  const Outcome sure = folder.size({"--confirmed-only", "--write", "sure.yaml"});
  EXPECT_EQ(sure.status, 0);
  EXPECT_THAT(sure.out, StartsWith("LOAD "));
  // The least that holds in usual weather has a litre to spare: less than a hot week takes.
  EXPECT_THAT(folder.command({"run", "hopes.yaml"}).out,
              StartsWith("HOLDS IN USUAL WEATHER, AND ONLY IF "));
  EXPECT_THAT(folder.command({"run", "sure.yaml"}).out, StartsWith("HOLDS: "));
}

/// The priced trip with room or money for one container at the most.
std::string limited(const std::string& limit) {
  return priced().text() + prices + "  limits: {" + limit + "}\n";
}

TEST(SizeCommand, WhereALimitCannotBeMetItSaysByHowMuchAndWritesNothing) {
  for (const char* limit : {"space: 30 L", "budget: 3"}) {
    const Folder folder(limited(limit));
    folder.write("sized.yaml", "old\n");
    const Outcome outcome = folder.size({"--write", "sized.yaml", "--force"});
    EXPECT_EQ(outcome.status, 1) << limit;
    EXPECT_THAT(outcome.out, StartsWith("NOT ENOUGH ON OFFER: ")) << limit;
    EXPECT_THAT(outcome.out, HasSubstr(" over ")) << limit;
    EXPECT_EQ(outcome.err, "drystage: nothing was written to sized.yaml\n");
    expect_eighty_columns(outcome.out);
    EXPECT_EQ(folder.read("sized.yaml"), "old\n");
    EXPECT_THAT(folder.names(), ElementsAre("sized.yaml", "trip.yaml"));
  }
}

TEST(SizeCommand, WhereTooLittleIsOnOfferItSaysWhatTheNearestLacks) {
  const Folder folder(priced().text() +
                      "size: {containers: {drinking: [{holds: 10 L, most: 2}]}}\n");
  const Outcome outcome = folder.size();
  EXPECT_EQ(outcome.status, 1);
  EXPECT_THAT(outcome.out, StartsWith("NOT ENOUGH ON OFFER: "));
  // 20 L and the jug of 5 L, where 38 are needed.
  EXPECT_THAT(unwrapped(outcome.out), HasSubstr("lacks 13 L"));
  const Json answer = folder.json();
  EXPECT_TRUE(answer.at("load").is_null());
  EXPECT_NEAR(answer.at("nearest").at("lacks").get<double>(), 13, 1e-6);
  EXPECT_EQ(answer.at("nearest").at("failing").at(0).at("reason"), "margin");
  EXPECT_EQ(answer.at("written"), nullptr);
  const std::vector<Row> rows = parse_csv(folder.size({"--format", "csv"}).out);
  ASSERT_GT(rows.size(), 1U);
  for (std::size_t i = 1; i < rows.size(); ++i) EXPECT_EQ(rows[i].front(), "not enough");
}

TEST(SizeCommand, IntoAFolderThatIsNotThereWritesNothingAndTellsTheAnswerAllTheSame) {
  const Folder folder(priced().text() + prices);
  const Outcome outcome = folder.size({"--write", "gone/sized.yaml"});
  EXPECT_EQ(outcome.status, unwritten);
  EXPECT_THAT(outcome.err, HasSubstr("gone/sized.yaml"));
  EXPECT_THAT(outcome.out, StartsWith("LOAD 42 kg"));
  EXPECT_THAT(outcome.out, Not(HasSubstr("Written to")));
  EXPECT_THAT(folder.names(), ElementsAre("trip.yaml"));
}

TEST(SizeCommand, WhatIsWrongIsRefusedBeforeAnythingIsSearchedOrWritten) {
  const Folder folder(priced().text());
  const std::vector<std::vector<std::string>> refused{
      {"--keep", "elephant"},    {"--set", "trip.title=x"}, {"--least", "cost"},
      {"--survive", "rain"},     {"--output", "trip.yaml"}, {"--format", "yaml"},
      {"--write", "./trip.yaml"}};
  for (std::vector<std::string> options : refused) {
    if (options.front() != "--write") options.insert(options.end(), {"--write", "sized.yaml"});
    const Outcome outcome = folder.size(options);
    EXPECT_EQ(outcome.status, wrong) << options[1];
    EXPECT_EQ(outcome.out, "") << options[1];
    EXPECT_THAT(outcome.err, HasSubstr(options[0])) << options[1];
    EXPECT_THAT(folder.names(), ElementsAre("trip.yaml"));
    EXPECT_EQ(folder.read("trip.yaml"), folder.text());
  }
}

/// The last figures of the row of a table that begins with a name, so many of them; none where
/// there is no such row.
std::vector<double> figures(const std::string& table, const std::string& name, std::size_t many) {
  for (const std::string& line : lines(table)) {
    if (!line.starts_with(name)) continue;
    std::vector<std::string> words;
    std::istringstream stream(line);
    for (std::string word; stream >> word;) words.push_back(word);
    std::vector<double> out;
    for (std::size_t i = words.size() - many; i < words.size(); ++i) {
      out.push_back(std::stod(words[i]));
    }
    return out;
  }
  return {};
}

/// The cell of a row under a heading.
std::string cell(const std::vector<Row>& rows, std::size_t row, const std::string& heading) {
  const auto at = std::ranges::find(rows.front(), heading);
  return rows.at(row).at(static_cast<std::size_t>(at - rows.front().begin()));
}

TEST(SizeCommand, TableCsvAndJsonSayTheSame) {
  const Folder folder(read_file(scenario_path(short_trip)));
  const Json load = folder.json().at("load");
  const std::string table = folder.size().out;
  const std::vector<Row> rows = parse_csv(folder.size({"--format", "csv"}).out);
  ASSERT_EQ(rows.size(), load.at("lines").size() + 1);
  double kg = 0;
  int counted = 0;
  for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
    const Json& line = load.at("lines").at(i);
    const std::string name = line.at("name");
    const double amount = line.at("load").at("amount");
    const double line_kg = line.at("load").at("kg");
    kg += line_kg;
    EXPECT_EQ(cell(rows, i + 1, "name"), name);
    EXPECT_DOUBLE_EQ(std::stod(cell(rows, i + 1, "amount")), amount);
    EXPECT_NEAR(std::stod(cell(rows, i + 1, "kg")), line_kg, 1e-9);
    if (!line.at("counted").get<bool>()) continue;
    ++counted;
    const std::vector<double> shown = figures(table, name.substr(0, name.find(" of ")), 2);
    ASSERT_EQ(shown.size(), 2U) << name;
    EXPECT_EQ(shown[0], amount) << name;
    EXPECT_GE(shown[1], line_kg - 1e-9) << name;
    EXPECT_LT(shown[1], line_kg + 1) << name;
  }
  EXPECT_GE(counted, 3);
  EXPECT_NEAR(load.at("totals").at("kg").get<double>(), kg, 1e-6);
  const double shown_kg = std::ceil(kg - 1e-9);
  EXPECT_THAT(table, StartsWith("LOAD " + std::to_string(std::lround(shown_kg)) + " kg"));
  EXPECT_THAT(figures(table, "in all", 1), ElementsAre(shown_kg));
}

TEST(SizeCommand, SaysTheSameHoweverManyThreadsThereAre) {
  for (const char* name : {short_trip, priced_trip}) {
    const Folder folder(read_file(scenario_path(name)));
    // The longer trip in the form that says most.
    const std::string_view longer = priced_trip;
    for (const char* format : {"json", "table"}) {
      if (name == longer && std::string_view(format) == "table") continue;
      const auto with = [&](const char* jobs) {
        return folder.size({"--format", format, "--jobs", jobs}).out;
      };
      const std::string one = with("1");
      EXPECT_GT(one.size(), 300U);
      EXPECT_EQ(one, with("2")) << name << " " << format;
    }
  }
}

TEST(SizeCommand, ShowsOtherUnitsInEightyColumnsAndGivesProgramsMetricOnes) {
  const Folder folder(read_file(scenario_path(short_trip)));
  const double kg = folder.json().at("load").at("totals").at("kg");
  constexpr double kg_lb = 0.45359237;
  for (const char* system : {"us", "imperial"}) {
    const Outcome outcome = folder.size({"--units", system});
    EXPECT_EQ(outcome.status, 0);
    const std::string lb = std::to_string(std::lround(std::ceil(kg / kg_lb - 1e-9)));
    EXPECT_THAT(outcome.out, StartsWith("LOAD " + lb + " lb"));
    EXPECT_THAT(outcome.out, Not(HasSubstr(" kg")));
    expect_eighty_columns(outcome.out);
    for (const char* format : {"json", "csv"}) {
      EXPECT_EQ(folder.size({"--units", system, "--format", format}).out,
                folder.size({"--format", format}).out);
    }
  }
}

TEST(SizeCommand, SaysInTheAnswerWhereThePlanWentToo) {
  const Folder folder(priced().text() + prices);
  const Outcome outcome =
      folder.size({"--write", "sized.yaml", "--format", "json", "--output", "answer.json"});
  EXPECT_EQ(outcome.status, 0);
  EXPECT_EQ(outcome.out, "");
  EXPECT_THAT(folder.names(), ElementsAre("answer.json", "sized.yaml", "trip.yaml"));
  const Json answer = Json::parse(folder.read("answer.json"));
  EXPECT_EQ(answer.at("written"), "sized.yaml");
  EXPECT_EQ(answer.at("format"), "drystage.size/1");
}

}  // namespace
}  // namespace drystage::testing
