// Days across a chart: pieces of a trip, midnights, and the labels below.
#include "report/charts/day_axis.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "report/charts/picture.h"
#include "support/charts.h"
#include "support/overlaps.h"
#include "support/trip.h"

namespace drystage::report {
namespace {

using support::PlanText;
using support::words_of;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

answers::PlanRun trip_of(int days) {
  PlanText plan;
  plan.itinerary = {"{at: Base}", "stay: {nights: " + std::to_string(days) + "}"};
  return support::travel(plan);
}

/// What stands below a chart of so many days, from Monday 1 March 2027, so wide.
std::vector<drawing::Mark> labels(int days, double width_pt) {
  static const drawing::Typesetter typesetter;
  const answers::PlanRun planned = trip_of(days);
  drawing::Plot plot({.x = 20, .y = 0, .width = width_pt, .height = 50}, 0, 24.0 * days, 0, 1);
  day_labels(plot, typesetter, planned, {.first = 0, .count = days}, 55, width_pt + 40);
  return std::move(plot).marks();
}

TEST(DayList, NamesRangesAndSingleDays) {
  EXPECT_EQ(day_list({}), "");
  EXPECT_EQ(day_list({2}), "day 3");
  EXPECT_EQ(day_list({2, 3}), "days 3 and 4");
  EXPECT_EQ(day_list({2, 3, 4, 7}), "days 3 to 5 and 8");
  EXPECT_EQ(day_list({0, 2, 3, 4, 7, 9, 10, 11}), "days 1, 3 to 5, 8 and 10 to 12");
  EXPECT_EQ(day_list({0, 1, 2}), "days 1 to 3");
}

TEST(DayAxis, WritesEveryDateWhereThereIsRoom) {
  const std::string words = words_of(labels(3, 240));
  for (const char* date : {"Mon 01 Mar", "Tue 02 Mar", "Wed 03 Mar", "day 1", "day 3"}) {
    EXPECT_THAT(words, HasSubstr(date));
  }
  EXPECT_THAT(words, Not(HasSubstr("12:00")));
}

TEST(DayAxis, WritesDatesOnTwoLinesWhereMoreFitSo) {
  const std::string words = words_of(labels(10, 390));
  for (const char* date : {"01 Mar\n", "02 Mar\n", "10 Mar\n", "Mon\n", "Wed\n"}) {
    EXPECT_THAT(words, HasSubstr(date));
  }
}

TEST(DayAxis, WritesEveryNumberOnNarrowDays) {
  const std::string words = words_of(labels(14, 14 * 16));
  for (int day = 1; day <= 14; ++day) {
    EXPECT_THAT("\n" + words, HasSubstr("\n" + std::to_string(day) + "\n"));
  }
}

TEST(DayAxis, WritesHoursUnderAWideDay) {
  EXPECT_THAT(words_of(labels(1, 400)), HasSubstr("06:00\n12:00\n18:00"));
}

TEST(DayAxis, DrawsFinerLinesWhereTheyCanBeToldApart) {
  drawing::Plot wide({.x = 0, .y = 0, .width = 480, .height = 50}, 0, 48, 0, 1);
  day_lines(wide, {.first = 0, .count = 2}, strong_grid(), fine_grid());
  const auto marks = std::move(wide).marks();
  EXPECT_THAT(support::lines_of(marks, strong_grid()), SizeIs(3));
  // 10 pt for an hour.
  EXPECT_THAT(support::lines_of(marks, fine_grid()), SizeIs(46));
  drawing::Plot narrow({.x = 0, .y = 0, .width = 24, .height = 50}, 0, 48, 0, 1);
  day_lines(narrow, {.first = 0, .count = 2}, strong_grid(), fine_grid());
  EXPECT_THAT(support::lines_of(std::move(narrow).marks(), fine_grid()), SizeIs(0));
}

RC_GTEST_PROP(DayAxisProperty, OverlapsNothing, ()) {
  static const drawing::Typesetter typesetter;
  const int days = *rc::gen::inRange(1, 60);
  const double width_pt = days * (*rc::gen::inRange(113, 900) / 10.0);
  const auto marks = labels(days, width_pt);
  RC_ASSERT(support::overlaps(typesetter, marks).empty());
  RC_ASSERT(support::strays(typesetter, marks, {0, 50, width_pt + 40, 60}).empty());
}

RC_GTEST_PROP(DayPieceProperty, CoverEveryDayOnceInAsFewAsThereMustBe, ()) {
  const int days = *rc::gen::inRange(1, 4000);
  const double width_pt = *rc::gen::inRange(50, 800);
  const double least_pt = *rc::gen::inRange(5, 40);
  int next = 0;
  const std::vector<DayPiece> pieces = day_pieces(days, width_pt, least_pt);
  for (const DayPiece& piece : pieces) {
    RC_ASSERT(piece.first == next);
    RC_ASSERT(piece.count > 0);
    RC_ASSERT(piece.count <= pieces.front().count);
    RC_ASSERT(piece.count == 1 || piece.count * least_pt <= width_pt);
    next += piece.count;
  }
  RC_ASSERT(next == days);
  const int most = std::max(1, static_cast<int>(width_pt / least_pt));
  RC_ASSERT(static_cast<int>(pieces.size()) == (days + most - 1) / most);
}

}  // namespace
}  // namespace drystage::report
