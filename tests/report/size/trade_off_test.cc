// The trade between mass and safety as `drystage size` prints it, of sets made by hand.
#include "report/size/trade_off.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "cli/workspace.h"
#include "support/answer.h"
#include "support/size_answer.h"

namespace drystage::trade_off_test {
namespace {

using answers::SizedLine;
using report::SizeAnswer;
using support::sized_answer;
using support::traded;
using support::unwrapped;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

std::vector<std::string> rows_of(const SizeAnswer& answer) {
  std::vector<std::string> rows = testing::lines(report::size_trade_off(answer, {.all = true}));
  // Heads and four margins; a row that is missing is empty.
  rows.resize(6);
  return rows;
}

std::string words_of(const SizeAnswer& answer) {
  return unwrapped(report::size_trade_off(answer, {.all = true}));
}

/// The same as it stands on one screen.
std::string one_day(const SizeAnswer& answer) {
  return unwrapped(report::size_trade_off(answer, {}));
}

long bar(const std::string& row) { return std::ranges::count(row, '#'); }

TEST(SizeTradeOff, HasARowForEachMarginWithItsStepAndBar) {
  EXPECT_THAT(rows_of(traded()),
              ElementsAre("What one more day of margin weighs",
                          "   margins   kg  step  # is 5 kg more  against the set above",
                          "    -1 day  182                        drinking water -20 L",
                          "as planned  203   +21  ####            the set above",
                          "    +1 day  225   +22  #########       drinking water +20 L",
                          "   +2 days                             not on offer"));
}

TEST(SizeTradeOff, SaysWhatIsMoved) {
  EXPECT_THAT(words_of(traded()), HasSubstr("The margins of drinking water, utility water and food "
                                            "are moved. Fuel follows only through the mass; "
                                            "battery and cold stay as planned."));
}

TEST(SizeTradeOff, IsEmptyWhereItWasNotAskedFor) {
  EXPECT_EQ(report::size_trade_off(sized_answer(), {}), "");
}

TEST(SizeTradeOff, ScalesBarsFromTheLeastRowSoThatTheLongestFits) {
  SizeAnswer answer = traded();
  const auto weigh = [&answer](double first, double second, double third) {
    answer.trade_off[0].sizing.found->totals.kg = first;
    answer.trade_off[1].sizing.found->totals.kg = second;
    answer.trade_off[2].sizing.found->totals.kg = third;
    return rows_of(answer);
  };
  std::vector<std::string> rows = weigh(1000, 1045, 1140);
  EXPECT_THAT(rows[1], HasSubstr("# is 10 kg more"));
  EXPECT_EQ(bar(rows[2]), 0);
  EXPECT_EQ(bar(rows[3]), 5);
  EXPECT_EQ(bar(rows[4]), 14);
  rows = weigh(1000, 1000, 1141);
  EXPECT_THAT(rows[1], HasSubstr("# is 20 kg more"));
  EXPECT_EQ(bar(rows[3]), 0);
  EXPECT_EQ(bar(rows[4]), 7);
  rows = weigh(100, 103, 101);
  EXPECT_THAT(rows[1], HasSubstr("# is 1 kg more"));
  EXPECT_EQ(bar(rows[3]), 3);
  EXPECT_EQ(bar(rows[4]), 1);
  // The least need not come first.
  rows = weigh(100, 50, 200);
  EXPECT_THAT(rows[1], HasSubstr("# is 20 kg more"));
  EXPECT_EQ(bar(rows[2]), 3);
  EXPECT_EQ(bar(rows[3]), 0);
  EXPECT_EQ(bar(rows[4]), 8);
  EXPECT_THAT(rows[3], HasSubstr("  50   -50  "));
  rows = weigh(100, 100, 100);
  EXPECT_THAT(rows[1], Not(HasSubstr("#")));
  EXPECT_EQ(bar(rows[4]), 0);
}

TEST(SizeTradeOff, HasNoStepAfterWhatIsNotOnOffer) {
  SizeAnswer answer = traded();
  answer.trade_off[1].sizing.found.reset();
  EXPECT_THAT(words_of(answer), HasSubstr("as planned not on offer +1 day 225 #########"));
}

TEST(SizeTradeOff, HasOneFigureForEachStuffWhateverItIsCarriedIn) {
  SizeAnswer answer = traded();
  auto& lines = answer.trade_off[2].sizing.found->lines;
  lines[0].amount = 11;
  lines[2].amount = 200;
  lines.erase(lines.begin() + 1);
  lines.push_back(
      support::holding(support::cans_of("drinking water", "container", 0, 1, 10.7), 10));
  lines.push_back(support::days_of("pot of nuts (salted)", 0, 2, 1.8));
  EXPECT_THAT(words_of(answer),
              HasSubstr("drinking water +70 L, diesel for truck -20 L, camp battery 200 Ah lfp, "
                        "pot of nuts (salted) +2 days +2 days not on offer"));
  lines[0].amount = 7;
  EXPECT_THAT(words_of(answer), HasSubstr("drinking water -10 L, diesel"));
  lines.back().amount = 1;
  EXPECT_THAT(words_of(answer), HasSubstr("pot of nuts (salted) +1 day "));
  answer.trade_off[2].sizing.found->lines = answer.sizing.found->lines;
  EXPECT_THAT(words_of(answer), HasSubstr("the same set"));
}

TEST(SizeTradeOff, AddsUpTheCansOfAllVehicles) {
  SizeAnswer answer = traded();
  auto& own = answer.sizing.found->lines;
  SizedLine in_car = own[0];
  in_car.one = "20 L container of drinking water in car";
  own.push_back(in_car);
  auto& lines = answer.trade_off[2].sizing.found->lines;
  lines = own;
  lines[0].amount = 11;
  lines.back().amount = 6;
  EXPECT_THAT(words_of(answer), HasSubstr("drinking water +20 L +2 days"));
}

TEST(SizeTradeOff, SaysWhenAsMuchIsCarriedInOtherCans) {
  SizeAnswer answer = traded();
  auto& lines = answer.trade_off[2].sizing.found->lines;
  lines = answer.sizing.found->lines;
  lines[0].amount = 7;
  lines.push_back(
      support::holding(support::cans_of("drinking water", "container", 0, 2, 10.7), 10));
  EXPECT_THAT(words_of(answer), HasSubstr("drinking water carried otherwise +2 days"));
}

TEST(SizeTradeOff, SaysWhatIsNotTakenAtAll) {
  SizeAnswer answer = traded();
  auto& lines = answer.trade_off[2].sizing.found->lines;
  lines = answer.sizing.found->lines;
  lines[0].amount = 0;
  lines.pop_back();
  EXPECT_THAT(words_of(answer), HasSubstr("drinking water -160 L, camp battery none +2 days"));
}

TEST(SizeTradeOff, TellsThingsOfOneNameApart) {
  SizeAnswer answer = sized_answer();
  auto& own = answer.sizing.found->lines;
  own = {support::sized("tank", "L", 70, 70, 59, 59), support::sized("tank", "L", 60, 60, 45, 45)};
  answer.trade_off = {{.more_days = 0, .sizing = answer.sizing},
                      {.more_days = 1, .sizing = answer.sizing}};
  answer.trade_off[1].sizing.found->lines[1].amount = 80;
  const std::string words = words_of(answer);
  EXPECT_THAT(words, HasSubstr("the set above +1 day"));
  EXPECT_THAT(words, HasSubstr("tank (2) 80 L The margins"));
}

TEST(SizeTradeOff, IsOfCostWhereThatIsToBeLeast) {
  SizeAnswer answer = traded();
  answer.options.least = answers::Least::cost;
  answer.sizing.costs_given = true;
  answer.trade_off[0].sizing.found->totals.cost = 800;
  answer.trade_off[1].sizing.found->totals.cost = 900.25;
  answer.trade_off[2].sizing.found->totals.cost = 900.25;
  const std::string words = words_of(answer);
  EXPECT_THAT(words, HasSubstr("What one more day of margin costs margins cost step # is 10 more"));
  EXPECT_THAT(words, HasSubstr("as planned 900.25 +100.25 ##########"));
  EXPECT_THAT(words, HasSubstr("+1 day 900.25 +0 ##########"));
}

TEST(SizeTradeOff, SaysWhereItWasStopped) {
  SizeAnswer answer = traded();
  answer.trade_off[2].sizing.stopped = true;
  answer.trade_off[3].sizing.stopped = true;
  const std::string words = words_of(answer);
  EXPECT_THAT(words, HasSubstr("drinking water +20 L; or less: stopped"));
  EXPECT_THAT(words, HasSubstr("+2 days not known: stopped"));
  EXPECT_THAT(words, Not(HasSubstr("not on offer")));
}

TEST(SizeTradeOff, SaysWhereTheSearchWasGivenUp) {
  SizeAnswer answer = traded();
  answer.trade_off[2].sizing.given_up = true;
  answer.trade_off[3].sizing.given_up = true;
  const std::string words = words_of(answer);
  EXPECT_THAT(words, HasSubstr("drinking water +20 L; or less: given up"));
  EXPECT_THAT(words, HasSubstr("+2 days not known: given up"));
}

TEST(SizeTradeOff, OfOneScreenIsWhatOneMoreDayTakes) {
  EXPECT_EQ(
      one_day(traded()),
      "One more day of margin weighs 22 kg more: drinking water +20 L. --all shows more days. ");
  SizeAnswer answer = traded();
  answer.options.least = answers::Least::cost;
  answer.sizing.costs_given = true;
  answer.sizing.found->totals.cost = 900.25;
  answer.trade_off[2].sizing.found->totals.cost = 912.5;
  EXPECT_THAT(one_day(answer), StartsWith("One more day of margin costs 12.25 more: drinking"));
  answer.trade_off[2].sizing.found.reset();
  EXPECT_THAT(one_day(answer), StartsWith("What one more day of margin takes is not on offer."));
}

TEST(SizeTradeOff, OfOneScreenSaysWhereItIsNotKnown) {
  SizeAnswer answer = traded();
  answer.trade_off[2].sizing.stopped = true;
  EXPECT_THAT(one_day(answer), HasSubstr("drinking water +20 L; or less: stopped."));
  answer.trade_off[2].sizing.found.reset();
  EXPECT_THAT(one_day(answer),
              StartsWith("What one more day of margin takes is not known: stopped."));
  answer.trade_off[2].sizing.stopped = false;
  answer.trade_off[2].sizing.given_up = true;
  EXPECT_THAT(one_day(answer),
              StartsWith("What one more day of margin takes is not known: given up."));
}

TEST(SizeTradeOff, IsInTheUnitsToShowAndFitsThePage) {
  const std::string text =
      report::size_trade_off(traded(), {.all = true, .system = units::System::us});
  EXPECT_THAT(text, HasSubstr(" lb  step  # is 10 lb more"));
  EXPECT_THAT(unwrapped(text), HasSubstr("as planned 448 +47"));
  for (const std::string& line : testing::lines(text)) {
    EXPECT_LE(testing::terminal_columns(line), 80) << line;
  }
}

}  // namespace
}  // namespace drystage::trade_off_test
