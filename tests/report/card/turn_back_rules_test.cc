// Where the way back ends and opens: on the right row, and never said too well.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "answers/onward/turn_back.h"
#include "report/card/rules.h"
#include "report/needs/words.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using report::NeedsAnswer;
using report::turn_back_rules;
using report::turn_back_words;
using report::TurnBackRule;
using support::after_red_tables;
using support::at_place;
using support::plain_needs;
using support::stretch_of;
using support::three_places;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// Two stretches from Base (left on day 1 at 8) to Far Well, and these windows.
NeedsAnswer with(std::vector<answers::Window> windows) {
  NeedsAnswer answer = plain_needs(three_places());
  answer.turn_back.stretches = {stretch_of(answer, "drinking_water"),
                                stretch_of(answer, "fuel:truck")};
  answer.turn_back.vital = std::move(windows);
  return answer;
}

int water(const NeedsAnswer& answer) {
  return support::reserve_index(answer.planned.course, "drinking_water");
}

std::vector<TurnBackRule> rules(const NeedsAnswer& answer) {
  return turn_back_rules(answer, units::System::metric);
}

TEST(TurnBackRules, EndTheWayBackOnItsDay) {
  NeedsAnswer answer = with({{.from = at_place(0, 8, 0), .last = after_red_tables(3, 9, 55)}});
  answer.turn_back.vital[0].decides = water(answer);
  const auto list = rules(answer);
  ASSERT_THAT(list, SizeIs(1));
  EXPECT_EQ(list[0].day, 3);
  EXPECT_FALSE(list[0].opens);
  EXPECT_EQ(list[0].headline,
            "LAST PLACE TO TURN BACK: day 4, Thu 04 Mar, 09:00, 55 km after Red Tables, 60 km "
            "before Far Well.");
  EXPECT_EQ(
      list[0].words,
      "Back to Base it is 255 km by the way you came. After this point they cannot drive back "
      "with a safe margin of drinking water.");
  EXPECT_EQ(turn_back_words(answer), "");
}

TEST(TurnBackRules, TellOfARoadThatTheTripDoesNotTake) {
  support::PlanText text = three_places();
  text.roads = {"{from: Base, to: Red Tables, distance: 90 km, surfaces: gravel}"};
  NeedsAnswer answer = plain_needs(text);
  answer.turn_back.stretches = {stretch_of(answer, "drinking_water")};
  answer.turn_back.vital = {
      {.from = at_place(0, 8, 0), .last = after_red_tables(3, 9, 55), .decides = water(answer)}};
  EXPECT_THAT(rules(answer).at(0).words,
              HasSubstr("Back to Base it is 145 km by the shortest way, over a road that the trip "
                        "does not take. After"));
  const auto told = [&](bool all) { return report::needs_text(answer, {.all = all}); };
  EXPECT_THAT(told(false),
              HasSubstr("Turning back to the last supply, or one that a road leads to:"));
  EXPECT_THAT(told(true), HasSubstr("you came, or the plan's ways back and roads."));
}

TEST(TurnBackRules, TellWhereItOpensAgain) {
  NeedsAnswer answer =
      with({{.from = at_place(0, 8, 0), .last = at_place(2, 12.99, 1)},
            {.from = after_red_tables(3, 10.001, 50), .last = at_place(3, 14, 2)}});
  answer.turn_back.vital[0].decides = water(answer);
  const auto list = rules(answer);
  ASSERT_THAT(list, SizeIs(2));
  EXPECT_EQ(list[0].day, 2);
  EXPECT_THAT(list[0].headline, HasSubstr("day 3, Wed 03 Mar, 12:59, at Red Tables"))
      << "a time that must not be passed is rounded down";
  EXPECT_THAT(list[0].words, HasSubstr("The way back opens again on day 4, Thu 04 Mar, 10:01, 50"))
      << "one that is waited for is rounded up";
  EXPECT_EQ(list[1].day, 3);
  EXPECT_TRUE(list[1].opens);
  EXPECT_THAT(list[1].headline, HasSubstr("THE WAY BACK IS OPEN from day 4, Thu 04 Mar, 10:01"));
}

TEST(TurnBackRules, TellOnceWhatEndsAndOpensOnOneDay) {
  NeedsAnswer answer = with({{.from = at_place(0, 8, 0), .last = after_red_tables(3, 9, 10)},
                             {.from = after_red_tables(3, 10, 50), .last = at_place(3, 14, 2)}});
  answer.turn_back.vital[0].decides = water(answer);
  EXPECT_THAT(rules(answer), SizeIs(1));
}

TEST(TurnBackRules, OpenNoWayBackThatIsTheWayOn) {
  // From Far Well, which has nothing, back to Base: the way back leads there too.
  support::PlanText plan = three_places();
  plan.places[2] = support::PlanText::place("Far Well", "air");
  plan.itinerary = {
      "{at: Base}",        "drive: {to: Red Tables, distance: 200 km, surfaces: gravel}",
      "stay: {nights: 3}", "drive: {to: Far Well, distance: 115 km, surfaces: gravel}",
      "stay: {nights: 1}", "drive: {to: Base, distance: 115 km, surfaces: gravel}",
      "stay: {nights: 1}", "drive: {to: Red Tables, distance: 200 km, surfaces: gravel}",
      "stay: {nights: 1}"};
  NeedsAnswer answer = plain_needs(plan);
  answer.turn_back = answers::turn_back_points(answer.planned);
  // On the last leg, left at eight on day 5: 55 km are driven in an hour.
  const answers::Moment opens{.day = 4,
                              .hour = 9,
                              .at = {.from = 2, .to = 0, .share = 55.0 / 115},
                              .done_km = 55,
                              .to_go_km = 60};
  const answers::Window first{
      .from = at_place(0, 8, 0), .last = at_place(2, 12, 1), .decides = water(answer)};
  answer.turn_back.vital = {first, {.from = opens, .last = at_place(4, 10.05, 0)}};
  auto list = rules(answer);
  ASSERT_THAT(list, SizeIs(1));
  EXPECT_FALSE(list[0].opens);
  EXPECT_THAT(list[0].words, ::testing::Not(HasSubstr("opens again")));
  EXPECT_THAT(report::turn_back_list(answer, {}), ::testing::Not(HasSubstr("from day 5")));
  // One on the leg before leads away from Base: it is told.
  answer.turn_back.vital[1] = {.from = after_red_tables(3, 8.5, 27.5), .last = at_place(3, 10, 2)};
  list = rules(answer);
  ASSERT_THAT(list, SizeIs(2));
  EXPECT_TRUE(list[1].opens);
  EXPECT_THAT(report::turn_back_list(answer, {}), HasSubstr("from day 4"));
  // One that ends on the leg beyond Base is told as well, for its end is of a way back.
  answer.turn_back.vital[1] = {.from = opens,
                               .last = {.day = 5,
                                        .hour = 10,
                                        .at = {.from = 0, .to = 1, .share = 0.5},
                                        .done_km = 100,
                                        .to_go_km = 100}};
  EXPECT_THAT(rules(answer), SizeIs(2));
  // The first is told wherever it is.
  answer.turn_back.vital = {{.from = opens, .last = at_place(4, 10.05, 0)}};
  EXPECT_THAT(report::turn_back_list(answer, {}), HasSubstr("from day 5"));
}

TEST(TurnBackRules, SayThatThereNeverIsAWayBack) {
  const auto list = rules(with({}));
  ASSERT_THAT(list, SizeIs(1));
  EXPECT_EQ(list[0].day, 0) << "the day on which Base is left";
  EXPECT_EQ(list[0].hour, 8);
  EXPECT_THAT(list[0].headline,
              HasSubstr("NO WAY BACK AT ANY TIME, from day 1, Mon 01 Mar, 08:00"));
  EXPECT_EQ(turn_back_words(with({})), "");
}

TEST(TurnBackRules, SayThatThereIsNoneAtFirst) {
  const auto list = rules(with({{.from = after_red_tables(3, 9, 10), .last = at_place(3, 14, 2)}}));
  ASSERT_THAT(list, SizeIs(2));
  EXPECT_EQ(list[0].day, 0);
  EXPECT_THAT(list[0].headline, HasSubstr("NO WAY BACK AT FIRST"));
  EXPECT_THAT(list[0].words, HasSubstr("opens on day 4"));
  EXPECT_EQ(list[1].day, 3);
  EXPECT_TRUE(list[1].opens);
}

TEST(TurnBackRules, AreNotNeededWhereTurningBackIsAlwaysPossible) {
  const NeedsAnswer answer = with({{.from = at_place(0, 8, 0), .last = at_place(3, 14, 2)}});
  EXPECT_THAT(rules(answer), IsEmpty());
  EXPECT_THAT(turn_back_words(answer), HasSubstr("possible all the way"));
}

TEST(TurnBackRules, SayWhichReserveIsNotCounted) {
  NeedsAnswer answer = with({{.from = at_place(0, 8, 0), .last = at_place(3, 14, 2)}});
  answer.turn_back.stretches.pop_back();
  EXPECT_THAT(turn_back_words(answer), HasSubstr("nothing was counted, of fuel of truck."));
}

TEST(TurnBackRules, SayThatNoSupplyBehindIsSure) {
  NeedsAnswer answer = with({});
  answer.turn_back.stretches.clear();
  EXPECT_THAT(rules(answer), IsEmpty());
  EXPECT_EQ(turn_back_words(answer),
            "There is no supply to turn back to that is sure: drinking water, fuel of truck.");
}

}  // namespace
}  // namespace drystage
