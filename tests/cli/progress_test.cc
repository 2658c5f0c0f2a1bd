// The line that shows how far a search is, told the time by hand.
#include "cli/progress.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace drystage::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

TEST(Progress, IsForTerminalsThatCanMoveTheCursor) {
  EXPECT_TRUE(wants_progress(true, "xterm"));
  EXPECT_FALSE(wants_progress(true, "dumb"));
  EXPECT_FALSE(wants_progress(true, nullptr));
  EXPECT_FALSE(wants_progress(false, "xterm"));
}

TEST(Progress, ShowsShareAndCountAndWhatIsLeftAtThePaceSoFar) {
  Progress progress("Mishaps", 100);
  // A quarter in 6 s: three quarters in 18 s.
  EXPECT_EQ(progress.draw(50, 200, 106),
            "\rMishaps [#####...............] 25 %, 50 of 200, about 18 s left");
}

TEST(Progress, ReckonsLongTimesInMinutesAndHoursRoundedUp) {
  const auto left = [](double elapsed_s) {
    Progress progress("Mishaps", 0);
    return progress.draw(1, 2, elapsed_s);
  };
  EXPECT_THAT(left(2.1), HasSubstr("about 3 s left"));
  EXPECT_THAT(left(99), HasSubstr("about 99 s left"));
  EXPECT_THAT(left(121), HasSubstr("about 3 min left"));
  EXPECT_THAT(left(2 * 3600 + 241), HasSubstr("about 2 h 05 min left"));
  EXPECT_THAT(left(1e9), HasSubstr("very long"));
}

TEST(Progress, CountsWhereNobodyKnowsHowMuchThereIsToDo) {
  Progress progress("Sizing", 0);
  EXPECT_EQ(progress.draw(85, 0, 1), "\rSizing: 85 tried. Ctrl-C stops and shows what was found");
  EXPECT_EQ(progress.draw(0, 0, 2), "");
}

TEST(Progress, SaysHowLongItHasTakenWhereNobodyCounts) {
  Progress progress("Card", 100);
  EXPECT_EQ(progress.wait(111.5), "\rCard: 12 s so far. Ctrl-C ends it");
  EXPECT_EQ(progress.wipe(), "\r" + std::string(33, ' ') + "\r");
}

TEST(Progress, GuessesNothingBeforeAnythingIsDone) {
  Progress progress("Mishaps", 0);
  const std::string line = progress.draw(0, 200, 1);
  EXPECT_THAT(line, HasSubstr("0 %, 0 of 200"));
  EXPECT_THAT(line, Not(HasSubstr("left")));
}

TEST(Progress, DrawsTenTimesASecondAtMost) {
  Progress progress("Mishaps", 0);
  int drawn = 0;
  for (int ms = 1; ms <= 1000; ++ms) {
    if (!progress.draw(static_cast<std::size_t>(ms), 1000, ms / 1000.0).empty()) ++drawn;
  }
  EXPECT_GE(drawn, 8);
  EXPECT_LE(drawn, 10);
}

TEST(Progress, DrawsNothingOfWhatIsDoneAtOnce) {
  Progress progress("Mishaps", 0);
  EXPECT_EQ(progress.draw(5, 5, 0.05), "");
  EXPECT_EQ(progress.draw(0, 0, 5), "");
  EXPECT_EQ(progress.wipe(), "");
}

TEST(Progress, WritesBlanksOverALongerLineBefore) {
  Progress progress("Mishaps", 0);
  const std::string before = progress.draw(1, 1000, 90);
  const std::string after = progress.draw(999, 1000, 91);
  EXPECT_LT(after.find_last_not_of(' '), after.size() - 1);
  EXPECT_EQ(after.size(), before.size());
}

TEST(Progress, WipesWhatStandsThereOnce) {
  Progress progress("Mishaps", 0);
  const std::string line = progress.draw(1, 4, 1);
  EXPECT_EQ(progress.wipe(), "\r" + std::string(line.size() - 1, ' ') + "\r");
  EXPECT_EQ(progress.wipe(), "");
}

TEST(Progress, NeverPassesSeventyNineColumns) {
  Progress progress(std::string(60, 'x'), 0);
  const std::string line = progress.draw(1'000'000'000, 30'000'000'000, 7200);
  EXPECT_THAT(line, StartsWith("\r"));
  EXPECT_EQ(line.size(), 80U);
}

TEST(Progress, IsNeverMoreThanWhole) {
  Progress progress("Mishaps", 0);
  EXPECT_EQ(progress.draw(7, 5, 1),
            "\rMishaps [####################] 100 %, 5 of 5, about 0 s left");
}

}  // namespace
}  // namespace drystage::cli
