// What `drystage size` says where nothing on offer is enough, of sets made by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/size/size_words.h"

namespace drystage {
namespace {

using answers::Failing;
using report::SizeAnswer;
using support::below;
using support::beyond;
using support::expect_fits_the_page;
using support::missed;
using support::struck;
using support::words_of;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

TEST(SizeText, SaysWhatTheNearestSetLacks) {
  const std::string words = words_of(missed());
  EXPECT_THAT(words,
              StartsWith("NOT ENOUGH ON OFFER: with the set that comes nearest, drinking "
                         "water falls below its margin on day 11, Thu 11 Mar, by 2.4 L; at its "
                         "tightest it lacks 12 L. There is no more on offer"));
  EXPECT_THAT(words, HasSubstr("plan has nearest kg"));
  EXPECT_THAT(words, Not(HasSubstr("LOAD")));
  EXPECT_THAT(words, HasSubstr("2 more than the plan has (43 kg)"));
  EXPECT_THAT(words, Not(HasSubstr("too few")));
  EXPECT_THAT(words, Not(HasSubstr("with only")));
  EXPECT_THAT(report::size_text(missed(), {.color = true}), StartsWith("\x1b[1;31m"));
  expect_fits_the_page(missed());
}

TEST(SizeText, SaysWhatElseItFailsInAndThatMoreWouldPassALimit) {
  SizeAnswer answer = missed();
  answer.sizing.miss->most_of_all = false;
  answer.sizing.miss->failing.push_back(beyond(Failing::Reason::overload, 44.2, 0));
  answer.sizing.miss->failing.push_back(beyond(Failing::Reason::budget, 12));
  EXPECT_THAT(words_of(answer),
              HasSubstr("Besides: truck 45 kg over its limit; the set 12 over the budget. More is "
                        "on offer, but then something else is passed"));
}

TEST(SizeText, SaysWhichLimitOrMishapTheNearestSetFails) {
  SizeAnswer answer = missed();
  answer.sizing.miss->lacks = 0;
  Failing& first = answer.sizing.miss->failing.front();
  first = beyond(Failing::Reason::overload, 44.2, 0);
  EXPECT_THAT(words_of(answer), StartsWith("NOT ENOUGH ON OFFER: with the set that comes nearest, "
                                           "truck is 45 kg over its limit."));
  first = beyond(Failing::Reason::space, 20.5);
  EXPECT_THAT(words_of(answer), HasSubstr("the set is 21 L over its limit of space."));
  first = struck(answer, "can 1 lost", 3);
  EXPECT_THAT(words_of(answer), StartsWith("NOT ENOUGH ON OFFER: the set that comes nearest does "
                                           "not survive every mishap: can 1 lost, on day 4: "
                                           "drinking water runs out on day 5, 4.0 L short."));
}

}  // namespace
}  // namespace drystage
