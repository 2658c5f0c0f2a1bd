// Legs laid out on the calendar.
#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using engine::ScheduledDay;
using support::PlanText;
using support::travel;
using support::Trip;

PlanText long_leg(const std::string& driving) {
  PlanText plan;
  plan.driving = driving;
  plan.places.push_back(PlanText::place("There", "air"));
  plan.itinerary = {"{at: Base}",
                    "drive: {to: There, distance: 1000 km, surfaces: sealed, speed: 100 km/h}"};
  return plan;
}

const ScheduledDay& day(const Trip& trip, std::size_t d) {
  return trip.course.timeline->days[d].schedule;
}

TEST(Schedule, SplitsALegByTheDaysDrivingHours) {
  const Trip trip = travel(long_leg("{most_per_day: 4 h, daylight_only: no, depart: \"08:00\"}"));
  ASSERT_EQ(trip.days(), 3U);
  EXPECT_NEAR(day(trip, 0).distance_km, 400, 1e-9);
  EXPECT_NEAR(day(trip, 1).distance_km, 400, 1e-9);
  EXPECT_NEAR(day(trip, 2).distance_km, 200, 1e-9);
  const auto camps = trip.told(EventKind::camp_hours);
  ASSERT_EQ(camps.size(), 2U);
  EXPECT_NEAR(camps[0].hour, 12, 1e-9);
  EXPECT_NEAR(camps[0].amount, 600, 1e-9);
}

TEST(Schedule, SplitsALegByDaylight) {
  // On the equator at the equinox the sun is up for about twelve hours, from about six.
  PlanText plan = long_leg("{most_per_day: 20 h, daylight_only: yes, depart: \"14:00\"}");
  plan.start = "2027-03-20";
  const Trip trip = travel(plan);
  const auto camps = trip.told(EventKind::camp_dusk);
  ASSERT_EQ(camps.size(), 2U);
  EXPECT_NEAR(camps[0].hour, day(trip, 0).sunset_h, 1e-9);
  EXPECT_NEAR(camps[0].hour, 18.2, 0.1);
  EXPECT_NEAR(day(trip, 0).distance_km, 100 * (day(trip, 0).sunset_h - 14), 1e-6);
}

TEST(Schedule, DoesNotSetOutBeforeSunrise) {
  PlanText plan = long_leg("{most_per_day: 20 h, daylight_only: yes, depart: \"03:00\"}");
  plan.start = "2027-03-20";
  const Trip trip = travel(plan);
  double first_h = -1;
  for (const engine::TimeStep& step : trip.course.timeline->steps) {
    if (step.drive >= 0 && first_h < 0) first_h = step.from_h;
  }
  EXPECT_NEAR(first_h, day(trip, 0).sunrise_h, 1e-9);
}

TEST(Schedule, GivesAStayAsManyNightsAsItSays) {
  PlanText plan = long_leg("{most_per_day: 12 h, daylight_only: no}");
  plan.itinerary.emplace_back("stay: {nights: 3}");
  plan.itinerary.emplace_back(
      "drive: {to: Base, distance: 100 km, surfaces: sealed, speed: 100 km/h}");
  const Trip trip = travel(plan);
  ASSERT_EQ(trip.days(), 4U);
  EXPECT_NEAR(day(trip, 3).distance_km, 100, 1e-9);
  EXPECT_EQ(day(trip, 1).distance_km, 0);
}

TEST(Schedule, ACampOnARoundTripIsInTheBushWithoutMains) {
  PlanText plan = long_leg("{most_per_day: 4 h, daylight_only: no}");
  plan.places = {PlanText::place("Base", "air", "mains: {}")};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, filled: 50 %}"};
  plan.charging = {"{name: lead, mains: 1 A}"};
  plan.itinerary = {"{at: Base}",
                    "drive: {to: Base, distance: 1000 km, surfaces: sealed, speed: 100 km/h}"};
  const Trip trip = travel(plan);
  ASSERT_EQ(trip.days(), 3U);
  // Until eight on the first day, and from ten on the last.
  EXPECT_NEAR(trip.sum(&engine::ReserveDay::gained, "battery:bank"), 8 + 14, 1e-6);
}

TEST(Schedule, AnEndlessLegIsAProblemAndNotAnEndlessRun) {
  const plan::Plan plan = long_leg("{most_per_day: 0.0001 h, daylight_only: no}").plan();
  EXPECT_FALSE(engine::lay_timeline(plan).problems.empty());
}

TEST(Schedule, AMonthThatAClimateLacksIsAProblem) {
  PlanText plan;
  plan.climate = {"air: {mar: {max: 20 °C, min: 10 °C, humidity: 30 %, sun: 5 kWh/m2/day}}"};
  plan.start = "2027-03-30";
  const auto problems = engine::lay_timeline(plan.plan()).problems;
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_NE(problems.front().what.find("april"), std::string::npos);
}

}  // namespace
}  // namespace drystage
