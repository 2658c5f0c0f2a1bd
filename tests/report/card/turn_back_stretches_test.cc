// Of which stretch the lines about turning back speak where reserves have several.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "answers/onward/turn_back.h"
#include "report/card/rules.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using report::NeedsAnswer;
using report::turn_back_rules;
using support::PlanText;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr units::System metric = units::System::metric;

TEST(TurnBackRules, TellTheWayBackOfTheReserveThatDecides) {
  PlanText plan = support::three_places();
  plan.places[1] = PlanText::place("Red Tables", "air", "diesel: {}");
  NeedsAnswer answer = support::plain_needs(plan);
  answer.turn_back = answers::turn_back_points(answer.planned);
  // At 55 km/h from eight on: 41.25 km after Red Tables, which has fuel, 241.25 after Base, which
  // has water.
  const answers::Moment last = support::after_red_tables(3, 8.75, 41.25);
  const auto words_where = [&](const char* reserve) {
    answer.turn_back.vital = {{.from = support::at_place(0, 8, 0), .last = last}};
    answer.turn_back.vital[0].decides = support::reserve_index(answer.planned.course, reserve);
    const auto rules = turn_back_rules(answer, metric);
    EXPECT_THAT(rules, SizeIs(1));
    return rules.empty() ? "" : rules.front().words;
  };
  // What must be driven is rounded up.
  EXPECT_THAT(words_where("fuel:truck"), HasSubstr("Back to Red Tables it is 42 km "));
  EXPECT_THAT(words_where("drinking_water"), HasSubstr("Back to Base it is 242 km "));
}

TEST(TurnBackRules, BeginWithTheFirstSupplyOfWhatLifeHangsOn) {
  NeedsAnswer answer = support::plain_needs(support::three_places());
  answers::SupplyStretch water = support::stretch_of(answer, "drinking_water");
  water.from_place = 1;
  water.leaves = support::at_place(3, 8, 1);
  answer.turn_back.stretches = {support::stretch_of(answer, "food"), water};
  answer.turn_back.vital = {{.from = water.leaves, .last = support::at_place(3, 14, 2)}};
  // That food could be had at Base says nothing of the way back with water.
  EXPECT_THAT(turn_back_rules(answer, metric), IsEmpty());
  EXPECT_THAT(report::turn_back_words(answer), HasSubstr("possible all the way"));
}

}  // namespace
}  // namespace drystage
