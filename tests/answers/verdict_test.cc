#include "answers/verdict.h"

#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage::answers {
namespace {

using engine::Sense;
using support::PlanText;

/// Two reserves over two days, with nothing wrong.
struct Case {
  engine::CourseBase course;
  engine::Record record;

  Case() {
    for (const char* name : {"first", "second"}) {
      engine::ReserveInfo info;
      info.name = name;
      course.reserves.push_back(info);
    }
    record.reserves = 2;
    record.reserve_days.resize(4);
    for (engine::ReserveDay& day : record.reserve_days) {
      day.lowest = day.left = 10;
      day.slack = 5;
    }
  }

  engine::ReserveDay& at(std::size_t day, std::size_t reserve) {
    return record.reserve_days[day * 2 + reserve];
  }

  void breach(std::size_t day, std::size_t reserve, double hour) {
    at(day, reserve).breach_h = hour;
    at(day, reserve).slack = -1;
  }

  [[nodiscard]] Verdict judged() const { return verdict(course, record); }
};

TEST(Verdict, HoldsWhenNothingIsBroken) {
  const Verdict verdict = Case().judged();
  EXPECT_TRUE(verdict.holds);
  EXPECT_FALSE(verdict.first_breach);
}

TEST(Verdict, NamesTheEarliestDayWhicheverReserveItIs) {
  Case one;
  one.breach(1, 0, 2);
  one.breach(0, 1, 20);
  const Verdict verdict = one.judged();
  EXPECT_FALSE(verdict.holds);
  EXPECT_EQ(verdict.first_breach->day, 0);
  EXPECT_EQ(verdict.first_breach->reserve, 1);
}

TEST(Verdict, NamesTheEarliestHourOfADay) {
  Case one;
  one.breach(0, 0, 20);
  one.breach(0, 1, 19);
  EXPECT_EQ(one.judged().first_breach->reserve, 1);
}

TEST(Verdict, NamesTheFirstReserveOnATie) {
  Case one;
  one.breach(0, 0, 20);
  one.breach(0, 1, 20);
  EXPECT_EQ(one.judged().first_breach->reserve, 0);
}

TEST(Verdict, CountsABreachAtMidnight) {
  Case one;
  one.breach(0, 1, 0);
  EXPECT_FALSE(one.judged().holds);
}

TEST(Verdict, TakesTheLowestOfWhatIsKeptAboveAndTheHighestOfWhatIsKeptBelow) {
  Case one;
  one.course.reserves[1].sense = Sense::keep_below;
  one.at(1, 0).lowest = 3;
  one.at(1, 1).lowest = 17;
  const Verdict verdict = one.judged();
  EXPECT_EQ(verdict.reserves[0].lowest, 3);
  EXPECT_EQ(verdict.reserves[0].lowest_day, 1);
  EXPECT_EQ(verdict.reserves[1].lowest, 17);
}

TEST(Verdict, HoldsWhenAReserveComesDownExactlyToItsMargin) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 40 L, filled: 40 L, for: drinking}"};
  plan.margins = {"drinking_water: 20 L"};
  EXPECT_TRUE(support::travel(plan).verdict.holds);  // five days at 4 L
  plan.margins = {"drinking_water: 20.001 L"};
  EXPECT_FALSE(support::travel(plan).verdict.holds);
}

TEST(Verdict, APlanThatRunsShortDoesNotHoldThoughItAsksForNoMargin) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 20 L, filled: 18 L, for: drinking}"};
  const support::Trip trip = support::travel(plan);
  ASSERT_GT(trip.outlook("drinking_water").short_of, 1.9);
  EXPECT_FALSE(trip.verdict.holds);
  EXPECT_EQ(trip.verdict.first_breach->day, 4);
  EXPECT_NEAR(trip.verdict.first_breach->hour, 12, 1e-9);
}

}  // namespace
}  // namespace drystage::answers
