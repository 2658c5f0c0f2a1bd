// What a reading says of a reserve. The page's script says the same: tests/cli/page_rules_test.cc.
#include "report/page/rules.h"

#include <gtest/gtest.h>

#include <limits>

namespace drystage::report::page {
namespace {

constexpr double endless = std::numeric_limits<double>::infinity();

/// Ten litres a day out of a hundred, and what must be there ten litres below that.
Reserve ten_a_day() {
  Reserve out{.evenings = {}, .holds = 110};
  for (int evening = 0; evening < 6; ++evening) {
    const double plan = 100 - 10.0 * evening;
    out.evenings.push_back(
        {.plan = plan, .must = plan - 10, .use = 10, .once = plan - 20, .back = plan - 15});
  }
  return out;
}

Answer told(const Reserve& reserve, const std::vector<Entry>& typed, std::size_t evening) {
  std::vector<Entry> entries = typed;
  entries.resize(reserve.evenings.size());
  const std::optional<Answer> out = answer(reserve, entries, evening);
  EXPECT_TRUE(out.has_value());
  return out.value_or(Answer{});
}

TEST(PageRules, SayNothingWithoutAReading) {
  EXPECT_FALSE(answer(ten_a_day(), std::vector<Entry>(6), 2).has_value());
}

TEST(PageRules, CompareAReadingWithWhatMustBeThere) {
  EXPECT_EQ(told(ten_a_day(), {{}, {91}}, 1).stand, Stand::above);
  EXPECT_EQ(told(ten_a_day(), {{}, {91}}, 1).spare, 11);
  EXPECT_EQ(told(ten_a_day(), {{}, {81}}, 1).stand, Stand::above);
  EXPECT_EQ(told(ten_a_day(), {{}, {80.9}}, 1).stand, Stand::at);
  EXPECT_EQ(told(ten_a_day(), {{}, {80}}, 1).stand, Stand::at);
  EXPECT_EQ(told(ten_a_day(), {{}, {79.9}}, 1).stand, Stand::below);
}

TEST(PageRules, OnTheLastEveningNothingMustBeThere) {
  Reserve reserve = ten_a_day();
  reserve.evenings.back().must = 0;
  EXPECT_NE(told(reserve, {{}, {}, {}, {}, {}, {0}}, 5).stand, Stand::below);
}

TEST(PageRules, NoReadingIsEnoughWhereNoAmountIs) {
  Reserve reserve = ten_a_day();
  reserve.evenings[1].must = endless;
  const Answer out = told(reserve, {{}, {90}}, 1);
  EXPECT_EQ(out.stand, Stand::below);
  EXPECT_EQ(out.on, Way::shut);
  EXPECT_TRUE(out.again);
}

TEST(PageRules, MoreThanThereIsRoomForIsAMistake) {
  EXPECT_FALSE(told(ten_a_day(), {{111}}, 0).excess);
  EXPECT_TRUE(told(ten_a_day(), {{112}}, 0).excess);
  // Nor is use told from such a reading.
  EXPECT_EQ(told(ten_a_day(), {{900}, {90}}, 1).since, -1);
}

TEST(PageRules, TellUseFromTheReadingBefore) {
  const Answer out = told(ten_a_day(), {{100}, {90}, {78}}, 2);
  EXPECT_EQ(out.since, 1);
  EXPECT_EQ(out.used, 12);
  EXPECT_EQ(out.planned, 10);
  EXPECT_EQ(out.rate, 1.2);
}

TEST(PageRules, PassOverEveningsWithoutAReading) {
  const Answer out = told(ten_a_day(), {{100}, {}, {}, {67}}, 3);
  EXPECT_EQ(out.since, 0);
  EXPECT_EQ(out.used, 33);
  EXPECT_EQ(out.planned, 30);
}

// One litre read wrong must not look like a habit.
TEST(PageRules, GoFurtherBackWhereLittleIsUsed) {
  Reserve reserve = ten_a_day();
  reserve.evenings[1].use = 1;
  const Answer out = told(reserve, {{100}, {90}, {88}}, 2);
  EXPECT_EQ(out.since, 0);
  EXPECT_EQ(out.planned, 11);
  const Answer none = told(reserve, {{}, {90}, {88}}, 2);
  EXPECT_EQ(none.since, 1);
  EXPECT_FALSE(none.rate.has_value());
  EXPECT_FALSE(none.again);
}

TEST(PageRules, SeeALeakWhereThePlanUsesNothing) {
  Reserve reserve = ten_a_day();
  for (Evening& evening : reserve.evenings) evening = {.plan = 100, .must = 20, .use = 0};
  EXPECT_FALSE(told(reserve, {{}, {90}, {85}}, 2).again);
  EXPECT_TRUE(told(reserve, {{}, {90}, {84}}, 2).again);
}

TEST(PageRules, CountWhatWasTakenOn) {
  const Answer out = told(ten_a_day(), {{100}, {90}, {100, 20}}, 2);
  EXPECT_EQ(out.used, 10);
  EXPECT_FALSE(out.asks);
}

TEST(PageRules, AskWhatWasTakenOnAtAStop) {
  Reserve reserve = ten_a_day();
  reserve.evenings[2].takes = true;
  const Answer out = told(reserve, {{100}, {90}, {95}}, 2);
  EXPECT_TRUE(out.asks);
  EXPECT_EQ(out.since, -1);
  EXPECT_FALSE(out.rate.has_value());
  EXPECT_EQ(told(reserve, {{100}, {90}, {95, 15}}, 2).used, 10);
  EXPECT_EQ(told(reserve, {{100}, {90}, {80, 0}}, 2).used, 10);
  // Use since the stop is known all the same.
  EXPECT_EQ(told(reserve, {{100}, {90}, {95}, {85}}, 3).since, 2);
}

TEST(PageRules, AskWhatWasTakenOnWhereThereIsMuchMoreThanBefore) {
  EXPECT_TRUE(told(ten_a_day(), {{80}, {86}}, 1).asks);
  EXPECT_FALSE(told(ten_a_day(), {{80}, {85}}, 1).asks);
}

TEST(PageRules, AskNothingOfABattery) {
  Reserve reserve = ten_a_day();
  reserve.rated = false;
  const Answer out = told(reserve, {{80}, {95}}, 1);
  EXPECT_FALSE(out.asks);
  EXPECT_EQ(out.since, -1);
}

TEST(PageRules, ScaleWhatMustBeThereTomorrowUpAndNeverDown) {
  // By the plan 70 L must be there on the evening of day 2.
  EXPECT_EQ(told(ten_a_day(), {{100}, {88}}, 1).tomorrow, 84);
  EXPECT_EQ(told(ten_a_day(), {{100}, {87.5}}, 1).tomorrow, 88);  // 87.5, to the next step
  EXPECT_EQ(told(ten_a_day(), {{100}, {92}}, 1).tomorrow, 70);
  EXPECT_EQ(told(ten_a_day(), {{}, {92}}, 1).tomorrow, 70);
  EXPECT_EQ(told(ten_a_day(), {{}, {}, {}, {}, {}, {50}}, 5).tomorrow, 0);
}

TEST(PageRules, SayWhichWaysAreOpen) {
  // On as planned 80 L, on at once 70 L, back 75 L.
  const Answer enough = told(ten_a_day(), {{}, {80}}, 1);
  EXPECT_EQ(enough.on, Way::open);
  EXPECT_EQ(enough.once, Way::open);
  EXPECT_EQ(enough.back, Way::open);
  const Answer low = told(ten_a_day(), {{}, {74}}, 1);
  EXPECT_EQ(low.on, Way::shut);
  EXPECT_EQ(low.once, Way::open);
  EXPECT_EQ(low.back, Way::shut);
  // A fifth more than planned is used: 96 L, 84 L and 90 L.
  const Answer thirsty = told(ten_a_day(), {{100}, {88}}, 1);
  EXPECT_EQ(thirsty.on, Way::rate);
  EXPECT_EQ(thirsty.once, Way::open);
  EXPECT_EQ(thirsty.back, Way::rate);
  Reserve no_way_back = ten_a_day();
  no_way_back.evenings[1].back = endless;
  EXPECT_EQ(told(no_way_back, {{}, {100}}, 1).back, Way::shut);
}

TEST(PageRules, HaveThePlanRunAgainWhenUseIsMoreThanAQuarterOff) {
  EXPECT_FALSE(told(ten_a_day(), {{110}, {97.5}}, 1).again);
  EXPECT_TRUE(told(ten_a_day(), {{110}, {97.4}}, 1).again);
  EXPECT_FALSE(told(ten_a_day(), {{110}, {102.5}}, 1).again);
  EXPECT_TRUE(told(ten_a_day(), {{110}, {102.6}}, 1).again);
  EXPECT_TRUE(told(ten_a_day(), {{}, {79}}, 1).again);
}

TEST(PageRules, AWayIsAsOpenAsItsWorstReserve) {
  EXPECT_EQ(together({Way::open, Way::open}), Way::open);
  EXPECT_EQ(together({Way::open, Way::rate}), Way::rate);
  EXPECT_EQ(together({Way::unknown, Way::rate}), Way::unknown);
  EXPECT_EQ(together({Way::shut, Way::unknown}), Way::shut);
  EXPECT_EQ(together({}), Way::unknown);
}

}  // namespace
}  // namespace drystage::report::page
