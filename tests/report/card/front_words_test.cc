// What the front says around its rows: the trip, the verdict, how to use the sheet, and warnings.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/card_answer.h"
#include "support/card_pages.h"
#include "support/needs_answer.h"

namespace drystage {
namespace {

using report::CardAnswer;
using support::all_words;
using support::card_answer;
using support::desert_crossing;
using support::front_pages;
using support::PlanText;
using ::testing::HasSubstr;
using ::testing::Not;

TEST(CardFront, TellsTheTripTheVerdictTheMarginsAndTheCautions) {
  const std::string words = all_words(front_pages(desert_crossing()));
  EXPECT_THAT(words, HasSubstr("Dune mapping, Marrabel to Tessarin "
                               "Mon 08 Mar 2027 to Sun 21 Mar 2027, 14 days "
                               "People: Ilse, Tomas. Vehicle: truck (diesel)."));
  EXPECT_THAT(words, HasSubstr("DOES NOT HOLD: drinking water runs out on day 12"));
  EXPECT_THAT(words, HasSubstr("drinking water: what 3 days of staying put would use"));
  EXPECT_THAT(words, HasSubstr("fuel of truck: 150 km"));
  EXPECT_THAT(words, HasSubstr("4 L in truck"));
  EXPECT_THAT(words, HasSubstr("A planning aid, no more."));
  EXPECT_THAT(words, HasSubstr("for midnight"));
}

TEST(CardFront, SaysThatThereIsNothingToTurnBackFrom) {
  const std::string words = all_words(front_pages(card_answer(PlanText{})));
  EXPECT_THAT(words, HasSubstr("Nothing is driven"));
}

TEST(CardFront, TellsToLoadWhatIsPlannedAndThatTooLittleIsTooLittle) {
  EXPECT_THAT(all_words(front_pages(card_answer(support::three_places()))),
              HasSubstr("Before setting out load to plan, as packed"));
  EXPECT_THAT(all_words(front_pages(desert_crossing())),
              HasSubstr("load to plan; with ! even that is too little"));
}

TEST(CardFront, TellsWhatToDoWhereMoreIsUsedThanWasReckoned) {
  const std::string words = all_words(front_pages(desert_crossing()));
  EXPECT_THAT(words, HasSubstr("clearly less than plan? You use more than was reckoned"));
  EXPECT_THAT(words, HasSubstr("multiply must have by what you used since the last filling"));
}

TEST(CardFront, TellsWhichUseOfFuelHasNotBeenMeasured) {
  const CardAnswer& plateau = support::shipped_answer("Ice core store, up to the Teller plateau");
  const std::string words = all_words(front_pages(plateau));
  EXPECT_THAT(words, HasSubstr("Fuel of lorry is by the model alone"));
  EXPECT_THAT(words, HasSubstr("Day 3: frost, down to -21 °C"));
  EXPECT_THAT(words, HasSubstr("takes no charge. Every day until Fri 25 Jun"));
}

TEST(CardFront, SaysWhatHangsOnASupplyThatNobodyHasConfirmed) {
  const CardAnswer& loop = support::shipped_answer("The long loop round the Ampara basin");
  const std::string words = all_words(front_pages(loop));
  EXPECT_THAT(words, HasSubstr("So by the plan there is less than must have of fuel of truck (day "
                               "9 to day 15): "));
  EXPECT_THAT(words, HasSubstr("DO NOT LEAVE UNLESS diesel at Saint Odo Mission IS CONFIRMED."));
}

TEST(CardFront, SaysWhichFileItWasDrawnFrom) {
  CardAnswer answer = desert_crossing();
  answer.source = "trip.yaml, --set trip.start=2027-03-09";
  EXPECT_THAT(all_words(front_pages(answer)),
              HasSubstr("Plan: trip.yaml, --set trip.start=2027-03-09."));
}

TEST(CardFront, TellsWhatTheReaderWasWarnedOf) {
  CardAnswer answer = desert_crossing();
  EXPECT_THAT(all_words(front_pages(answer)), Not(HasSubstr("Warning")));
  answer.needs.warnings = {"the can is full of sand"};
  EXPECT_THAT(all_words(front_pages(answer)), HasSubstr("Warning: the can is full of sand."));
}

}  // namespace
}  // namespace drystage
