// A trip and its kit, as a user has them: two files, one plan.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "cli/process.h"
#include "cli/workspace.h"

namespace drystage::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

/// A plan, and the same with its kit in a file of its own.
class Kit : public ::testing::Test {
 protected:
  void SetUp() override {
    std::filesystem::create_directory(space_.path("kits"));
    const std::string whole =
        read_file(std::filesystem::path(DRYSTAGE_TEST_DATA) / "cli" / "kit-trip.yaml");
    const std::size_t kit = whole.find("water:\n  containers");
    const std::size_t way = whole.find("itinerary:");
    ASSERT_LT(kit, way);
    put("whole.yaml", whole);
    put("kits/van.yaml", "drystage: 1\n" + whole.substr(kit, way - kit));
    trip_ = "include: kits/van.yaml\n" + whole.substr(0, kit) + whole.substr(way);
    put("trip.yaml", trip_);
  }

  void put(const std::string& name, const std::string& text) const {
    EXPECT_NE(space_.write(name, text), "");
  }
  [[nodiscard]] Outcome ask(const std::vector<std::string>& words) const {
    return drystage(words, {.folder = space_.folder()});
  }

  const Workspace space_;
  std::string trip_;
};

TEST_F(Kit, GivesTheSameAnswersAsThePlanInOneFile) {
  for (const char* command : {"run", "needs"}) {
    const Outcome whole = ask({command, "whole.yaml"});
    const Outcome parts = ask({command, "trip.yaml"});
    EXPECT_EQ(difference(whole.out, parts.out), "");
    EXPECT_EQ(parts.err, whole.err);
    EXPECT_EQ(parts.status, whole.status);
  }
  EXPECT_EQ(ask({"check", "trip.yaml"}).out, "trip.yaml: right: 6 days\n");
}

TEST_F(Kit, IsSizedIntoAPlanThatStandsAlone) {
  std::filesystem::create_directory(space_.path("elsewhere"));
  ASSERT_EQ(ask({"size", "trip.yaml", "--write", "elsewhere/sized.yaml"}).status, 0);
  ASSERT_EQ(ask({"size", "whole.yaml", "--write", "sized.yaml"}).status, 0);
  const std::string text = read_file(space_.path("elsewhere/sized.yaml"));
  EXPECT_THAT(text, Not(HasSubstr("include")));
  EXPECT_THAT(text, HasSubstr("# Taken over from kits/van.yaml\n"));
  EXPECT_THAT(text, HasSubstr("# The plan that tests take apart"));
  EXPECT_EQ(read_file(space_.path("trip.yaml")), trip_);
  EXPECT_EQ(difference(ask({"run", "sized.yaml", "--format", "csv"}).out,
                       ask({"run", "elsewhere/sized.yaml", "--format", "csv"}).out),
            "");
  EXPECT_EQ(ask({"run", "elsewhere/sized.yaml"}).status, 0);
}

TEST_F(Kit, IsNotWrittenOver) {
  const std::string before = read_file(space_.path("kits/van.yaml"));
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"run", "trip.yaml", "--output", "kits/van.yaml"},
        {"check", "trip.yaml", "--output", "./kits/van.yaml"},
        {"size", "trip.yaml", "--write", "kits/van.yaml"}}) {
    const Outcome outcome = ask(words);
    EXPECT_EQ(outcome.status, 2);
    EXPECT_THAT(outcome.err, HasSubstr("kits/van.yaml: the plan includes that file\n"));
    EXPECT_EQ(read_file(space_.path("kits/van.yaml")), before);
  }
}

TEST_F(Kit, IsChangedBySetAndByTheTrip) {
  const auto left = [&](const std::vector<std::string>& more) {
    std::vector<std::string> words{"run", "trip.yaml", "--format", "csv"};
    words.insert(words.end(), more.begin(), more.end());
    return ask(words).out;
  };
  const std::string as_it_is = left({});
  const std::string less = left({"--set", "water.containers.can 1.filled=10 L"});
  EXPECT_NE(less, as_it_is);
  put("trip.yaml", trip_ + "water: {containers: [{name: can 1, filled: 10 L}]}\n");
  EXPECT_EQ(left({}), less);
}

TEST_F(Kit, IsCheckedByItself) {
  const Outcome right = ask({"check", "kits/van.yaml"});
  EXPECT_EQ(right.status, 0);
  EXPECT_EQ(right.out, "kits/van.yaml: right: a kit with water, vehicles, cold, food and power\n");
  EXPECT_EQ(right.err, "");
  put("kits/van.yaml", "water: {containers: [{name: can, holds: 20 L, for: drinking}]}\nfod: []\n");
  const Outcome refused = ask({"check", "kits/van.yaml"});
  EXPECT_EQ(refused.status, 2);
  EXPECT_EQ(refused.out, "");
  EXPECT_THAT(refused.err,
              HasSubstr("kits/van.yaml:1:22: error: container \"can\" lacks \"filled\""));
  EXPECT_THAT(refused.err, HasSubstr("kits/van.yaml:2:1: error: a plan has no key \"fod\""));
  EXPECT_THAT(refused.err, HasSubstr("kits/van.yaml: 2 errors; nothing was run\n"));
}

TEST_F(Kit, IsNoPlanToBeRun) {
  const Outcome outcome = ask({"run", "kits/van.yaml"});
  EXPECT_EQ(outcome.status, 2);
  EXPECT_THAT(outcome.err, HasSubstr("a plan lacks \"itinerary\""));
  EXPECT_THAT(outcome.err, HasSubstr("It has no itinerary. If it is a kit, a trip takes it over:\n"
                                     "  include: van.yaml\n"));
}

TEST_F(Kit, IsNamedInWhatIsWrong) {
  put("kits/van.yaml",
      "cold:\n  - {name: chest, volume: 40, set_point: 3 °C, heat_leak: 0.5 W/K}\n");
  const Outcome outcome = ask({"check", "trip.yaml"});
  EXPECT_EQ(outcome.status, 2);
  EXPECT_THAT(outcome.err, HasSubstr("kits/van.yaml:2:27: error: volume: 40 has no unit\n"
                                     "  1 | cold:\n"
                                     "> 2 |   - {name: chest, volume: 40, set_point"));
  EXPECT_THAT(outcome.err, HasSubstr("trip.yaml: "));
}

TEST_F(Kit, ThatIsMissingIsSaidWithItsLine) {
  std::filesystem::remove(space_.path("kits/van.yaml"));
  const Outcome outcome = ask({"run", "trip.yaml"});
  EXPECT_EQ(outcome.status, 2);
  EXPECT_THAT(outcome.out, IsEmpty());
  EXPECT_THAT(outcome.err,
              HasSubstr("trip.yaml:1:10: error: include: there is no file kits/van.yaml\n"));
}

}  // namespace
}  // namespace drystage::testing
