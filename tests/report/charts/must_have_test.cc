// How what must be on board is joined from one morning to the next.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "report/charts/charted_reserve.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage::report::must_have_test {
namespace {

using answers::Level;
using support::need_of;
using support::PlanText;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double day_h = 24;
constexpr double tiny = 1e-9;

PlanText staying(int nights) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  plan.places = {PlanText::place("Base", "air", "drinking_water: {}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(nights) + "}"};
  return plan;
}

/// What the plan has of drinking water each morning, with so much of it to spare.
void spare(NeedsAnswer& answer, double slack) {
  const int reserve = support::reserve_index(answer.planned.course, "drinking_water");
  for (std::size_t day = 0; day < answer.planned.record.days(); ++day) {
    answers::Need& need = need_of(answer, day, "drinking_water");
    need.has = answer.planned.record.reserve(day, static_cast<std::size_t>(reserve)).start;
    need.must_have = need.has - slack;
  }
}

struct Lines {
  std::vector<Level> levels;
  std::vector<std::vector<MustHave>> lines;
};

Lines lines(const NeedsAnswer& answer, const DayPiece& piece) {
  const auto reserve =
      static_cast<std::size_t>(support::reserve_index(answer.planned.course, "drinking_water"));
  Lines out{.levels = answers::levels(answer.planned).reserves[reserve], .lines = {}};
  out.lines = must_have_lines(answer.planned, out.levels,
                              mornings_of(answer.planned, &answer.needs, reserve), reserve, piece);
  return out;
}

Lines lines(const NeedsAnswer& answer) {
  return lines(answer, {.first = 0, .count = static_cast<int>(answer.planned.record.days())});
}

TEST(MustHave, StaysAsFarBelowThePlanAsTheMorningsDo) {
  NeedsAnswer answer = support::plain_needs(staying(4));
  spare(answer, 7);
  const Lines got = lines(answer);
  ASSERT_THAT(got.lines, SizeIs(1));
  EXPECT_EQ(got.lines[0].front().hour, 0);
  EXPECT_EQ(got.lines[0].back().hour, 3 * day_h);
  std::size_t at = 0;
  for (const Level& level : got.levels) {
    if (level.hour > 3 * day_h) break;
    while (at + 1 < got.lines[0].size() && got.lines[0][at].hour < level.hour) ++at;
    EXPECT_NEAR(got.lines[0][at].level, level.level - 7, tiny) << level.hour;
  }
}

TEST(MustHave, IsNotJoinedWhereItMustLastToAnotherMoment) {
  NeedsAnswer answer = support::plain_needs(staying(4));
  spare(answer, 7);
  for (const std::size_t day : {2U, 3U}) need_of(answer, day, "drinking_water").until_day = 4;
  const Lines got = lines(answer);
  ASSERT_THAT(got.lines, SizeIs(2));
  EXPECT_EQ(got.lines[0].back().hour, day_h);
  EXPECT_EQ(got.lines[1].front().hour, 2 * day_h);
}

TEST(MustHave, IsNotJoinedWhereItRises) {
  NeedsAnswer answer = support::plain_needs(staying(4));
  spare(answer, 40);
  for (const std::size_t day : {2U, 3U}) need_of(answer, day, "drinking_water").must_have += 30;
  const Lines got = lines(answer);
  ASSERT_THAT(got.lines, SizeIs(2));
  EXPECT_EQ(got.lines[0].back().hour, day_h);
  EXPECT_EQ(got.lines[1].front().hour, 2 * day_h);
}

TEST(MustHave, IsNotJoinedAcrossWhatCannotBeMet) {
  NeedsAnswer answer = support::plain_needs(staying(5));
  spare(answer, 7);
  need_of(answer, 1, "drinking_water").must_have = std::numeric_limits<double>::infinity();
  need_of(answer, 1, "drinking_water").fits = false;
  Lines got = lines(answer);
  ASSERT_THAT(got.lines, SizeIs(1));
  EXPECT_EQ(got.lines[0].front().hour, 2 * day_h);
  need_of(answer, 3, "drinking_water").fits = false;
  EXPECT_THAT(lines(answer).lines, IsEmpty());
}

TEST(MustHave, IsNotJoinedWhereSomethingIsTakenOn) {
  PlanText plan = staying(2);
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}", "resupply: {drinking_water: fill}",
                    "stay: {nights: 2}"};
  NeedsAnswer answer = support::plain_needs(plan);
  spare(answer, 7);
  const int reserve = support::reserve_index(answer.planned.course, "drinking_water");
  std::size_t filled = 0;
  while (answer.planned.record.reserve(filled, static_cast<std::size_t>(reserve)).gained <= 0) {
    ++filled;
  }
  for (const auto& line : lines(answer).lines) {
    const double morning = day_h * static_cast<double>(filled);
    EXPECT_TRUE(line.back().hour <= morning || line.front().hour >= morning + day_h);
  }
}

TEST(MustHave, IsStraightWhereThePlanRunsDry) {
  PlanText plan = staying(4);
  plan.containers = {"{name: can, holds: 60 L, filled: 6 L, for: drinking}"};
  NeedsAnswer answer = support::plain_needs(plan);
  spare(answer, -20);
  for (const auto& line : lines(answer).lines) {
    for (std::size_t i = 1; i < line.size(); ++i) {
      if (line[i - 1].hour < day_h) continue;
      EXPECT_EQ(line[i].hour - line[i - 1].hour, day_h);
    }
  }
}

TEST(MustHave, ReachesOneMorningBeyondAPieceOnEitherSide) {
  NeedsAnswer answer = support::plain_needs(staying(9));
  spare(answer, 7);
  const Lines got = lines(answer, {.first = 3, .count = 3});
  ASSERT_THAT(got.lines, SizeIs(1));
  EXPECT_EQ(got.lines[0].front().hour, 2 * day_h);
  EXPECT_EQ(got.lines[0].back().hour, 6 * day_h);
}

TEST(MustHave, HasNoMorningsWithoutNeeds) {
  const NeedsAnswer answer = support::plain_needs(staying(2));
  EXPECT_THAT(mornings_of(answer.planned, nullptr, 0), IsEmpty());
}

}  // namespace
}  // namespace drystage::report::must_have_test
