// Where answers go: never over the plan, and with the warnings where a file is taken along.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "cli/process.h"
#include "cli/workspace.h"
#include "support/answer.h"

namespace drystage::testing::output_test {
namespace {

using support::times;
using support::unwrapped;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

constexpr int wrong = 2;

/// A plan of which two things are odd: no margin for drinking water, and somebody who hardly
/// drinks, which is less than an adult's two litres and less than the model.
std::string odd_plan() {
  support::PlanText plan;
  plan.people = {support::PlanText::person("Ada", "1 L/day")};
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  return plan.text();
}

const std::string no_margin = "no margin for drinking_water: the plan may use it to the last drop";
const std::string hardly_drinks = "\"Ada\" is said to drink 1 L a day";
const std::string under_the_model =
    "\"Ada\" is said to drink 1.0 L a day where the model asks 2.0 L (activity \"camp\", 20 °C to "
    "20 "
    "°C)";

void expect_refused(const Outcome& outcome, const std::string& output) {
  EXPECT_EQ(outcome.status, wrong) << output;
  EXPECT_EQ(outcome.out, "") << output;
  EXPECT_THAT(outcome.err, HasSubstr("--output " + output + ": that is the plan itself"));
}

TEST(Output, OverThePlanIsRefusedHoweverItIsSpelt) {
  const Workspace workspace;
  const std::string text = odd_plan();
  const std::string plan = workspace.write("plan.yaml", text);
  std::filesystem::create_directory(workspace.path("sub"));
  std::filesystem::create_hard_link(plan, workspace.path("twin.yaml"));
  std::filesystem::create_symlink("plan.yaml", workspace.path("link.yaml"));
  for (const std::string& output :
       {plan, std::string("plan.yaml"), std::string("./plan.yaml"), std::string("sub/../plan.yaml"),
        workspace.folder() + "//plan.yaml", std::string("twin.yaml"), std::string("link.yaml")}) {
    for (const char* command : {"run", "check"}) {
      expect_refused(drystage({command, plan, "--output", output}, {.folder = workspace.folder()}),
                     output);
      EXPECT_EQ(read_file(plan), text) << output;
    }
  }
  EXPECT_EQ(workspace.names(),
            (std::vector<std::string>{"link.yaml", "plan.yaml", "sub", "twin.yaml"}));
}

TEST(Output, OverAPlanThatIsNamedByALinkIsRefused) {
  const Workspace workspace;
  const std::string plan = workspace.write("plan.yaml", odd_plan());
  std::filesystem::create_symlink("plan.yaml", workspace.path("link.yaml"));
  expect_refused(drystage({"run", workspace.path("link.yaml"), "--output", plan}), plan);
  EXPECT_EQ(read_file(plan), odd_plan());
}

TEST(Output, BesideThePlanIsWritten) {
  const Workspace workspace;
  const std::string plan = workspace.write("plan.yaml", odd_plan());
  const std::string answer = workspace.path("answer.txt");
  EXPECT_EQ(drystage({"run", plan, "--output", answer}).status, 0);
  EXPECT_THAT(read_file(answer), HasSubstr("HOLDS:"));
  EXPECT_EQ(read_file(plan), odd_plan());
}

TEST(Warnings, StandInAFileThatIsTakenAlong) {
  const Workspace workspace;
  const std::string plan = workspace.write("plan.yaml", odd_plan());
  const std::string file = workspace.path("answer.txt");
  const Outcome outcome = drystage({"run", plan, "--output", file});
  EXPECT_EQ(outcome.status, 0);
  const std::string text = unwrapped(read_file(file));
  for (const std::string& warning : {no_margin, hardly_drinks}) {
    EXPECT_EQ(times(text, "Warning: " + warning + "."), 1) << text;
    EXPECT_EQ(times(unwrapped(outcome.err), "warning: " + warning), 1) << outcome.err;
  }
  for (const std::string& line : lines(read_file(file))) EXPECT_LE(terminal_columns(line), 80);
}

TEST(Warnings, StandOnceBesideAnAnswerOnTheTerminal) {
  const Workspace workspace;
  const std::string plan = workspace.write("plan.yaml", odd_plan());
  const Outcome outcome = drystage({"run", plan});
  EXPECT_THAT(outcome.out, Not(HasSubstr("arning")));
  for (const std::string& warning : {no_margin, hardly_drinks}) {
    EXPECT_EQ(times(unwrapped(outcome.out + outcome.err), warning), 1) << warning;
  }
}

TEST(Warnings, StandInJsonWhereverItGoes) {
  const Workspace workspace;
  const std::string plan = workspace.write("plan.yaml", odd_plan());
  const std::string file = workspace.path("answer.json");
  const Outcome shown = drystage({"run", plan, "--format", "json"});
  EXPECT_EQ(drystage({"run", plan, "--format", "json", "--output", file}).out, "");
  EXPECT_EQ(read_file(file), shown.out);
  const auto warnings =
      nlohmann::json::parse(shown.out).at("warnings").get<std::vector<std::string>>();
  EXPECT_THAT(warnings, ::testing::UnorderedElementsAre(no_margin, hardly_drinks, under_the_model));
}

TEST(Warnings, OfAPlanWithoutOdditiesAreAnEmptyListInJson) {
  const Outcome shown = drystage({"run", scenario_path("base-camp"), "--format", "json"});
  EXPECT_THAT(nlohmann::json::parse(shown.out).at("warnings"), IsEmpty());
}

TEST(Warnings, OfNamedDaysOutsideTheTripAreAmongThem) {
  const Workspace workspace;
  const std::string plan =
      workspace.write("plan.yaml", odd_plan() + "weather: [{on: 2031-01-01, max: 30 °C}]\n");
  const std::string file = workspace.path("answer.txt");
  EXPECT_EQ(drystage({"run", plan, "--output", file}).status, 0);
  const std::string words = "weather of days on which nobody is under way";
  EXPECT_THAT(unwrapped(read_file(file)), HasSubstr("Warning: " + words));
  const Outcome checked = drystage({"check", plan});
  EXPECT_THAT(unwrapped(checked.err), HasSubstr("warning: " + words));
  EXPECT_THAT(checked.out, HasSubstr("right, with 4 warnings"));
}

// Every sort of reserve is in one of these.
TEST(DisplayUnits, ChangeNeitherJsonNorCsv) {
  for (const char* name : {"desert-crossing", "family-two-vehicles"}) {
    for (const char* format : {"json", "csv"}) {
      const std::string metric = drystage({"run", scenario_path(name), "--format", format}).out;
      ASSERT_NE(metric, "");
      for (const char* system : {"us", "imperial"}) {
        EXPECT_EQ(drystage({"run", scenario_path(name), "--format", format, "--units", system}).out,
                  metric)
            << name << " " << format << " " << system;
      }
    }
  }
}

}  // namespace
}  // namespace drystage::testing::output_test
