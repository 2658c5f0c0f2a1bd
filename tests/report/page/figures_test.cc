// The figures that readings are compared with, as they are read and as the script has them.
#include "report/page/figures.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "support/card_answer.h"
#include "support/needs_answer.h"

namespace drystage::report::page {
namespace {

using support::need_of;
using ::testing::StartsWith;

constexpr auto metric = units::System::metric;

CardAnswer small_answer() {
  CardAnswer out;
  out.needs = support::plain_needs(support::three_places());
  return out;
}

/// Drinking water, which comes first.
Shown water(const CardAnswer& answer, units::System system = metric) {
  return shown_reserves(answer, system).front();
}

TEST(PageFigures, AreThoseOfTheNextMorning) {
  CardAnswer answer = small_answer();
  need_of(answer.needs, 2, "drinking_water") = {.must_have = 31.2, .has = 48.9};
  const Shown shown = water(answer);
  EXPECT_EQ(shown.name, "drinking water");
  EXPECT_EQ(shown.written[2].plan, "48 L");
  EXPECT_EQ(shown.written[2].must, "32 L");
  EXPECT_EQ(shown.rules.evenings[2].plan, 48);
  EXPECT_EQ(shown.rules.evenings[2].must, 32);
  EXPECT_EQ(shown.written[1].must, "10 L");
}

TEST(PageFigures, ATenthDecidesWhereWholeOnesWouldMislead) {
  CardAnswer answer = small_answer();
  need_of(answer.needs, 1, "drinking_water") = {.must_have = 31.2, .has = 31.6};
  need_of(answer.needs, 2, "drinking_water") = {.must_have = 31.23, .has = 31.26};
  need_of(answer.needs, 3, "drinking_water") = {.must_have = 31.2, .has = 30.6};
  const Shown shown = water(answer);
  EXPECT_EQ(shown.written[1].plan + " " + shown.written[1].must, "31.6 L 31.2 L");
  EXPECT_EQ(shown.written[2].plan + " " + shown.written[2].must, "31.3 L 31.3 L");
  EXPECT_EQ(shown.written[3].plan + " " + shown.written[3].must, "30 L 32 L");
  EXPECT_TRUE(shown.written[3].lacks);
  EXPECT_FALSE(shown.written[2].lacks);
}

TEST(PageFigures, SayThatNoAmountIsEnoughAndWhatCannotBeHeld) {
  CardAnswer answer = small_answer();
  need_of(answer.needs, 1, "drinking_water").must_have = std::numeric_limits<double>::infinity();
  need_of(answer.needs, 2, "drinking_water") = {.must_have = 500, .has = 20, .fits = false};
  const Shown shown = water(answer);
  EXPECT_EQ(shown.written[1].must, "no amount is enough");
  EXPECT_TRUE(std::isinf(shown.rules.evenings[1].must));
  EXPECT_EQ(shown.written[2].must, "500 L, more than can be held");
}

TEST(PageFigures, OnTheLastEveningNothingMustBeThere) {
  const Shown shown = water(small_answer());
  EXPECT_EQ(shown.written.back().must, "-");
  EXPECT_EQ(shown.rules.evenings.back().must, 0);
  // Four litres a day out of sixty.
  EXPECT_EQ(shown.written.back().plan, "36 L");
  EXPECT_NEAR(shown.rules.evenings[0].use, 4, 1e-6);
}

TEST(PageFigures, AreInTheUnitsOfTheReader) {
  CardAnswer answer = small_answer();
  need_of(answer.needs, 1, "drinking_water") = {.must_have = 37.9, .has = 80};
  const Shown shown = water(answer, units::System::us);
  EXPECT_EQ(shown.written[1].must, "11 US gal");
  EXPECT_NEAR(shown.rules.evenings[1].use, 4 / 3.785411784, 1e-6);
}

// What is there in the evening is what was there before, less use, unless the plan takes some on.
TEST(PageFigures, OfShippedPlansFallByUseAloneBetweenStops) {
  for (const CardAnswer& answer : support::shipped_answers()) {
    std::size_t asked = 0;
    for (const Shown& shown : shown_reserves(answer, metric)) {
      ASSERT_EQ(shown.rules.evenings.size(), answer.needs.planned.record.days() + 1);
      if (!shown.rules.rated) continue;
      for (std::size_t evening = 1; evening < shown.rules.evenings.size(); ++evening) {
        const Evening& before = shown.rules.evenings[evening - 1];
        const Evening& now = shown.rules.evenings[evening];
        if (now.takes) continue;
        ++asked;
        EXPECT_NEAR(now.plan, before.plan - before.use, 1.01)
            << answer.needs.planned.plan.trip.title << ", " << shown.name << ", " << evening;
      }
    }
    EXPECT_GT(asked, 0U);
  }
}

TEST(PageFigures, HaveTheWaysOutOfWhatLifeDependsOn) {
  const CardAnswer& answer = support::desert_crossing();
  for (const Shown& shown : shown_reserves(answer, metric)) {
    EXPECT_EQ(shown.vital, shown.way.has_value()) << shown.name;
    if (!shown.way) continue;
    const answers::WaysOut& ways = answer.ways_out.ways(4, *shown.way);
    EXPECT_EQ(shown.rules.evenings[4].once, std::ceil(ways.at_once.least - 1e-6));
    ASSERT_TRUE(ways.back.has_value());
    EXPECT_EQ(shown.rules.evenings[4].back, std::ceil(ways.back->least - 1e-6));
    EXPECT_THAT(least_number(answer, shown, ways.back->least, metric),
                StartsWith(std::to_string(static_cast<int>(std::ceil(ways.back->least - 1e-6)))));
    // Before setting out there is none yet.
    EXPECT_TRUE(std::isinf(shown.rules.evenings[0].back));
  }
}

}  // namespace
}  // namespace drystage::report::page
