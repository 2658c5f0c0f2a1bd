// The table that `drystage size` prints, of sets made by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/size/size_words.h"

namespace drystage {
namespace {

using answers::Failing;
using answers::SizedLine;
using report::SizeAnswer;
using support::all_of;
using support::all_words_of;
using support::below;
using support::beyond;
using support::expect_fits_the_page;
using support::line_that_begins;
using support::missed;
using support::sized_answer;
using support::struck;
using support::text_of;
using support::unwrapped;
using support::words_in;
using support::words_of;
using ::testing::HasSubstr;
using ::testing::Not;

SizedLine& line(SizeAnswer& answer, std::size_t index) { return answer.sizing.found->lines[index]; }

TEST(SizeText, HasARowForEachThing) {
  const std::string text = text_of(sized_answer());
  EXPECT_EQ(line_that_begins(text, "  "),
            "                                     plan has        load   kg");
  EXPECT_EQ(line_that_begins(text, "20 L containers"),
            "20 L containers of drinking water           6           8  170");
  EXPECT_EQ(line_that_begins(text, "20 L cans"),
            "20 L cans of diesel for truck               4           1   22");
  EXPECT_EQ(line_that_begins(text, "camp battery"),
            "camp battery                       100 Ah agm  100 Ah lfp   12");
  EXPECT_EQ(line_that_begins(text, "in all"),
            "in all                                                     203");
  EXPECT_EQ(line_that_begins(text, "the plan has of the same"),
            "the plan has of the same                                   241");
}

TEST(SizeText, SaysWhatThePlanHasTooMuchOrTooLittleAndWhatOneFewerDoes) {
  const std::string text = all_of(sized_answer());
  EXPECT_THAT(text,
              HasSubstr("\n  the plan has 2 too few (43 kg)\n"
                        "  with only 7: drinking water falls below its margin on day 11, Thu 11 "
                        "Mar, by\n    2.4 L\n"));
  // What is saved is rounded down: 63.9 kg.
  EXPECT_THAT(text,
              HasSubstr("\n  the plan has 3 too many (63 kg)\n"
                        "  with none: fuel of truck falls below its margin on day 14, Sun 14 Mar, "
                        "by 7.0\n    L\n"));
  EXPECT_THAT(text, HasSubstr("\n  in place of 100 Ah agm, 17 kg less\n"));
  SizeAnswer answer = sized_answer();
  line(answer, 0).fewer = "0";
  EXPECT_THAT(all_words_of(answer), HasSubstr("with none: drinking water falls below"));
}

TEST(SizeText, OfOneScreenSaysThatOfAThingInOneParagraph) {
  const std::string text = text_of(sized_answer());
  EXPECT_THAT(text,
              HasSubstr("\n  the plan has 2 too few (43 kg). With only 7: drinking water falls "
                        "below its\n    margin on day 11, Thu 11 Mar, by 2.4 L\n"));
  EXPECT_THAT(text,
              HasSubstr("\n  the plan has 3 too many (63 kg). With none: fuel of truck falls below "
                        "its\n    margin on day 14, Sun 14 Mar, by 7.0 L\n"));
  // The two sizes stand side by side in the row.
  EXPECT_THAT(text, Not(HasSubstr("in place of")));
  EXPECT_THAT(text, Not(HasSubstr("Cans start full")));
  EXPECT_THAT(all_of(sized_answer()), HasSubstr("\nCans start full, less the air space"));
}

TEST(SizeText, SaysWhatIsInACanThatIsNotFilledToTheBrim) {
  SizeAnswer answer = sized_answer();
  line(answer, 0).holds = 20;
  EXPECT_THAT(text_of(answer), Not(HasSubstr("in each")));
  line(answer, 0).each = 19;
  EXPECT_THAT(unwrapped(text_of(answer)),
              HasSubstr("19 L in each, the rest is air. The plan has 2 too few"));
  // Of none there is nothing to say.
  line(answer, 0).amount = 0;
  EXPECT_THAT(text_of(answer), Not(HasSubstr("in each")));
}

TEST(SizeText, ComparesCansOfSeveralSizesByWhatTheyHoldTogether) {
  SizeAnswer answer = sized_answer();
  // Six of 20 L in the plan: now two of them, and one of 10 L.
  SizedLine& twenties = line(answer, 0);
  twenties = support::cans_of("drinking water", "container", 6, 2, 21.2);
  auto& lines = answer.sizing.found->lines;
  lines.insert(lines.begin() + 1,
               support::holding(support::cans_of("drinking water", "container", 0, 1, 10.7), 10));
  lines[1].fewer = "0";
  lines[1].one_fewer = below(answer, "drinking_water", 10, 2.4);
  // 84.8 kg less and 10.7 kg more.
  EXPECT_THAT(
      all_of(answer),
      HasSubstr("by 2.4\n    L\n  together: 50 L of drinking water in place of 120 L, 74 kg "
                "less\n20 L cans of diesel"));
  EXPECT_THAT(all_words_of(answer), Not(HasSubstr("4 too many")));
  EXPECT_THAT(all_words_of(answer), Not(HasSubstr("too few")));
  EXPECT_THAT(words_in(answer, units::System::us),
              HasSubstr("together: 13.2 US gal of drinking water in place of 31.7 US gal, 163 lb "
                        "less"));
  lines[1] = support::holding(support::cans_of("drinking water", "container", 0, 8, 10.7), 10);
  EXPECT_THAT(all_words_of(answer),
              HasSubstr("together: 120 L of drinking water, as in the plan, 0.8 kg more"));
  // Where the plan's are not full, they hold less than they might.
  lines[0].plan_detail = "with 100 L";
  EXPECT_THAT(all_words_of(answer),
              HasSubstr("together: 120 L of drinking water, 0.8 kg more than in the plan"));
  // With one line alone that has changed, there is nothing to put together.
  lines[1].plan_amount = 8;
  lines[1].plan_kg = lines[1].kg;
  EXPECT_THAT(all_words_of(answer), Not(HasSubstr("together")));
  EXPECT_THAT(all_words_of(answer), HasSubstr("the plan has 4 too many (84 kg)"));
}

TEST(SizeText, SaysWhenThePlanHasAsManyThatAreNotFull) {
  SizeAnswer answer = sized_answer();
  SizedLine& water = line(answer, 0);
  water.plan_amount = water.amount;
  water.plan_detail = "with 100 L";
  water.detail = "full";
  water.plan_kg = water.kg - 60;
  EXPECT_THAT(words_of(answer), HasSubstr("8 with 100 L 8 full 170"));
  EXPECT_THAT(words_of(answer), HasSubstr("in place of 8 with 100 L, 60 kg more"));
}

TEST(SizeText, ComparesTheMassWithThePlansOwn) {
  SizeAnswer answer = sized_answer();
  EXPECT_THAT(words_of(answer), HasSubstr("That is 37 kg less than the plan has. "));
  answer.planned.verdict.holds = true;
  EXPECT_THAT(words_of(answer), HasSubstr("The plan has 37 kg too much."));
  answer.sizing.plan_totals.kg = 200;
  EXPECT_THAT(words_of(answer), HasSubstr("That is 2.9 kg more than the plan has."));
}

TEST(SizeText, CallsNothingTooMuchThatMishapsOrUnconfirmedSuppliesMayNeed) {
  SizeAnswer answer = sized_answer();
  answer.planned.verdict.holds = true;
  answer.options.confirmed_only = true;
  EXPECT_THAT(words_of(answer), HasSubstr("That is 37 kg less than the plan has. "));
  answer.options.confirmed_only = false;
  answer.options.survive.emplace();
  EXPECT_THAT(words_of(answer), HasSubstr("That is 37 kg less than the plan has. "));
  EXPECT_THAT(words_of(answer), HasSubstr("and holds. drystage mishaps shows what mishaps do to "
                                          "it."));
}

TEST(SizeText, HasOneRowForAllThatIsKept) {
  SizeAnswer answer = sized_answer();
  line(answer, 2).kept = true;
  std::string text = text_of(answer);
  EXPECT_THAT(text, HasSubstr("  12\n  camp battery (100 Ah lfp, 12 kg)\n---"));
  EXPECT_THAT(line_that_begins(text, "kept as it is"), HasSubstr(" 12"));
  EXPECT_EQ(line_that_begins(text, "camp battery"), "");
  line(answer, 0).kept = true;
  answer.sizing.costs_given = true;
  answer.sizing.space_limited = true;
  line(answer, 0).cost = 5;
  line(answer, 0).space_l = 220;
  text = text_of(answer);
  EXPECT_THAT(unwrapped(line_that_begins(text, "kept as they are")), HasSubstr(" 182 905 220"));
  EXPECT_THAT(text, Not(HasSubstr("with only 7")));
  // None of them is broken across two lines.
  line(answer, 2).one = "the old battery under the bed";
  line(answer, 0) = support::sized("body tank behind the driver", "L", 110, 110, 117, 117);
  line(answer, 0).kept = true;
  EXPECT_THAT(text_of(answer), HasSubstr("\n  body tank behind the driver (110 L, 117 kg),\n"
                                         "  the old battery under the bed (100 Ah lfp, 12 kg)\n"));
  expect_fits_the_page(answer);
}

TEST(SizeText, SaysWhatOneFewerDoesInEveryCase) {
  SizeAnswer answer = sized_answer();
  Failing& failing = line(answer, 0).one_fewer.emplace();
  failing = struck(answer, "can 1 lost", 3);
  EXPECT_THAT(all_words_of(answer), HasSubstr("with only 7: can 1 lost, on day 4: drinking water "
                                              "runs out on day 5, 4.0 L short"));
  failing = below(answer, "drinking_water", 11, 25);
  failing.breach->short_of = 3.21;
  failing.breach->harm = answers::Harm::runs_out_vital;
  EXPECT_THAT(all_words_of(answer),
              HasSubstr("7: drinking water runs out on day 12, Fri 12 Mar, short by 3.3 L"));
  failing = below(answer, "cold:chest", 2, 27);  // stands at -2 °C where 25 °C are allowed
  failing.breach->left = 26.44;
  failing.unconfirmed = true;
  EXPECT_THAT(all_words_of(answer),
              HasSubstr("7: cold in chest rises above its margin on day 3, Wed 03 "
                        "Mar, by 1.5 °C (without what nobody has confirmed)"));
  EXPECT_THAT(words_in(answer, units::System::us), HasSubstr("by 2.6 °F"));
  failing = beyond(Failing::Reason::overload, 44.2, 0);
  EXPECT_THAT(all_words_of(answer), HasSubstr("7: truck 45 kg over its limit"));
  failing = beyond(Failing::Reason::packing, 2.31, 0);
  EXPECT_THAT(all_words_of(answer), HasSubstr("7: chest 2.4 L overfull"));
  failing = beyond(Failing::Reason::space, 20.5);
  EXPECT_THAT(all_words_of(answer), HasSubstr("7: the set 21 L over its limit of space"));
  failing = beyond(Failing::Reason::budget, 120);
  EXPECT_THAT(all_words_of(answer), HasSubstr("7: the set 120 over the budget"));
  line(answer, 0).one_fewer.reset();
  EXPECT_THAT(all_words_of(answer), HasSubstr("with only 7: would do as well"));
  answer.sizing.stopped = true;
  EXPECT_THAT(all_words_of(answer), HasSubstr("with only 7: not tried"));
}

TEST(SizeText, NamesTheSizeBelowOfWhatIsNotCounted) {
  SizeAnswer answer = sized_answer();
  line(answer, 2).fewer = "75 Ah";
  line(answer, 2).one_fewer = below(answer, "food", 4, 5);
  EXPECT_THAT(words_of(answer), HasSubstr(" 12 with 75 Ah: food falls below its margin on day 5, "
                                          "Fri 05 Mar, by 5.0 meals"));
  EXPECT_THAT(all_words_of(answer),
              HasSubstr("17 kg less with 75 Ah: food falls below its margin"));
}

TEST(SizeText, HasCostAndSpaceWhereTheyAreGiven) {
  SizeAnswer answer = sized_answer();
  EXPECT_THAT(text_of(answer), Not(HasSubstr("cost")));
  EXPECT_THAT(text_of(answer), Not(HasSubstr("space")));
  answer.sizing.costs_given = true;
  answer.sizing.space_limited = true;
  answer.sizing.found->totals = {.kg = 202.9, .cost = 936.5, .space_l = 229.2};
  line(answer, 0).cost = 36.5;
  line(answer, 0).space_l = 220;
  const std::string text = text_of(answer);
  EXPECT_THAT(text, HasSubstr("load   kg    cost  space, L\n"));
  EXPECT_EQ(line_that_begins(text, "20 L containers"),
            "20 L containers of drinking water           6           8  170   36.50       220");
  EXPECT_THAT(line_that_begins(text, "in all"), HasSubstr(" 203  936.50       230"));
  expect_fits_the_page(answer);
}

TEST(SizeText, ShowsTheSizesOfTanksInOtherUnitsAndNoneForNothing) {
  SizeAnswer answer = sized_answer();
  line(answer, 2) = support::sized("body tank", "L", 110, 0, 117, 0);
  EXPECT_EQ(line_that_begins(text_of(answer), "body tank"),
            "body tank                             110 L  none    0");
  EXPECT_THAT(words_in(answer, units::System::us), HasSubstr("in place of 29.1 US gal, 257 lb"));
}

TEST(SizeText, BreaksLongNamesToThePageUnlessWide) {
  SizeAnswer answer = sized_answer();
  answer.sizing.costs_given = true;
  answer.sizing.space_limited = true;
  const std::string name =
      "the old battery that stands under the bed of the one who snores beside the locker";
  line(answer, 2).one = name;
  line(answer, 1).many = std::string(90, 'x');
  expect_fits_the_page(answer);
  EXPECT_THAT(words_of(answer), HasSubstr("the old battery that"));
  EXPECT_THAT(report::size_text(answer, {.wide = true}), HasSubstr("\n" + name + "   "));
}

TEST(SizeText, DoesNotCallTheSetTheLeastWhereTheSearchWasGivenUp) {
  SizeAnswer answer = sized_answer();
  answer.sizing.given_up = true;
  EXPECT_THAT(words_of(answer), HasSubstr("the lightest set found so far that keeps every margin"));
  SizeAnswer none = missed();
  none.sizing.given_up = true;
  EXPECT_THAT(words_of(none), HasSubstr("NOT KNOWN, the search was given up: "));
  EXPECT_THAT(words_of(none), Not(HasSubstr("NOT ENOUGH ON OFFER")));
}

TEST(SizeText, ComparesTheVehiclesWithTheirLimits) {
  SizeAnswer answer = sized_answer();
  answer.sizing.found->planned.record.heaviest[0] = {.kg = 3290.2, .day = 1};
  answer.planned.record.heaviest[0] = {.kg = 3302.1, .day = 0};
  EXPECT_THAT(words_of(answer), HasSubstr("truck is heaviest on day 2: 3291 kg (as the plan stands "
                                          "3303 kg), limit 3500 kg. Fuel of truck is by the model "
                                          "alone"));
  // The lesser limit is what binds.
  answer.planned.plan.size.limits.mass_kg = {3600};
  EXPECT_THAT(words_of(answer), HasSubstr("3303 kg), limit 3500 kg."));
  answer.planned.plan.size.limits.mass_kg = {3300.7};
  EXPECT_THAT(words_of(answer), HasSubstr("3303 kg), limit 3300 kg."));
  answer.planned.plan.size.limits.mass_kg = {3200};
  EXPECT_THAT(words_of(answer), HasSubstr("3303 kg), OVER its limit of 3200 kg."));
  answer.planned.plan.size.limits.mass_kg = {std::nullopt};
  answer.planned.plan.vehicles[0].limit_kg.reset();
  EXPECT_THAT(words_of(answer), HasSubstr("3303 kg); the plan gives no limit."));
}

}  // namespace
}  // namespace drystage
