// A reading that is written into the plan's own text, and read again.
#include "plan/write_reading.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <filesystem>
#include <random>
#include <stdexcept>
#include <utility>

#include "cli/workspace.h"
#include "plan_text.h"
#include "support/plan_text.h"
#include "support/random_plan.h"
#include "support/random_readings.h"
#include "support/rewritten.h"

namespace drystage::plan::write_reading_test {
namespace {

using std::string;
using support::Pick;
using support::read_plan;
using ::testing::HasSubstr;

// A plan with a can, a truck and the rest of its text.
string plan_with(const string& rest) {
  return support::plan_around("water: {containers: [{name: can, holds: 20 L, filled: 20 L}]}\n" +
                              support::one_truck()) +
         rest;
}

Reading evening(int day, double drinking_l) {
  return {.day = day - 1, .in_the_evening = true, .drinking_l = drinking_l};
}

// What stands behind the plan's other sections.
string readings_after(const string& rest, const Reading& reading) {
  const string made = with_reading(plan_with(rest), reading);
  EXPECT_THAT(made, ::testing::StartsWith(plan_with("")));
  return made.substr(plan_with("").size());
}

std::vector<Reading> without_marks(std::vector<Reading> readings) {
  for (Reading& one : readings) one.mark = {};
  return readings;
}

TEST(WriteReading, BeginsTheSectionAtTheEndOneKeyALine) {
  Reading reading = evening(6, 12.5);
  reading.at = {.place = 0};
  reading.fuel = {{0, 39}};
  EXPECT_EQ(readings_after("", reading),
            "\nreadings:\n  - evening: 6\n    at: Base\n    drinking: 12.5 L\n    fuel: 39 L\n");
}

TEST(WriteReading, PutsItWhereItBelongsInTime) {
  const string two =
      "readings:\n- evening: 2   # dusty\n  fuel: 9 L\n\n# late\n- evening: 5\n  fuel: 8 L\n";
  EXPECT_EQ(
      readings_after(two, evening(3, 7)),
      "readings:\n- evening: 2   # dusty\n  fuel: 9 L\n- evening: 3\n  drinking: 7 L\n\n# late\n"
      "- evening: 5\n  fuel: 8 L\n");
  EXPECT_EQ(readings_after(two, evening(1, 7)),
            "readings:\n- evening: 1\n  drinking: 7 L\n" + two.substr(10));
  EXPECT_EQ(readings_after(two, evening(6, 7)), two + "- evening: 6\n  drinking: 7 L\n");
}

TEST(WriteReading, BeginsWithWhenWhateverStandsBeside) {
  EXPECT_EQ(readings_after("readings: [{fuel: 3 L, evening: 1}]\n", evening(2, 7)),
            "readings: [{fuel: 3 L, evening: 1}, {evening: 2, drinking: 7 L}]\n");
}

TEST(WriteReading, ReplacesTheOneOfTheSameMoment) {
  const string two =
      "readings:\n  # first\n  - evening: 2\n    fuel: 9 L\n    at: Base   # here\n  # last\n"
      "  - {evening: 5, fuel: 8 L}   # tired\n";
  EXPECT_EQ(readings_after(two, evening(2, 7)),
            "readings:\n  # first\n  - evening: 2\n    drinking: 7 L   # here\n  # last\n"
            "  - {evening: 5, fuel: 8 L}   # tired\n");
  EXPECT_THAT(readings_after(two, evening(5, 7)),
              HasSubstr("  # last\n  - {evening: 5, drinking: 7 L}   # tired\n"));
}

TEST(WriteReading, TakesAnySectionThatHoldsNone) {
  for (const char* none : {"readings:  # none yet\n", "readings: []  # none yet\n",
                           "readings: ~  # none yet\n", "readings: [ ]  # none yet"}) {
    EXPECT_EQ(readings_after(none, evening(1, 7)).substr(0, 60),
              string("readings:  # none yet\n  - evening: 1\n    drinking: 7 L\n")
                  .substr(0, string(none).ends_with('\n') ? 60 : 54))
        << none;
  }
  EXPECT_EQ(readings_after("readings: [{evening: 1, fuel: 3 L}]\n", evening(2, 7)),
            "readings: [{evening: 1, fuel: 3 L}, {evening: 2, drinking: 7 L}]\n");
}

TEST(WriteReading, KeepsLineEndsAndAByteOrderMark) {
  string text = "\xEF\xBB\xBF" + plan_with("");
  for (std::size_t at = 0; (at = text.find('\n', at)) != string::npos; at += 2) {
    text.insert(at, "\r");
  }
  const string made = with_reading(text, evening(1, 7));
  EXPECT_EQ(made, text + "\r\nreadings:\r\n  - evening: 1\r\n    drinking: 7 L\r\n");
  EXPECT_EQ(std::ranges::count(with_reading(made, evening(1, 6)), '\r'),
            std::ranges::count(made, '\r'));
}

TEST(WriteReading, IsRefusedAsTheReaderWould) {
  try {
    with_reading(plan_with(""), evening(1, 21));
    FAIL();
  } catch (const std::invalid_argument& refused) {
    EXPECT_THAT(refused.what(), HasSubstr("drinking: 21 L found, but all drinking containers"));
  }
  EXPECT_THROW(with_reading("nothing", evening(1, 7)), std::logic_error);
}

TEST(WriteReading, GoesIntoTheTripsOwnFile) {
  const testing::Workspace space;
  const string kit =
      support::one_truck() + "water: {containers: [{name: can, holds: 20 L, filled: 20 L}]}\n";
  ASSERT_EQ(space.write("kit.yaml", kit), space.path("kit.yaml"));
  const string trip = "include: kit.yaml   # ours\n" + support::plan_around("");
  const string made = with_reading(trip, evening(2, 7), space.path("trip.yaml"));
  EXPECT_EQ(made, trip + "\nreadings:\n  - evening: 2\n    drinking: 7 L\n");
  EXPECT_EQ(with_reading(made, evening(3, 6), space.path("trip.yaml")),
            made + "  - evening: 3\n    drinking: 6 L\n");
  EXPECT_NE(space.write("other.yaml", kit + "readings: [{evening: 1, fuel: 3 L}]\n"), "");
  EXPECT_THROW(with_reading("include: other.yaml\n" + support::plan_around(""), evening(2, 7),
                            space.path("trip.yaml")),
               std::invalid_argument);
}

RC_GTEST_PROP(WriteReadingProperty, ReadsBackNumberForNumberInTheOrderOfTime, ()) {
  const Pick pick = support::rapidcheck_pick();
  const string source = support::random_plan(pick).text();
  const auto readings = support::random_readings(pick, read_plan(source));
  std::vector<Reading> in_any_order = readings;
  for (std::size_t i = in_any_order.size(); i > 1; --i) {
    std::swap(in_any_order[i - 1],
              in_any_order[static_cast<std::size_t>(pick(0, static_cast<int>(i) - 1))]);
  }
  string text = source;
  for (const Reading& one : in_any_order) text = with_reading(text, one);
  RC_LOG() << text;
  RC_ASSERT(text.starts_with(source));
  RC_ASSERT(without_marks(read_plan(text).readings) == readings);
  // The last one once more: it replaces itself, and nothing changes.
  if (!readings.empty()) RC_ASSERT(with_reading(text, readings.back()) == text);
}

TEST(WriteReading, GoesIntoEveryShippedScenario) {
  std::mt19937 random(20270208);
  const Pick pick = [&](int low, int high) {
    return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
  };
  for (const auto& file : std::filesystem::directory_iterator(DRYSTAGE_SCENARIOS)) {
    if (file.path().extension() != ".yaml") continue;
    const ReadPlan before = read_file(file.path());
    ASSERT_TRUE(before.plan) << file.path();
    if (!before.plan->readings.empty()) continue;
    const auto readings = support::random_readings(pick, *before.plan);
    string text = before.source;
    for (const Reading& one : readings) text = with_reading(text, one, file.path());
    const ReadPlan after = read_text(text, {}, file.path());
    ASSERT_TRUE(after.plan) << file.path() << all_of(after);
    EXPECT_EQ(without_marks(after.plan->readings), readings) << file.path();
    EXPECT_TRUE(text.starts_with(before.source)) << file.path();
  }
}

}  // namespace
}  // namespace drystage::plan::write_reading_test
