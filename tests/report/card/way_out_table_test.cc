// The ways on from each evening, as they stand on the sheet: figures rounded up, where they lead,
// and nothing that is cut or meets.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "report/card/writers.h"
#include "support/card_answer.h"
#include "support/card_pages.h"
#include "support/convoy.h"
#include "support/needs_answer.h"

namespace drystage {
namespace {

using report::CardAnswer;
using support::card_answer;
using support::expect_faultless;
using support::PlanText;
using ::testing::AllOf;
using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::Not;

std::string words_of(const CardAnswer& answer, const drawing::Paper& paper = drawing::a4,
                     units::System system = units::System::metric) {
  return support::with_plain_blanks(
      support::all_words(support::part_pages(report::write_way_out, answer, paper, system)));
}

/// The ways of water on the evening of a day, to be changed.
answers::WaysOut& water(CardAnswer& answer, std::size_t day) {
  return answer.ways_out.table[day * answer.ways_out.reserves.size()];
}

TEST(WayOutTable, HasEachEveningsFiguresRoundedUp) {
  CardAnswer answer = card_answer(support::three_places());
  ASSERT_EQ(answer.needs.planned.course
                .reserves[static_cast<std::size_t>(answer.ways_out.reserves.front())]
                .name,
            "drinking_water");
  water(answer, 1) = {
      .at_once = {.least = 20.1, .bare = 12.01, .fits = true, .place = 2, .day = 1, .km = 115},
      .back = answers::WayOut{
          .least = 190.5, .bare = 44.1, .fits = false, .place = 0, .day = 1, .km = 199.6}};
  for (const auto& paper : {drawing::a4, drawing::letter}) {
    const std::string words = words_of(answer, paper);
    EXPECT_THAT(words, AllOf(HasSubstr("The way out"), HasSubstr("Drinking water, L"),
                             HasSubstr("21 (13)"), HasSubstr("+191 (45)"),
                             HasSubstr("Far Well 115 km"), HasSubstr("Base 200 km")));
  }
}

TEST(WayOutTable, SaysWhereNoWayIs) {
  CardAnswer answer = card_answer(support::three_places());
  water(answer, 1) = {.as_planned = {},
                      .at_once = {.least = std::numeric_limits<double>::infinity(),
                                  .bare = 0,
                                  .fits = false,
                                  .place = -1,
                                  .day = 3,
                                  .km = 115},
                      .back = std::nullopt};
  water(answer, 2).at_once = {
      .least = 8.04, .bare = 5, .fits = true, .place = 2, .day = 1, .km = 80};
  EXPECT_THAT(words_of(answer), AllOf(HasSubstr("no amount"), HasSubstr("9 (5)"),
                                      HasSubstr("the end of the trip 115 km"),
                                      HasSubstr("Far Well 80 km"), HasSubstr("no sure supply")));
}

TEST(WayOutTable, SaysWhereAnotherRoadLeadsBackAndWhereToWait) {
  CardAnswer answer = card_answer(support::three_places());
  water(answer, 1).back = answers::WayOut{
      .least = 10, .bare = 5, .fits = true, .place = 0, .day = 1, .km = 90, .own_road = true};
  water(answer, 2).back =
      answers::WayOut{.least = 10, .bare = 5, .fits = true, .place = 1, .day = 2, .km = 0};
  EXPECT_THAT(words_of(answer),
              AllOf(HasSubstr("Base 90 km, in part by another road than you came"),
                    HasSubstr("wait at Red Tables")));
}

TEST(WayOutTable, IsInTheUnitsOfTheReader) {
  EXPECT_THAT(words_of(card_answer(support::three_places()), drawing::a4, units::System::us),
              AllOf(HasSubstr("US gal"), HasSubstr(" mi"), Not(HasSubstr(" km"))));
}

TEST(WayOutTable, NamesTheReservesWhereTheyLeadElsewhere) {
  CardAnswer answer = card_answer(support::three_places());
  for (std::size_t day = 1; day < 4; ++day) {
    water(answer, day).back = answers::WayOut{.least = 10, .bare = 5, .place = 1, .km = 50};
    water(answer, day).back->taking_at = {1};
  }
  EXPECT_THAT(words_of(answer),
              AllOf(HasSubstr("drinking water: Red Tables 50 km; fuel of truck: Base 200 km"),
                    HasSubstr("Figures count on what you take on the way: drinking water at "
                              "Red Tables.")));
}

TEST(WayOutTable, SaysOnceOnWhatItsFiguresCount) {
  CardAnswer answer = card_answer(support::three_places());
  EXPECT_THAT(words_of(answer), Not(HasSubstr("count on")));
  for (std::size_t day = 1; day < 4; ++day) {
    for (std::size_t i = 0; i < answer.ways_out.reserves.size(); ++i) {
      answer.ways_out.table[day * answer.ways_out.reserves.size() + i].at_once.taking_at = {1};
    }
  }
  for (const auto& paper : {drawing::a4, drawing::letter}) {
    const std::string words = words_of(answer, paper);
    const std::string taken = "drinking water and diesel at Red Tables.";
    EXPECT_THAT(words, HasSubstr("count on what you take on the way: " + taken));
    EXPECT_EQ(words.find(taken), words.rfind(taken));
  }
}

TEST(WayOutTable, ExplainsTheSignsThatStandInIt) {
  CardAnswer answer = card_answer(support::three_places());
  EXPECT_THAT(words_of(answer), Not(AnyOf(HasSubstr("+"), HasSubstr("A dash"))));
  water(answer, 1).back = std::nullopt;
  water(answer, 2).at_once.fits = false;
  EXPECT_THAT(words_of(answer), AllOf(HasSubstr("A dash (-): no sure supply."),
                                      HasSubstr("+: more than can be held.")));
}

TEST(WayOutTable, SaysWhyAtOnceTakesMoreFuelThanMustHave) {
  const std::string why = "On at once can take more fuel";
  CardAnswer answer = card_answer(support::three_places());
  const std::size_t count = answer.ways_out.reserves.size();
  ASSERT_EQ(count, 2U);
  for (std::size_t day = 1; day < answer.needs.planned.record.days(); ++day) {
    answers::WaysOut& fuel = answer.ways_out.table[day * count + 1];
    fuel.at_once.least = fuel.as_planned.least;
  }
  EXPECT_THAT(words_of(answer), Not(HasSubstr(why)));
  answer.ways_out.table[count + 1].at_once.least += 2;
  EXPECT_THAT(words_of(answer), HasSubstr(why));
  answer.ways_out.table[count + 1].at_once.shut_place = 2;
  EXPECT_THAT(words_of(answer), Not(HasSubstr(why)));
}

TEST(WayOutTable, SaysWhereComingEarlyFindsAPlaceShut) {
  CardAnswer answer = card_answer(support::three_places());
  answers::WayOut& once = water(answer, 1).at_once;
  once.least = water(answer, 1).as_planned.least + 5;
  once.shut_place = 2;
  once.shut_day = 1;
  EXPECT_THAT(words_of(answer),
              HasSubstr("Night 1: at once takes more: Far Well is shut on day 2."));
}

TEST(WayOutTable, IsLeftOutWhereNothingIsDriven) {
  EXPECT_THAT(words_of(card_answer(PlanText{})), Not(HasSubstr("The way out")));
}

TEST(WayOutTable, HasRoomForManyReservesWithLongNames) {
  PlanText plan = support::three_places();
  plan.vehicles =
      support::lorries("an exceedingly long lorry of the expedition's northern party", 6);
  const CardAnswer answer = card_answer(plan);
  expect_faultless(report::write_way_out, answer);
  EXPECT_THAT(words_of(answer), HasSubstr("northern party 6"));
}

}  // namespace
}  // namespace drystage
