// What the front says around its rows: the trip, the verdict, how to use the sheet, and warnings.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "answers/mishaps/spell.h"
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
                               "Mon 08 Mar 2027 to Sun 21 Mar 2027, 14 days. "
                               "People: Ilse, Tomas. Vehicle: truck (diesel)."));
  EXPECT_THAT(words, HasSubstr("DOES NOT HOLD: drinking water runs out on day 12, "
                               "short by 18 L. Besides: utility water runs out (day 12)."));
  EXPECT_THAT(words, HasSubstr("drinking water: what 3 days of staying put would use"));
  EXPECT_THAT(words, HasSubstr("fuel of truck: 150 km"));
  EXPECT_THAT(words, HasSubstr("4 L in truck"));
  EXPECT_THAT(words, HasSubstr("A planning aid only. Local rules, licensed practice and medical "
                               "advice come first."));
  EXPECT_THAT(words, HasSubstr("Figures are for midnight"));
}

/// The text in the heavy frame below the title.
drawing::Text verdict_of(const CardAnswer& answer) {
  const std::vector<drawing::Page> pages = front_pages(answer);
  for (const drawing::Mark& mark : pages.front().marks) {
    const auto* text = std::get_if<drawing::Text>(&mark);
    const bool is_verdict = text != nullptr && (text->words.starts_with("HOLDS") ||
                                                text->words.starts_with("DOES NOT HOLD"));
    if (is_verdict) return *text;
  }
  return {};
}

TEST(CardFront, HasTheVerdictInOneLine) {
  const drawing::Typesetter typesetter;
  for (const CardAnswer& answer : support::shipped_answers()) {
    CardAnswer with_spells = answer;
    with_spells.spells = answers::try_spells(answer.needs.planned);
    const drawing::Text text = verdict_of(with_spells);
    SCOPED_TRACE(text.words);
    EXPECT_THAT(text.words, ::testing::StartsWith(
                                answer.needs.planned.verdict.holds ? "HOLDS" : "DOES NOT HOLD"));
    EXPECT_EQ(typesetter.lines(text.words, text.font, text.box.width).size(), 1U);
  }
}

TEST(CardFront, SaysOnWhatAPlanDependsAndWhatWeatherBreaksIt) {
  CardAnswer loop = support::shipped_answer("The long loop round the Ampara basin");
  loop.spells = answers::try_spells(loop.needs.planned);
  EXPECT_THAT(all_words(front_pages(loop)),
              HasSubstr("HOLDS ONLY IF there is diesel at Saint Odo Mission. Nobody has confirmed "
                        "it. A hot week empties the drinking containers on day 21."));
}

TEST(CardFront, SaysThatThereIsNothingToTurnBackFrom) {
  const std::string words = all_words(front_pages(card_answer(PlanText{})));
  EXPECT_THAT(words, HasSubstr("Nothing is driven"));
}

TEST(CardFront, TellsToLoadWhatIsPlannedAndThatTooLittleIsTooLittle) {
  EXPECT_THAT(all_words(front_pages(card_answer(support::three_places()))),
              HasSubstr("Before setting out At Base: load to plan, as packed"));
  EXPECT_THAT(all_words(front_pages(desert_crossing())),
              HasSubstr("At Marrabel: load to plan; with ! even that is too little"));
}

TEST(CardFront, TellsWhatToDoWhereMoreIsUsedThanWasReckoned) {
  const std::string words = all_words(front_pages(desert_crossing()));
  EXPECT_THAT(words, HasSubstr("Well below plan? You use more than planned"));
  EXPECT_THAT(words,
              HasSubstr("multiply must have by what you used and divide by what was planned"));
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
  EXPECT_THAT(
      words, HasSubstr("If it is not there, you carry too little: fuel of truck (day 9 to day 15). "
                       "Do not pass the bar that says so unless it is confirmed. "
                       "Confirmed? Draw this card again."));
  EXPECT_THAT(words, HasSubstr("DO NOT LEAVE UNLESS diesel at Saint Odo Mission IS CONFIRMED."));
}

TEST(CardFront, SaysHowFarMustHaveBringsAndOnWhatItCounts) {
  PlanText plan = support::three_places();
  EXPECT_THAT(all_words(front_pages(card_answer(plan))), HasSubstr("with the whole margin left."));
  plan.containers = {"{name: can, holds: 120 L, filled: 14 L, for: drinking}"};
  plan.places[1] = PlanText::place("Red Tables", "air", "drinking_water: {most: 30 L}");
  plan.places[2] = PlanText::place("Far Well", "air", "diesel: {}");
  plan.itinerary.insert(plan.itinerary.begin() + 2, "resupply: {drinking_water: 30 L}");
  EXPECT_THAT(all_words(front_pages(card_answer(plan))),
              HasSubstr("It counts on drinking water at Red Tables."));
}

TEST(CardFront, TellsThatWithLessTheLastPlaceToTurnBackComesEarlier) {
  const std::string earlier = "With less than planned, the last place to turn back comes earlier.";
  EXPECT_THAT(all_words(front_pages(desert_crossing())), HasSubstr(earlier));
  EXPECT_THAT(all_words(front_pages(card_answer(PlanText{}))), Not(HasSubstr(earlier)));
}

TEST(CardFront, TellsWhatADashStandsFor) {
  CardAnswer answer = desert_crossing();
  EXPECT_THAT(all_words(front_pages(answer)), HasSubstr("A dash (-): the trip ends here. "));
  answer.needs.needs.table.front().judged = false;
  EXPECT_THAT(all_words(front_pages(answer)),
              HasSubstr("A dash (-): the trip ends here, or it is not with you."));
}

TEST(CardFront, TellsWhatTheReaderWasWarnedOf) {
  CardAnswer answer = desert_crossing();
  EXPECT_THAT(all_words(front_pages(answer)), Not(HasSubstr("Warning")));
  answer.needs.warnings = {"the can is full of sand"};
  EXPECT_THAT(all_words(front_pages(answer)), HasSubstr("Warning: the can is full of sand."));
}

}  // namespace
}  // namespace drystage
