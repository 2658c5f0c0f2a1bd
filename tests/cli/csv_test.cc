// `drystage run --format csv`, as a spreadsheet would open it.

#include "cli/csv.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing {
namespace {

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
  return text;
}

std::vector<Row> csv_of(const std::string& plan) {
  return parse_csv(drystage({"run", plan, "--format", "csv"}).out);
}

std::size_t column(const std::vector<Row>& rows, const std::string& name) {
  const auto found = std::ranges::find(rows.front(), name);
  EXPECT_NE(found, rows.front().end()) << name;
  return static_cast<std::size_t>(found - rows.front().begin());
}

bool is_number(const std::string& cell) {
  char* end = nullptr;
  std::strtod(cell.c_str(), &end);
  return !cell.empty() && *end == '\0';
}

void expect_no_formula(const std::vector<Row>& rows) {
  for (const Row& row : rows) {
    for (const std::string& cell : row) {
      if (cell.empty() || is_number(cell)) continue;
      EXPECT_EQ(std::string("=+-@\t\r").find(cell.front()), std::string::npos) << cell;
    }
  }
}

class RunCsv : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, RunCsv, ::testing::ValuesIn(scenarios()), AsTestName{});

TEST_P(RunCsv, SaysWhatTheJsonSays) {
  const std::vector<Row> rows = csv_of(scenario_path(GetParam()));
  const Outcome outcome = drystage({"run", scenario_path(GetParam()), "--format", "json"});
  const auto json = nlohmann::json::parse(outcome.out);
  const std::size_t day_column = column(rows, "day");
  const std::size_t date_column = column(rows, "date");
  const std::size_t name_column = column(rows, "reserve");
  std::size_t judged = 0;
  for (const auto& day : json.at("days")) {
    judged += static_cast<std::size_t>(std::ranges::count_if(
        day.at("reserves"), [](const nlohmann::json& one) { return !one.is_null(); }));
  }
  ASSERT_EQ(rows.size(), 1 + judged);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const Row& row = rows[i];
    const auto& day = json.at("days").at(static_cast<std::size_t>(std::stoi(row[day_column]) - 1));
    EXPECT_EQ(row[date_column], day.at("date"));
    const auto& reserve = day.at("reserves").at(row[name_column]);
    for (const char* key :
         {"start", "gained", "used", "lost", "end", "lowest", "left", "margin", "short", "drawn"}) {
      const std::string& cell = row[column(rows, key)];
      ASSERT_EQ(cell.empty(), !reserve.contains(key)) << key;
      if (cell.empty()) continue;
      EXPECT_NEAR(std::stod(cell), reserve.at(key).get<double>(), 6e-5) << key;
    }
    // Without end in JSON: null.
    const std::string& endurance = row[column(rows, "endurance")];
    ASSERT_EQ(endurance.empty(), reserve.at("endurance").is_null());
    if (!endurance.empty()) {
      EXPECT_NEAR(std::stod(endurance), reserve.at("endurance").get<double>(), 6e-5);
    }
    EXPECT_EQ(row[column(rows, "breached")], reserve.at("breached").get<bool>() ? "yes" : "no");
  }
}

TEST_P(RunCsv, StartsNoFormula) { expect_no_formula(csv_of(scenario_path(GetParam()))); }

TEST(RunCsv, StartsNoFormulaWhateverThingsAreCalled) {
  const Workspace workspace;
  for (const char* name : {"=cmd|x", "+1+1", "-2", "@SUM(A1)"}) {
    std::string text = read_file(scenario_path("base-camp"));
    text = replaced(text, "name: van", "name: \"" + std::string(name) + "\"");
    text = text.substr(0, text.find("\nsize:"));
    text = replaced(text, "name: camp bank", "name: \"" + std::string(name) + "\"");
    text = replaced(text, "name: drawer fridge", "name: \"" + std::string(name) + "\"");
    const std::string plan = workspace.write("plan.yaml", text);
    const std::vector<Row> rows = csv_of(plan);
    ASSERT_GT(rows.size(), 1U) << name;
    expect_no_formula(rows);
    const std::size_t names = column(rows, "reserve");
    EXPECT_TRUE(std::ranges::any_of(rows, [&](const Row& row) {
      return row[names].find(name) != std::string::npos;
    })) << name;
  }
}

TEST(RunCsv, QuotesCommasAndQuotes) {
  const Workspace workspace;
  const std::string text = replaced(read_file(scenario_path("base-camp")), "name: van",
                                    R"(name: 'the "old", blue van')");
  const std::vector<Row> rows = csv_of(workspace.write("plan.yaml", text));
  const std::size_t names = column(rows, "reserve");
  EXPECT_TRUE(std::ranges::any_of(
      rows, [&](const Row& row) { return row[names] == R"(fuel:the "old", blue van)"; }));
}

}  // namespace
}  // namespace drystage::testing
