// A trip as one line: it drives when the schedule says so, and as far.
#include "report/charts/trip_line.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/schedule.h"
#include "support/laid_out.h"
#include "support/needs_answer.h"
#include "support/random_plan.h"

namespace drystage::report::trip_line_test {
namespace {

using support::PlanText;
using support::travel;
using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

TripLine line_of(const PlanText& text) { return trip_line(*travel(text).course.timeline); }

TEST(TripLine, HasDrivesAndHalts) {
  const TripLine line = line_of(support::three_places());
  ASSERT_THAT(line.drives, SizeIs(2));
  ASSERT_THAT(line.halts, SizeIs(3));
  EXPECT_EQ(line.halts[0].place, 0);
  EXPECT_EQ(line.halts[1].place, 1);
  EXPECT_EQ(line.halts[2].place, 2);
  EXPECT_DOUBLE_EQ(line.halts[1].km, 200);
  EXPECT_DOUBLE_EQ(line.halts[1].hours.from, line.drives[0].to);
  EXPECT_DOUBLE_EQ(line.halts[1].hours.to, line.drives[1].from);
  EXPECT_DOUBLE_EQ(line.total_km(), 315);
}

TEST(TripLine, KnowsAPlaceThatIsOnlyPassed) {
  PlanText plan = support::three_places();
  plan.itinerary = {"{at: Base}", "drive: {to: Red Tables, distance: 100 km, surfaces: sealed}",
                    "drive: {to: Far Well, distance: 115 km, surfaces: sealed}",
                    "stay: {nights: 1}"};
  const TripLine line = line_of(plan);
  ASSERT_THAT(line.halts, SizeIs(3));
  EXPECT_EQ(line.halts[1].place, 1);
  EXPECT_DOUBLE_EQ(line.halts[1].km, 100);
  EXPECT_DOUBLE_EQ(line.halts[1].hours.from, line.halts[1].hours.to);
}

TEST(TripLine, HasANightFromSunsetToSunrise) {
  // On the equator and the meridian, at the equinox, day and night are of twelve hours.
  PlanText plan;
  plan.start = "2027-03-20";
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}"};
  const TripLine line = line_of(plan);
  ASSERT_THAT(line.nights, SizeIs(3));
  EXPECT_EQ(line.nights[0].from, 0);
  EXPECT_NEAR(line.nights[0].to, 6, 0.25);
  EXPECT_NEAR(line.nights[1].from, 18, 0.25);
  EXPECT_NEAR(line.nights[1].to, 30, 0.25);
  EXPECT_EQ(line.nights[2].to, 48);
}

TEST(TripLine, HasNoNightWhereTheSunDoesNotSet) {
  PlanText plan;
  plan.start = "2027-06-15";
  plan.places = {"Base: {at: {latitude: 80°, longitude: 0°, elevation: 0 m}, climate: air}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}"};
  EXPECT_THAT(line_of(plan).nights, IsEmpty());
}

TEST(TripLine, HasNothingElseWhereItNeverSets) {
  PlanText plan;
  plan.start = "2027-12-15";
  plan.places = {"Base: {at: {latitude: 80°, longitude: 0°, elevation: 0 m}, climate: air}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}"};
  double dark_h = 0;
  for (const Stretch& night : line_of(plan).nights) dark_h += night.to - night.from;
  EXPECT_THAT(dark_h, DoubleNear(48, 0.1));
}

RC_GTEST_PROP(TripLineProperty, DrivesWhenAndAsFarAsTheSchedule, ()) {
  const plan::Plan plan = support::random_plan(support::rapidcheck_pick()).plan();
  const engine::Schedule schedule = engine::lay_out(plan);
  const TripLine line = trip_line(*travel(plan).course.timeline);
  const double end_h = support::day_h * static_cast<double>(schedule.days.size());
  for (double hour = 0.25; hour < end_h; hour += 0.5) {
    RC_ASSERT(std::abs(line.km_at(hour) - support::driven_by_km(schedule, hour)) < 1e-6);
  }
  for (const engine::Segment& segment : schedule.segments) {
    const double middle_h = (support::begins_h(segment) + support::ends_h(segment)) / 2;
    if (support::ends_h(segment) - support::begins_h(segment) < 1e-6) continue;
    const bool driving = std::ranges::any_of(line.drives, [&](const Stretch& drive) {
      return drive.from < middle_h && middle_h < drive.to;
    });
    RC_ASSERT(driving == (segment.drive >= 0));
    if (driving) continue;
    const bool there = std::ranges::any_of(line.halts, [&](const Halt& halt) {
      return halt.hours.from <= middle_h && middle_h <= halt.hours.to &&
             halt.place == engine::place_at(segment.begin);
    });
    RC_ASSERT(there);
  }
}

}  // namespace
}  // namespace drystage::report::trip_line_test
