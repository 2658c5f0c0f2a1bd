// What `drystage size` says first and last, of sets made by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/size/size_words.h"

namespace drystage {
namespace {

using answers::SizedLine;
using report::SizeAnswer;
using support::all_words_of;
using support::below;
using support::expect_fits_the_page;
using support::sized_answer;
using support::text_of;
using support::traded;
using support::unsized;
using support::words_in;
using support::words_of;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

answers::Verdict broken(const SizeAnswer& answer) {
  answers::Verdict verdict;
  verdict.holds = false;
  verdict.first_breach = below(answer, "drinking_water", 10, 2.4).breach;
  verdict.breaches = {*verdict.first_breach};
  return verdict;
}

TEST(SizeText, SaysFirstWhatTheLeastSetWeighsRoundedUp) {
  // 8 x 21.2 + 21.3 + 12 = 202.9 kg
  EXPECT_THAT(text_of(sized_answer()),
              StartsWith("LOAD 203 kg: the lightest set on offer that keeps every margin.\n"));
  EXPECT_THAT(words_in(sized_answer(), units::System::us), StartsWith("LOAD 448 lb: "));
}

TEST(SizeText, SaysWhenTheSetIsWhatThePlanHas) {
  SizeAnswer answer = sized_answer();
  for (SizedLine& each : answer.sizing.found->lines) {
    each.plan_amount = each.amount;
    each.plan_detail = each.detail;
  }
  EXPECT_THAT(words_of(answer), StartsWith("LOAD 203 kg, as the plan has it: "));
}

TEST(SizeText, SaysWhatTheCheapestSetCosts) {
  SizeAnswer answer = sized_answer();
  answer.options.least = answers::Least::cost;
  answer.sizing.costs_given = true;
  answer.sizing.found->totals.cost = 912.501;
  EXPECT_THAT(words_of(answer), StartsWith("LOAD 203 kg, at a cost of 912.51: the cheapest set on "
                                           "offer that keeps every margin."));
}

TEST(SizeText, SaysWhatTheSetIsProofAgainst) {
  SizeAnswer answer = sized_answer();
  answer.options.survive.emplace();
  answer.sizing.tried = {plan::MishapKind::stuck, plan::MishapKind::heat_wave};
  EXPECT_THAT(words_of(answer), HasSubstr("that keeps every margin, and with which no single "
                                          "mishap runs drinking water or fuel dry."));
  answer.planned.plan.mishaps.left_out = {plan::MishapKind::vehicle};
  EXPECT_THAT(words_of(answer),
              HasSubstr("no single mishap of those that the plan does not leave out runs"));
  answer.options.survive = {plan::MishapKind::stuck, plan::MishapKind::heat_wave};
  EXPECT_THAT(words_of(answer), HasSubstr("no single mishap of these (stuck, heat_wave) runs"));
  expect_fits_the_page(answer);
  // What cannot strike proves nothing.
  answer.sizing.tried = {plan::MishapKind::heat_wave};
  EXPECT_THAT(words_of(answer), HasSubstr("no single mishap of these (heat_wave) runs"));
  answer.sizing.tried = {};
  EXPECT_THAT(words_of(answer), Not(HasSubstr("no single mishap")));
}

TEST(SizeText, HoldsOnlyIfWhatNobodyHasConfirmedIsThere) {
  SizeAnswer answer = sized_answer();
  answer.without_unconfirmed = broken(answer);
  EXPECT_THAT(words_of(answer), StartsWith("HOLDS ONLY IF what nobody has confirmed is there. Then "
                                           "load 203 kg: the lightest set"));
  EXPECT_THAT(words_of(answer),
              HasSubstr("Without, drinking water falls below its margin on day 11, "
                        "Thu 11 Mar, by 2.4 L. --confirmed-only finds"));
  EXPECT_THAT(report::size_text(answer, {.color = true}), StartsWith("\x1b[1;31m"));
  expect_fits_the_page(answer);
}

TEST(SizeText, HoldsWithoutWhatNobodyHasConfirmedToo) {
  SizeAnswer answer = sized_answer();
  answer.without_unconfirmed = answers::Verdict{};
  EXPECT_THAT(words_of(answer), StartsWith("LOAD 203 kg: "));
  EXPECT_THAT(words_of(answer), HasSubstr("Without, every margin is still kept."));
  EXPECT_THAT(report::size_text(answer, {.color = true}), StartsWith("\x1b[1;32m"));
}

TEST(SizeText, SaysWhenItWasStopped) {
  SizeAnswer answer = sized_answer();
  answer.sizing.stopped = true;
  EXPECT_TRUE(report::partial(answer));
  EXPECT_THAT(words_of(answer), StartsWith("PARTIAL: stopped before the search was done. LOAD 203 "
                                           "kg: the lightest set found so far that keeps"));
  SizeAnswer nothing = unsized();
  nothing.sizing.stopped = true;
  EXPECT_THAT(words_of(nothing), StartsWith("PARTIAL: stopped before the search was done. NOT "
                                            "KNOWN: no set that is enough"));
  EXPECT_THAT(words_of(nothing), Not(HasSubstr("of the same things")));
  SizeAnswer trade = traded();
  EXPECT_FALSE(report::partial(trade));
  trade.trade_off.back().sizing.stopped = true;
  EXPECT_TRUE(report::partial(trade));
  EXPECT_THAT(words_of(trade), StartsWith("PARTIAL: the set is found, but the trade-off was "
                                          "stopped"));
}

TEST(SizeText, SaysHowThePlanItselfFares) {
  EXPECT_THAT(
      words_of(sized_answer()),
      HasSubstr("The plan has 241 kg of the same things, and does not hold. Cold in chest rises "
                "above its margin on day 1, Mon 01 Mar, by 15.0 °C."));
  SizeAnswer answer = sized_answer();
  answer.planned.verdict.holds = true;
  EXPECT_THAT(words_of(answer), HasSubstr("The plan has 241 kg of the same things, and holds."));
}

TEST(SizeText, HasRemarksWarningsTheFileAndCautions) {
  SizeAnswer answer = traded();
  EXPECT_THAT(words_of(answer), Not(HasSubstr("Written to")));
  answer.sizing.remarks = {"resupplies take what the plan says"};
  answer.warnings = {"something odd"};
  answer.written = "sized.yaml";
  const std::string words = words_of(answer);
  EXPECT_THAT(words, HasSubstr("How it was calculated - resupplies take what the plan says."));
  EXPECT_THAT(words, HasSubstr("Warning: something odd."));
  EXPECT_THAT(words, HasSubstr("Written to sized.yaml."));
  EXPECT_THAT(words, HasSubstr("A planning aid. Local rules"));
  EXPECT_THAT(all_words_of(answer), HasSubstr("A planning aid, no more."));
  expect_fits_the_page(answer);
}

}  // namespace
}  // namespace drystage
