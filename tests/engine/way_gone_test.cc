#include "engine/way_gone.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/readings.h"
#include "engine/timeline.h"
#include "support/plan_text.h"

namespace drystage::engine::way_gone_test {
namespace {

// From Base 100 km to Mid (arriving on day 1), two nights, 100 km to Far (day 3), two nights, home.
// 50 km/h from 08:00: a leg takes two hours.
support::PlanText trip() {
  support::PlanText text;
  text.driving =
      "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\", speeds: {sealed: 50 km/h}}";
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, "
      "holds: 90 L, filled: 90 L}]}"};
  text.places = {support::PlanText::place("Base", "air"), support::PlanText::place("Mid", "air"),
                 support::PlanText::place("Far", "air")};
  const std::string leg = ", distance: 100 km, surfaces: {sealed: 100 km}}";
  text.itinerary = {"{at: Base}",        "drive: {to: Mid" + leg,
                    "stay: {nights: 2}", "drive: {to: Far" + leg,
                    "stay: {nights: 2}", "drive: {to: Base" + leg};
  return text;
}

Timeline laid(plan::Plan plan, const std::vector<plan::Reading>& readings) {
  plan.readings = readings;
  return lay_timeline(plan);
}

plan::Reading evening(int day, plan::Whereabouts at) {
  return {.day = day - 1, .in_the_evening = true, .at = at};
}

constexpr int mid = 1;
constexpr int far = 2;

/// Where the party is when a day ends.
std::vector<int> nights_at(const Timeline& timeline) {
  std::vector<int> out;
  for (const DayInfo& day : timeline.days) out.push_back(place_at(day.schedule.to));
  return out;
}

TEST(WayGone, AsPlannedNothingComesBetween) {
  const plan::Plan plan = trip().plan();
  const Timeline planned = laid(plan, {});
  EXPECT_THAT(nights_at(planned), ::testing::ElementsAre(mid, mid, far, far, 0));
  const Timeline read = laid(plan, {evening(1, {mid}), evening(2, {mid}), evening(4, {far})});
  EXPECT_EQ(nights_at(read), nights_at(planned));
  EXPECT_TRUE(read.gone.halts.empty());
  EXPECT_TRUE(read.gone.nights_left_out.empty());
}

TEST(WayGone, WhoIsLateHasWaitedWhereItWasFound) {
  const Timeline read = laid(trip().plan(), {evening(4, {mid})});
  // In the evening of day 4 at Mid, where the plan leaves on day 3: on to Far on day 5.
  EXPECT_THAT(nights_at(read), ::testing::ElementsAre(mid, mid, mid, mid, far, far, 0));
  EXPECT_EQ(read.days[4].schedule.drive_h, 2);
  EXPECT_EQ(read.steps[step_of(evening(4, {mid}), read)].from_h, 20);
}

TEST(WayGone, WhoIsEarlyHasLeftNightsOut) {
  const Timeline read = laid(trip().plan(), {evening(2, {far})});
  EXPECT_THAT(nights_at(read), ::testing::ElementsAre(mid, far, far, 0));
  EXPECT_EQ(read.gone.nights_left_out.at(2), 1);
}

TEST(WayGone, WhoIsEarlierStillHasDrivenOn) {
  const Timeline read = laid(trip().plan(), {evening(1, {far})});
  EXPECT_THAT(nights_at(read), ::testing::ElementsAre(far, far, 0));
  EXPECT_DOUBLE_EQ(read.days[0].schedule.distance_km, 200);
}

TEST(WayGone, DrivesLongerThanThePlanHasItWhereItMust) {
  support::PlanText text = trip();
  text.driving =
      "{most_per_day: 1 h, daylight_only: no, depart: \"08:00\", speeds: {sealed: 50 km/h}}";
  const Timeline planned = laid(text.plan(), {});
  EXPECT_EQ(place_at(planned.days[0].schedule.to), -1);
  const Timeline read = laid(text.plan(), {evening(1, {mid})});
  EXPECT_EQ(place_at(read.days[0].schedule.to), mid);
  // From then on no longer than planned.
  for (std::size_t day = 1; day < read.days.size(); ++day) {
    EXPECT_LE(read.days[day].schedule.drive_h, 1 + 1e-9);
  }
}

TEST(WayGone, CampsOnTheRoadWhereItWasFound) {
  const Timeline read = laid(trip().plan(), {evening(3, {.place = far, .after_km = 30})});
  const ScheduledDay& day = read.days[2].schedule;
  EXPECT_EQ(place_at(day.to), -1);
  EXPECT_NEAR(day.to.share, 0.3, 1e-9);
  EXPECT_NEAR(day.distance_km, 30, 1e-9);
  EXPECT_NEAR(read.days[3].schedule.distance_km, 70, 1e-9);
  EXPECT_EQ(place_at(read.days[3].schedule.to), far);
}

TEST(WayGone, CountsAnEveningFromWhenTheDriveIsOver) {
  support::PlanText text = trip();
  text.driving =
      "{most_per_day: 10 h, daylight_only: no, depart: \"19:30\", speeds: {sealed: 50 km/h}}";
  const Timeline read = laid(text.plan(), {evening(1, {mid})});
  EXPECT_EQ(read.steps[step_of(evening(1, {mid}), read)].from_h, 21.5);
}

TEST(WayGone, SaysWhereNobodyCanHaveBeen) {
  plan::Plan plan = trip().plan();
  plan.readings = {evening(9, {far})};
  const Timeline over = lay_timeline(plan);
  // Late at Far: that is a wait. Beyond the end, at no place that is said, it is not.
  EXPECT_TRUE(over.problems.empty());
  plan.readings = {{.day = 8, .in_the_evening = true}};
  const Timeline after = lay_timeline(plan);
  ASSERT_EQ(after.problems.size(), 1U);
  EXPECT_THAT(after.problems.front().what, ::testing::HasSubstr("the trip ends on day 5"));
  // Base lies behind on day 3: nobody is there again before the way home.
  plan.readings = {evening(2, {far}), evening(3, {mid})};
  ASSERT_EQ(lay_timeline(plan).problems.size(), 1U);
}

}  // namespace
}  // namespace drystage::engine::way_gone_test
