// Halts, one by one: what they cost, and what they do not.
#include <gtest/gtest.h>

#include <algorithm>
#include <utility>

#include "support/laid_out.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Detour;
using engine::EventKind;
using engine::Segment;
using engine::Timeline;
using support::arrives_h;
using support::begins_h;
using support::one_leg;
using support::PlanText;
using support::total_km;
using support::travel_with;
using support::Trip;

TEST(Halt, OnTheWayMovesTheArrivalByItsHours) {
  const plan::Plan plan = one_leg().plan();
  EXPECT_NEAR(arrives_h(engine::lay_out(plan)), 12, 1e-9);
  EXPECT_NEAR(arrives_h(engine::lay_out(plan, {{.at_h = 9.4, .halt_h = 2.3}})), 14.3, 1e-9);
  EXPECT_NEAR(arrives_h(engine::lay_out(plan, {{.at_h = 9.4, .halt_h = 72}})), 12 + 72, 1e-9);
}

TEST(Halt, StandsWhereItBegan) {
  const plan::Plan plan = one_leg().plan();
  const engine::Schedule schedule = engine::lay_out(plan, {{.at_h = 9.5, .halt_h = 30}});
  double stood_h = 0;
  for (const Segment& segment : schedule.segments) {
    if (segment.drive >= 0 || engine::place_at(segment.begin) >= 0) continue;
    EXPECT_NEAR(segment.begin.share, 150.0 / 400, 1e-12);
    EXPECT_EQ(segment.distance_km, 0);
    stood_h += segment.to_h - segment.from_h;
  }
  EXPECT_NEAR(stood_h, 30, 1e-9);
  EXPECT_NEAR(arrives_h(schedule), 12 + 30, 1e-9);
}

TEST(Halt, ThatLastsUntilTheEveningWaitsForTheMorning) {
  const plan::Plan plan = one_leg("{most_per_day: 10 h, daylight_only: yes}").plan();
  const engine::Schedule schedule = engine::lay_out(plan, {{.at_h = 10, .halt_h = 10}});
  // Two hours of driving are left, from eight on the next day.
  EXPECT_NEAR(arrives_h(schedule), 24 + 8 + 2, 1e-9);
  ASSERT_EQ(schedule.events.size(), 1U);
  EXPECT_EQ(schedule.events[0].kind, EventKind::camp_dusk);
  EXPECT_NEAR(schedule.events[0].hour, 20, 1e-9);
  EXPECT_NEAR(schedule.events[0].amount, 200, 1e-9);
}

TEST(Halt, LeavesTheDaysDrivingHoursThatAreNotDriven) {
  const plan::Plan plan = one_leg("{most_per_day: 3 h, daylight_only: no}").plan();
  // Two hours before it and one after it; the last one on the next day.
  const engine::Schedule schedule = engine::lay_out(plan, {{.at_h = 10, .halt_h = 4}});
  ASSERT_EQ(schedule.events.size(), 1U);
  EXPECT_EQ(schedule.events[0].kind, EventKind::camp_hours);
  EXPECT_NEAR(schedule.events[0].hour, 15, 1e-9);
  EXPECT_NEAR(schedule.days[0].drive_h, 3, 1e-9);
  EXPECT_NEAR(arrives_h(schedule), 24 + 9, 1e-9);
}

TEST(Halt, OfADayHasTheDrivingHoursOfTheDayOnWhichItEnds) {
  const plan::Plan plan = one_leg("{most_per_day: 3 h, daylight_only: no}").plan();
  const engine::Schedule schedule = engine::lay_out(plan, {{.at_h = 10, .halt_h = 24}});
  EXPECT_NEAR(schedule.days[0].drive_h, 2, 1e-9);
  EXPECT_NEAR(schedule.days[1].drive_h, 2, 1e-9);
  EXPECT_NEAR(arrives_h(schedule), 24 + 12, 1e-9);
  EXPECT_TRUE(schedule.events.empty());
}

TEST(Halt, OfWholeDaysInANightInTheBushMovesTheMorningByThem) {
  const plan::Plan plan = one_leg("{most_per_day: 3 h, daylight_only: no}").plan();
  EXPECT_NEAR(arrives_h(engine::lay_out(plan)), 24 + 9, 1e-9);
  for (const double at_h : {12.0, 20.0, 24.0, 29.0, 31.9}) {
    const engine::Schedule schedule = engine::lay_out(plan, {{.at_h = at_h, .halt_h = 48}});
    EXPECT_NEAR(arrives_h(schedule), 48 + 24 + 9, 1e-9) << at_h;
    EXPECT_EQ(schedule.days.size(), 2U + 2U + 1U) << at_h;
  }
}

/// People sleep where they are stuck.
TEST(Halt, ThatIsOverBeforeTheMorningMovesNothing) {
  const plan::Plan plan = one_leg("{most_per_day: 3 h, daylight_only: no}").plan();
  for (const double at_h : {12.0, 18.0, 20.0, 21.5, 24.0, 25.0}) {
    for (const double halt_h : {2.0, 4.0, 6.0}) {
      const engine::Schedule schedule = engine::lay_out(plan, {{.at_h = at_h, .halt_h = halt_h}});
      EXPECT_NEAR(arrives_h(schedule), 24 + 9, 1e-9) << at_h << " for " << halt_h;
    }
  }
}

TEST(Halt, ThatLastsIntoTheMorningMovesItToItsEnd) {
  const plan::Plan plan = one_leg("{most_per_day: 3 h, daylight_only: no}").plan();
  const auto arrival_h = [&](double at_h, double halt_h) {
    return arrives_h(engine::lay_out(plan, {{.at_h = at_h, .halt_h = halt_h}}));
  };
  EXPECT_NEAR(arrival_h(20, 14), 24 + 10 + 1, 1e-9);
  EXPECT_NEAR(arrival_h(24 + 3, 9), 24 + 12 + 1, 1e-9);
  // With whole days in it, as though it had begun so many later.
  EXPECT_NEAR(arrival_h(20, 24 + 14), 48 + 10 + 1, 1e-9);
  EXPECT_NEAR(arrival_h(20, 24 + 5), 48 + 8 + 1, 1e-9);
}

TEST(Halt, InANightOfAStayCostsItsWholeDaysAlone) {
  PlanText text = one_leg();
  text.itinerary = {"{at: Base}", "stay: {nights: 2}",
                    "drive: {to: There, distance: 400 km, surfaces: sealed, speed: 100 km/h}"};
  const plan::Plan plan = text.plan();
  const auto arrival_h = [&](double at_h, double halt_h) {
    return arrives_h(engine::lay_out(plan, {{.at_h = at_h, .halt_h = halt_h}}));
  };
  for (const double at_h : {0.0, 10.0, 21.0, 24.0, 45.0, 50.0}) {
    EXPECT_NEAR(arrival_h(at_h, 5), 48 + 12, 1e-9) << at_h;
    EXPECT_NEAR(arrival_h(at_h, 24 + 5), 48 + 24 + 12, 1e-9) << at_h;
    EXPECT_NEAR(arrival_h(at_h, 72), 48 + 72 + 12, 1e-9) << at_h;
  }
}

TEST(Halt, WhereAllIsDoneChangesNothing) {
  PlanText text = one_leg();
  text.itinerary.pop_back();
  const engine::Schedule schedule = engine::lay_out(text.plan(), {{.at_h = 15, .halt_h = 48}});
  EXPECT_EQ(schedule.days.size(), 1U);
  EXPECT_NEAR(arrives_h(schedule), 12, 1e-9);
}

TEST(Halt, AtTheMomentOfAStopComesAfterIt) {
  PlanText text = one_leg();
  text.containers = {"{name: can, holds: 60 L, filled: 20 L, for: drinking}"};
  text.places[0] = PlanText::place("Base", "air", "drinking_water: {}");
  text.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {drinking_water: fill}",
                    "drive: {to: There, distance: 400 km, surfaces: sealed, speed: 100 km/h}"};
  const Trip trip = travel_with(text.plan(), {{.at_h = 24 + 8, .halt_h = 48}});
  const auto taken = trip.told(EventKind::refill);
  ASSERT_EQ(taken.size(), 1U);
  EXPECT_EQ(taken[0].day, 1);
  EXPECT_NEAR(taken[0].hour, 8, 1e-9);
  EXPECT_EQ(trip.days(), 4U);
  EXPECT_NEAR(trip.course.timeline->days[3].schedule.drive_h, 4, 1e-9);
  // A moment earlier, it comes before it.
  const Trip later = travel_with(text.plan(), {{.at_h = 24 + 7.9, .halt_h = 48}});
  ASSERT_EQ(later.told(EventKind::refill).size(), 1U);
  EXPECT_EQ(later.told(EventKind::refill)[0].day, 3);
}

TEST(Halt, InTheMiddleOfALongStopBeginsWhenItIsOver) {
  PlanText text = one_leg();
  text.places[0] = PlanText::place("Base", "air", "food: {}");
  text.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {food: fill, takes: 2 h}",
                    "drive: {to: There, distance: 400 km, surfaces: sealed, speed: 100 km/h}"};
  const engine::Schedule schedule = engine::lay_out(text.plan(), {{.at_h = 24 + 9, .halt_h = 5}});
  EXPECT_NEAR(arrives_h(schedule), 24 + 8 + 2 + 5 + 4, 1e-9);
}

TEST(Halt, InTheMiddleOfALongStopComesBeforeTheNextStop) {
  PlanText text = one_leg();
  text.places[0] = PlanText::place("Base", "air", "food: {}");
  text.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {food: fill, takes: 2 h}",
                    "resupply: {food: fill}", "stay: {nights: 1}"};
  const engine::Schedule schedule = engine::lay_out(text.plan(), {{.at_h = 24 + 9, .halt_h = 48}});
  std::vector<double> stops_h;
  for (const Segment& segment : schedule.segments) {
    if (segment.resupply >= 0) stops_h.push_back(begins_h(segment));
  }
  EXPECT_EQ(stops_h, (std::vector<double>{24 + 8, 72 + 10}));
}

TEST(Halt, SeveralAddUp) {
  const plan::Plan plan = one_leg().plan();
  const engine::Schedule schedule = engine::lay_out(
      plan,
      {{.at_h = 3, .halt_h = 24}, {.at_h = 24 + 9, .halt_h = 1}, {.at_h = 24 + 11, .halt_h = 3}});
  EXPECT_NEAR(arrives_h(schedule), 24 + 12 + 1 + 3, 1e-9);
  EXPECT_NEAR(total_km(schedule.segments), 400, 1e-9);
}

TEST(Halt, ThatComesWhileAnotherLastsBeginsWhenThatIsOver) {
  const plan::Plan plan = one_leg().plan();
  const engine::Schedule schedule =
      engine::lay_out(plan, {{.at_h = 9, .halt_h = 3}, {.at_h = 10, .halt_h = 2}});
  EXPECT_NEAR(arrives_h(schedule), 12 + 3 + 2, 1e-9);
}

}  // namespace
}  // namespace drystage
