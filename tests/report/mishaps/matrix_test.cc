// The matrix of failures by days that `drystage mishaps` prints, of sweeps made by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/workspace.h"
#include "report/mishaps/report.h"
#include "support/answer.h"
#include "support/mishaps.h"

namespace drystage {
namespace {

using answers::Finding;
using answers::Outcome;
using report::MishapsAnswer;
using support::calm_mishaps;
using support::dry;
using support::fatal_mishap;
using support::holding;
using support::mishaps_answer;
using support::nibbling;
using support::unwrapped;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

std::string text_of(const MishapsAnswer& answer) { return report::mishaps_text(answer, {}); }

/// The line of the matrix that begins with this name; empty when there is none.
std::string row_of(const std::string& text, const std::string& name) {
  std::string found;
  for (const std::string& line : testing::lines(text)) {
    if (line.starts_with(name + "  ")) found = line;
  }
  return found;
}

void expect_fits_the_page(const std::string& text) {
  for (const std::string& line : testing::lines(text)) {
    EXPECT_LE(testing::terminal_columns(line), 80) << line;
  }
}

TEST(MishapsMatrix, HasASignForEachDayAndABlankWhereNothingCanStrike) {
  MishapsAnswer answer = mishaps_answer(12, {"can 1 lost", "stuck at Base"});
  auto& findings = answer.sweep.findings;
  findings = {holding(0, 0),
              nibbling(answer, 0, 1, "drinking_water", 1),
              dry(answer, 0, 2, "food", Outcome::runs_out),
              dry(answer, 0, 10, "drinking_water"),
              nibbling(answer, 1, 4, "drinking_water", 1),
              dry(answer, 1, 4, "drinking_water"),
              holding(1, 4)};
  answer.sweep.asked = findings.size();
  const std::string text = text_of(answer);
  EXPECT_THAT(text, HasSubstr("\n                         111\n"
                              "strikes on day  123456789012\n"
                              "can 1 lost      .mo       X\n"
                              "stuck at Base       X\n\n"))
      << text;
  EXPECT_THAT(text, HasSubstr("X drinking water runs out, o something else, m below a margin, "
                              ". holds, blank:\ncannot strike then.\n"));
}

// What empties the drinking containers always has a row, though it breaks a margin alone.
TEST(MishapsMatrix, HasASignOfItsOwnForDrinkingContainersThatRunEmpty) {
  MishapsAnswer answer = mishaps_answer(3, {"hot spell", "can 1 lost"});
  auto& findings = answer.sweep.findings;
  findings = {nibbling(answer, 0, 0, "drinking_water", 1), holding(0, 1), holding(1, 0),
              nibbling(answer, 1, 1, "drinking_water", 9)};
  findings[0].stood_in = 2;
  answer.sweep.asked = findings.size();
  const std::string text = text_of(answer);
  EXPECT_EQ(row_of(text, "hot spell"), "hot spell       d.") << text;
  EXPECT_EQ(row_of(text, "can 1 lost"), "");
  EXPECT_THAT(text, HasSubstr("Not shown: 1 more, which only go below a margin."));
  EXPECT_THAT(unwrapped(text), HasSubstr("d drinking containers empty, m below a margin"));
}

TEST(MishapsMatrix, NamesTogetherWhatHoldsOnEveryDay) {
  MishapsAnswer answer = fatal_mishap();
  const std::string text = text_of(answer);
  EXPECT_NE(row_of(text, "can 1 lost"), "");
  EXPECT_EQ(row_of(text, "well dry"), "");
  EXPECT_THAT(text, HasSubstr("\nHold on every day: well dry.\n"));
  EXPECT_THAT(text_of(calm_mishaps()), HasSubstr("\nHold on every day: can 1 lost, well dry.\n"));
  EXPECT_THAT(text_of(calm_mishaps()), Not(HasSubstr("strikes on day")));
}

TEST(MishapsMatrix, NamesWhatIsNoWorseThanAPlanThatFails) {
  MishapsAnswer answer = fatal_mishap();
  answer.sweep.plan_itself = nibbling(answer, 0, 0, "drinking_water", 3);
  const std::string text = text_of(answer);
  EXPECT_THAT(text, HasSubstr("\nNo worse than the plan itself: well dry.\n"));
  EXPECT_THAT(text, Not(HasSubstr("Hold on every day")));
}

TEST(MishapsMatrix, NamesWhatCannotStrikeOnTheDaysAskedFor) {
  MishapsAnswer answer = fatal_mishap();
  std::erase_if(answer.sweep.findings, [](const Finding& finding) { return finding.failure == 1; });
  answer.sweep.asked = answer.sweep.findings.size();
  answer.narrowed.days = {0, 4};
  EXPECT_THAT(text_of(answer), HasSubstr("\nCannot strike on these days: well dry.\n"));
  EXPECT_THAT(unwrapped(text_of(answer)),
              HasSubstr("cannot strike then, or not on the days asked for"));
}

TEST(MishapsMatrix, FoldsTripsOfMoreThanFortyDays) {
  MishapsAnswer answer = mishaps_answer(100, {"can 1 lost"});
  answer.sweep.findings = {nibbling(answer, 0, 3, "drinking_water", 1),
                           dry(answer, 0, 4, "drinking_water"), holding(0, 5), holding(0, 99)};
  answer.sweep.asked = 4;
  const std::string text = text_of(answer);
  EXPECT_THAT(text, HasSubstr("Each column stands for 3 days and shows the worst of them; above it "
                              "the first.\n"));
  // 100 days in 34 columns, of which the second has days 4 to 6 and the last day 100.
  EXPECT_EQ(row_of(text, "can 1 lost"), "can 1 lost       X" + std::string(31, ' ') + ".");
  EXPECT_THAT(text, HasSubstr("\nstrikes on day  147"));
  expect_fits_the_page(text);
  const std::string wide = report::mishaps_text(answer, {.wide = true});
  EXPECT_THAT(wide, Not(HasSubstr("Each column stands")));
  EXPECT_THAT(row_of(wide, "can 1 lost"), StartsWith("can 1 lost         mX."));
}

TEST(MishapsMatrix, KeepsADayToAColumnUpToForty) {
  for (const int days : {1, 39, 40}) {
    MishapsAnswer answer = mishaps_answer(days, {"can 1 lost"});
    answer.sweep.findings = {dry(answer, 0, days - 1, "drinking_water")};
    answer.sweep.asked = 1;
    const std::string text = text_of(answer);
    EXPECT_THAT(text, Not(HasSubstr("Each column stands")));
    EXPECT_EQ(row_of(text, "can 1 lost").size(), 16U + static_cast<std::size_t>(days));
    expect_fits_the_page(text);
  }
}

TEST(MishapsMatrix, CutsLongNamesAndCountsWideCharactersAsTwo) {
  MishapsAnswer answer = mishaps_answer(
      40, {std::string(70, 'n'), "北の入り江への道で四十八時間動けなくなる北の入り江",
           std::string(100, 'h'), "短い"});
  for (int day = 0; day < 40; ++day) {
    answer.sweep.findings.push_back(dry(answer, 0, day, "drinking_water"));
    answer.sweep.findings.push_back(dry(answer, 1, day, "drinking_water"));
    answer.sweep.findings.back().where = "bush before " + std::string(200, 'w');
    answer.sweep.findings.back().in_bush = true;
    answer.sweep.findings.push_back(holding(2, day));
  }
  answer.sweep.findings.push_back(dry(answer, 3, 39, "drinking_water"));
  answer.sweep.asked = answer.sweep.findings.size();
  const std::string text = text_of(answer);
  expect_fits_the_page(text);
  EXPECT_EQ(row_of(text, std::string(37, 'n') + "~"),
            std::string(37, 'n') + "~  " + std::string(40, 'X'));
  const std::string short_row = row_of(text, "短い");
  EXPECT_EQ(testing::terminal_columns(short_row), 80);
  EXPECT_THAT(short_row, EndsWith("X"));
  const std::string wide = report::mishaps_text(answer, {.wide = true});
  EXPECT_NE(row_of(wide, std::string(70, 'n')), "");
}

TEST(MishapsMatrix, ShowsTheWorstRowsOfTooManyInTheirOrder) {
  std::vector<std::string> names;
  for (int n = 1; n <= 50; ++n) names.push_back("part " + std::to_string(n));
  MishapsAnswer answer = mishaps_answer(3, names);
  for (int f = 0; f < 49; ++f) {
    answer.sweep.findings.push_back(nibbling(answer, f, 1, "drinking_water", 1));
  }
  answer.sweep.findings.push_back(dry(answer, 49, 1, "drinking_water"));
  answer.sweep.asked = 50;
  // Where something runs dry, what only goes below a margin has no row.
  std::string text = text_of(answer);
  EXPECT_EQ(row_of(text, "part 1"), "");
  EXPECT_NE(row_of(text, "part 50"), "");
  EXPECT_THAT(text, HasSubstr("Not shown: 49 more, which only go below a margin. --all shows "
                              "all.\n"));
  for (int f = 0; f < 30; ++f) {
    answer.sweep.findings[static_cast<std::size_t>(f)] =
        dry(answer, f, 1, "food", Outcome::runs_out);
  }
  text = text_of(answer);
  EXPECT_NE(row_of(text, "part 11"), "");
  EXPECT_EQ(row_of(text, "part 12"), "");
  EXPECT_NE(row_of(text, "part 50"), "");
  EXPECT_THAT(text, HasSubstr("Not shown: 38 more, none of which ends drinking water. "
                              "--all shows all.\n"));
  for (int f = 0; f < 30; ++f) {
    answer.sweep.findings[static_cast<std::size_t>(f)] = dry(answer, f, 1, "drinking_water");
  }
  EXPECT_THAT(text_of(answer), HasSubstr("Not shown: 38 more, some as bad as these. --all shows "
                                         "all.\n"));
  const std::string all = report::mishaps_text(answer, {.all = true});
  for (const std::string& name : names) EXPECT_NE(row_of(all, name), "") << name;
  EXPECT_THAT(all, Not(HasSubstr("Not shown")));
}

TEST(MishapsMatrix, ShowsWhatGoesBelowAMarginWhereNothingRunsDry) {
  MishapsAnswer answer = mishaps_answer(3, {"can 1 lost", "well dry"});
  answer.sweep.findings = {nibbling(answer, 0, 1, "drinking_water", 1),
                           nibbling(answer, 1, 1, "food", 1)};
  answer.sweep.asked = 2;
  EXPECT_NE(row_of(text_of(answer), "can 1 lost"), "");
  EXPECT_NE(row_of(text_of(answer), "well dry"), "");
  EXPECT_THAT(text_of(answer), Not(HasSubstr("Not shown")));
}

TEST(MishapsMatrix, CountsWhatHoldsWhereTheNamesFillMoreThanALine) {
  std::vector<std::string> names;
  for (int n = 1; n <= 9; ++n) names.push_back("container " + std::to_string(n) + " lost");
  MishapsAnswer answer = mishaps_answer(3, names);
  for (int f = 0; f < 9; ++f) answer.sweep.findings.push_back(holding(f, 1));
  answer.sweep.asked = 9;
  EXPECT_THAT(text_of(answer), HasSubstr("\nHold on every day: 9. --all names them.\n"));
  const std::string all = unwrapped(report::mishaps_text(answer, {.all = true}));
  EXPECT_THAT(all, HasSubstr("Hold on every day: container 1 lost, container 2 lost,"));
  EXPECT_THAT(all, HasSubstr("container 9 lost."));
}

TEST(MishapsMatrix, SaysNothingByColourAlone) {
  const auto bare = [](std::string text) {
    for (const std::string code : {"\x1b[1;31m", "\x1b[1;32m", "\x1b[0m"}) {
      for (std::size_t at = text.find(code); at != std::string::npos; at = text.find(code)) {
        text.erase(at, code.size());
      }
    }
    return text;
  };
  const std::string painted = report::mishaps_text(fatal_mishap(), {.color = true});
  EXPECT_THAT(painted, HasSubstr("....\x1b[1;31mX\x1b[0m...."));
  EXPECT_EQ(bare(painted), text_of(fatal_mishap()));
}

}  // namespace
}  // namespace drystage
