// Where to turn back, in words: always, never, until when, again, and where both ways are even.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cli/workspace.h"
#include "report/needs/words.h"
#include "support/answer.h"
#include "support/needs_answer.h"

namespace drystage::turn_back_test {
namespace {

using report::NeedsAnswer;
using support::after_red_tables;
using support::at_place;
using support::plain_needs;
using support::stretch_of;
using support::three_places;
using support::unwrapped;
using ::testing::AllOf;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr double minute_h = 1.0 / 60;

std::string words_of(const NeedsAnswer& answer, units::System system = units::System::metric) {
  return unwrapped(report::turn_back_list(answer, {.all = true, .system = system}));
}

/// With one stretch of drinking water, changed by the test.
NeedsAnswer with(answers::SupplyStretch change(answers::SupplyStretch)) {
  NeedsAnswer answer = plain_needs(three_places());
  answer.turn_back.stretches = {change(stretch_of(answer, "drinking_water"))};
  return answer;
}

TEST(TurnBack, IsAlwaysPossible) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.always = true;
    return stretch;
  });
  EXPECT_THAT(words_of(answer),
              HasSubstr("Drinking water - Base (day 1) to Far Well (day 4): always possible."));
}

TEST(TurnBack, IsNeverPossible) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) { return stretch; });
  EXPECT_THAT(words_of(answer),
              AllOf(HasSubstr("- Base (day 1) to Far Well (day 4): never possible."),
                    HasSubstr("All together, not counting fuel of truck, food - never possible.")));
}

TEST(TurnBack, IsPossibleUntilAMomentRoundedToAnEarlierOne) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.last = after_red_tables(3, 13 + 5.9 * minute_h, 84.7);
    return stretch;
  });
  // 84.7 km driven and 30.3 to go: further back on the way.
  EXPECT_THAT(words_of(answer), HasSubstr("until day 4, Thu 04 Mar, 13:05, 84 km after Red Tables, "
                                          "31 km before Far Well."));
}

TEST(TurnBack, IsGivenToTheMinuteWhereItIsAWholeMinute) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.last = after_red_tables(3, 13 + 5 * minute_h, 85);
    return stretch;
  });
  EXPECT_THAT(words_of(answer), HasSubstr("until day 4, Thu 04 Mar, 13:05, 85 km after Red Tables, "
                                          "30 km before Far Well."));
}

TEST(TurnBack, NamesThePlace) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.last = at_place(2, 24, 1);
    return stretch;
  });
  EXPECT_THAT(words_of(answer), HasSubstr("until day 3, Wed 03 Mar, 24:00, at Red Tables."));
}

TEST(TurnBack, NamesThePlaceThatHasJustBeenLeft) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.last = after_red_tables(3, 8.5, 0.04);
    return stretch;
  });
  EXPECT_THAT(words_of(answer), HasSubstr("until day 4, Thu 04 Mar, 08:30, at Red Tables."));
}

TEST(TurnBack, IsPossibleAgainFromAMomentRoundedToALaterOne) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.last = at_place(1, 9, 1);
    stretch.again = after_red_tables(3, 10 + 5.1 * minute_h, 50.2);
    stretch.windows = {{.from = stretch.leaves, .last = *stretch.last, .decides = stretch.reserve},
                       {.from = *stretch.again,
                        .last = after_red_tables(3, 11 + 5.9 * minute_h, 60.2),
                        .decides = stretch.reserve}};
    return stretch;
  });
  EXPECT_THAT(
      words_of(answer),
      HasSubstr("until day 2, Tue 02 Mar, 09:00, at Red Tables. Possible again from day 4, "
                "Thu 04 Mar, 10:06, 51 km after Red Tables, 64 km before Far Well until day "
                "4, Thu 04 Mar, 11:05, 60 km after Red Tables, 55 km before Far Well."));
}

TEST(TurnBack, IsPossibleAgainAsOftenAsItIs) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.last = at_place(1, 9, 1);
    stretch.again = at_place(2, 6, 1);
    stretch.windows = {
        {.from = stretch.leaves, .last = *stretch.last, .decides = stretch.reserve},
        {.from = *stretch.again, .last = at_place(2, 10, 1), .decides = stretch.reserve},
        {.from = at_place(3, 6, 1), .last = stretch.arrives, .decides = -1}};
    return stretch;
  });
  EXPECT_THAT(words_of(answer),
              HasSubstr("Possible again from day 3, Wed 03 Mar, 06:00, at Red Tables until day 3, "
                        "Wed 03 Mar, 10:00, at Red Tables, and from day 4, Thu 04 Mar, 06:00, at "
                        "Red Tables to the end."));
}

TEST(TurnBack, MayBecomePossibleOnlyLater) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.again = at_place(2, 6, 1);
    stretch.windows = {{.from = *stretch.again, .last = stretch.arrives, .decides = -1}};
    return stretch;
  });
  const std::string text = words_of(answer);
  EXPECT_THAT(text, HasSubstr("not possible at first, only from day 3, Wed 03 Mar, 06:00, at Red "
                              "Tables to the end."));
}

TEST(TurnBack, SaysWhereGoingOnAndGoingBackNeedTheSame) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.always = true;
    stretch.even = at_place(1, 14.5, 1);
    stretch.even_need = 24.2;
    return stretch;
  });
  EXPECT_THAT(words_of(answer),
              HasSubstr("always possible. Going on and going back need the same, 25 L, on day 2, "
                        "Tue 02 Mar, 14:30, at Red Tables."));
}

TEST(TurnBack, LeadsToTheEndOfTheTripWhereNoSupplyIsAhead) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.always = true;
    stretch.to_place = -1;
    return stretch;
  });
  EXPECT_THAT(words_of(answer), HasSubstr("- Base (day 1) to the end of the trip (day 4): always"));
}

TEST(TurnBack, SaysForAllTogetherWhichReserveDecides) {
  NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.last = at_place(2, 12, 1);
    return stretch;
  });
  const answers::SupplyStretch& water = answer.turn_back.stretches[0];
  answer.turn_back.windows = {
      {.from = at_place(0, 8 + 0.5 * minute_h, 0), .last = *water.last, .decides = water.reserve},
      {.from = at_place(4, 8, 2), .last = at_place(5, 24, 2)}};
  const std::string text = words_of(answer);
  EXPECT_THAT(text,
              HasSubstr("All together, not counting fuel of truck, food - until day 3, Wed 03 Mar, "
                        "12:00, at Red Tables. Drinking water decides. - from day 5, Fri 05 Mar, "
                        "08:00, at Far Well, to the end of the trip."));
  answer.turn_back.windows[1].last = at_place(5, 9, 2);
  EXPECT_THAT(words_of(answer),
              HasSubstr("- from day 5, Fri 05 Mar, 08:00, at Far Well. Until day 6, Sat 06 Mar, "
                        "09:00, at Far Well."));
}

TEST(TurnBack, OfOneScreenIsOfDrinkingWaterAndFuelTogether) {
  NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.last = at_place(2, 12, 1);
    return stretch;
  });
  const answers::SupplyStretch& water = answer.turn_back.stretches[0];
  answer.turn_back.vital = {
      {.from = at_place(0, 8, 0), .last = *water.last, .decides = water.reserve}};
  EXPECT_EQ(unwrapped(report::turn_back_list(answer, {})),
            "Turning back to the last supply: drinking water and fuel, not counting fuel of truck "
            "(more with --all) - until day 3, Wed 03 Mar, 12:00, at Red Tables. Drinking water "
            "decides. ");
  answer.turn_back.vital.clear();
  EXPECT_THAT(report::turn_back_list(answer, {}), EndsWith("\n  - never possible.\n"));
}

TEST(TurnBack, NamesWhatNoPlaceBehindIsSureToSupply) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) { return stretch; });
  EXPECT_THAT(words_of(answer), HasSubstr("No supply behind is sure, so there is none to turn back "
                                          "to: fuel of truck, food."));
}

TEST(TurnBack, SaysNothingOfAllTogetherWhereThereIsNoStretch) {
  const std::string text = words_of(plain_needs(three_places()));
  EXPECT_THAT(text, Not(HasSubstr("All together")));
  EXPECT_THAT(text, HasSubstr("none to turn back to: drinking water, fuel of truck, food."));
}

TEST(TurnBack, FollowsTheOrderOfTheTable) {
  NeedsAnswer answer = plain_needs(three_places());
  answer.turn_back.stretches = {stretch_of(answer, "food"), stretch_of(answer, "fuel:truck")};
  const std::string text = words_of(answer);
  EXPECT_LT(text.find("Fuel of truck -"), text.find("Food -"));
}

TEST(TurnBack, ShowsMilesAndGallons) {
  const NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.last = after_red_tables(3, 13, 85);
    stretch.even = after_red_tables(3, 12, 30);
    stretch.even_need = 50;
    return stretch;
  });
  // 85 km are 52.8 mi and 30 km are 18.6 (a mile is 1.609344 km); 50 L are 13.2 US gallons.
  const std::string text = words_of(answer, units::System::us);
  EXPECT_THAT(text, HasSubstr("52 mi after Red Tables, 19 mi before Far Well."));
  EXPECT_THAT(text, HasSubstr("need the same, 14 US gal, on day 4"));
  EXPECT_THAT(text, Not(HasSubstr("km")));
}

TEST(TurnBack, FitsEightyColumns) {
  NeedsAnswer answer = with([](answers::SupplyStretch stretch) {
    stretch.last = after_red_tables(3, 13, 85);
    stretch.again = after_red_tables(3, 14, 100);
    stretch.windows = {{.from = stretch.leaves, .last = *stretch.last, .decides = stretch.reserve},
                       {.from = *stretch.again, .last = stretch.arrives, .decides = -1}};
    stretch.even = after_red_tables(3, 12, 30);
    return stretch;
  });
  answer.turn_back.windows = {{.from = at_place(0, 8, 0), .last = after_red_tables(3, 13, 85)}};
  const std::string text = report::turn_back_list(answer, {.all = true});
  for (const std::string& line : drystage::testing::lines(text)) {
    EXPECT_LE(drystage::testing::terminal_columns(line), 80) << line;
  }
  EXPECT_THAT(text, EndsWith(".\n"));
}

}  // namespace
}  // namespace drystage::turn_back_test
