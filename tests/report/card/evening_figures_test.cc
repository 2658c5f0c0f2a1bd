// What stands beside the empty boxes: the midnight that ends a day is the morning of the next.
#include "report/card/evening_figures.h"

#include <gtest/gtest.h>

#include <limits>

#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using report::evening_figures;
using report::EveningFigures;
using report::NeedsAnswer;
using support::need_of;
using support::plain_needs;
using support::three_places;

EveningFigures water(const NeedsAnswer& answer, std::size_t evening) {
  return evening_figures(answer, 0, evening, units::System::metric);
}

TEST(EveningFigures, AreThoseOfTheNextMorning) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 2, "drinking_water") = {.must_have = 31.2, .has = 48.9};
  EXPECT_EQ(water(answer, 2).must_have, "32");
  EXPECT_EQ(water(answer, 2).plan, "48");
  EXPECT_EQ(water(answer, 1).must_have, "10");
  EXPECT_EQ(water(answer, 3).must_have, "10");
}

TEST(EveningFigures, BeginWithTheMorningOfTheFirstDay) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 0, "drinking_water") = {.must_have = 55, .has = 60};
  EXPECT_EQ(water(answer, 0).must_have, "55.0");
  EXPECT_EQ(report::evenings(answer), answer.trial.record.days() + 1);
}

TEST(EveningFigures, EndWithWhatIsLeft) {
  const NeedsAnswer answer = plain_needs(three_places());
  const std::size_t days = answer.trial.record.days();
  const auto reserve =
      static_cast<std::size_t>(support::reserve_index(answer.trial.course, "drinking_water"));
  // Four litres a day out of sixty, filled up nowhere.
  ASSERT_NEAR(answer.trial.record.reserve(days - 1, reserve).end,
              60 - 4 * static_cast<double>(days), 1e-6);
  const EveningFigures last = water(answer, days);
  EXPECT_EQ(last.must_have, "-");
  EXPECT_EQ(last.plan, std::to_string(60 - 4 * days));
  EXPECT_FALSE(last.lacks);
}

TEST(EveningFigures, TellWhereThePlanHasTooLittle) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 1, "drinking_water") = {.must_have = 50, .has = 49.96};
  EXPECT_TRUE(water(answer, 1).lacks);
  EXPECT_EQ(water(answer, 1).plan, "49.9");
  EXPECT_EQ(water(answer, 1).must_have, "50.0");
  EXPECT_FALSE(water(answer, 0).lacks);
}

TEST(EveningFigures, SayThatNoAmountIsEnough) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 1, "drinking_water").must_have = std::numeric_limits<double>::infinity();
  EXPECT_EQ(water(answer, 1).must_have, "no amount is enough");
  EXPECT_TRUE(water(answer, 1).lacks);
}

TEST(EveningFigures, MarkWhatCannotBeHeld) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 1, "drinking_water") = {.must_have = 500, .has = 20, .fits = false};
  EXPECT_EQ(water(answer, 1).must_have, "+500");
}

TEST(EveningFigures, AreOfWhatLifeHangsOnAlone) {
  const NeedsAnswer answer = plain_needs(three_places());
  std::vector<std::string> names;
  for (const std::size_t i : report::life_supporting(answer)) {
    names.push_back(
        answer.trial.course.reserves[static_cast<std::size_t>(answer.needs.reserves[i])].name);
  }
  EXPECT_EQ(names, (std::vector<std::string>{"drinking_water", "fuel:truck"}));
}

TEST(EveningFigures, AreAlsoOfWhatThePlanFails) {
  const NeedsAnswer healthy = plain_needs(three_places());
  EXPECT_EQ(report::reserves_with_boxes(healthy), report::life_supporting(healthy));
  NeedsAnswer lacking = plain_needs(three_places());
  need_of(lacking, 2, "food").must_have = 21;
  ASSERT_EQ(report::reserves_with_boxes(lacking).size(),
            report::life_supporting(lacking).size() + 1);
  const auto reserve = lacking.needs.reserves[report::reserves_with_boxes(lacking).back()];
  EXPECT_EQ(lacking.trial.course.reserves[static_cast<std::size_t>(reserve)].name, "food");
}

}  // namespace
}  // namespace drystage
