// What stands beside the empty boxes: the midnight that ends a day is the morning of the next.
#include "report/card/evening_figures.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>
#include <string>
#include <vector>

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
  EXPECT_EQ(water(answer, 0).must_have, "55");
  EXPECT_EQ(report::evenings(answer), answer.planned.record.days() + 1);
}

TEST(EveningFigures, EndWithWhatIsLeft) {
  const NeedsAnswer answer = plain_needs(three_places());
  const std::size_t days = answer.planned.record.days();
  const auto reserve =
      static_cast<std::size_t>(support::reserve_index(answer.planned.course, "drinking_water"));
  // Four litres a day out of sixty, filled up nowhere.
  ASSERT_NEAR(answer.planned.record.reserve(days - 1, reserve).end,
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
  EXPECT_EQ(water(answer, 1).plan, "49");
  EXPECT_EQ(water(answer, 1).must_have, "50");
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
        answer.planned.course.reserves[static_cast<std::size_t>(answer.needs.reserves[i])].name);
  }
  EXPECT_EQ(names, (std::vector<std::string>{"drinking_water", "fuel:truck"}));
}

TEST(EveningFigures, HaveATenthWhereItDecides) {
  NeedsAnswer answer = plain_needs(three_places());
  need_of(answer, 1, "drinking_water") = {.must_have = 49.2, .has = 49.8};
  EXPECT_EQ(water(answer, 1).plan, "49.8");
  EXPECT_EQ(water(answer, 1).must_have, "49.2");
  // By less than a tenth: the same.
  need_of(answer, 1, "drinking_water") = {.must_have = 49.22, .has = 49.28};
  EXPECT_EQ(water(answer, 1).plan, "49.3");
  EXPECT_EQ(water(answer, 1).must_have, "49.3");
}

/// Three places with a cabinet of ice, and of the food and the cabinet what the card shows.
struct Small {
  support::PlanText plan = three_places();
  NeedsAnswer answer;
  std::vector<std::string> names;

  Small() {
    plan.cold = {"{name: box, volume: 30 L, ice: 6 kg, heat_leak: 0.5 W/K}"};
    plan.food = {"{item: stores, kept: dry, mass: 10 kg, meals: 29}"};
    plan.margins.emplace_back("food: 20 meals");
    answer = plain_needs(plan);
    for (const std::size_t r : report::small_reserves(answer.planned)) {
      names.push_back(answer.planned.course.reserves[r].name);
    }
  }

  [[nodiscard]] report::SmallFigure of(const std::string& name, std::size_t evening) const {
    const auto r = static_cast<std::size_t>(support::reserve_index(answer.planned.course, name));
    return report::small_figure(answer, r, evening, units::System::metric);
  }
};

TEST(SmallFigures, AreOfAllThatLifeDoesNotHangOn) {
  EXPECT_THAT(Small().names, ::testing::UnorderedElementsAre("food", "cold:box"));
}

TEST(SmallFigures, AreWhatIsLeftAtNightAndMarkedBelowTheMargin) {
  // One person of three meals a day, 29 at first, twenty to be left.
  const Small small;
  EXPECT_EQ(small.of("food", 1).plan, "26");
  EXPECT_FALSE(small.of("food", 3).low);
  EXPECT_EQ(small.of("food", 4).plan, "17");
  EXPECT_TRUE(small.of("food", 4).low);
  // Before setting out it is what the first morning has.
  EXPECT_EQ(small.of("food", 0).plan, "20");
}

TEST(SmallFigures, OfACabinetAreTheWarmestOfTheDayRoundedUp) {
  const Small small;
  const auto r =
      static_cast<std::size_t>(support::reserve_index(small.answer.planned.course, "cold:box"));
  EXPECT_EQ(small.of("cold:box", 0).plan, "");
  for (std::size_t evening = 1; evening <= 6; ++evening) {
    const double warmest_c = small.answer.planned.record.reserve(evening - 1, r).lowest;
    const double shown_c = std::stod(small.of("cold:box", evening).plan);
    EXPECT_GE(shown_c, warmest_c - 1e-6);
    EXPECT_LT(shown_c, warmest_c + 1);
  }
}

}  // namespace
}  // namespace drystage
