// How far it is back: the sum of the roads that were come by.
#include "answers/onward/return_way.h"

#include <gtest/gtest.h>

#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

using support::PlanText;

/// The way back from a moment on the first stretch of drinking water.
std::optional<answers::ReturnWay> back(const PlanText& plan, const answers::Moment& from) {
  const auto trip = support::travel(plan);
  const answers::TurnBack turn_back = answers::turn_back_points(trip);
  const int water = support::reserve_index(trip.course, "drinking_water");
  for (const answers::SupplyStretch& stretch : turn_back.stretches) {
    if (stretch.reserve == water) return answers::return_way(trip, stretch, from);
  }
  return std::nullopt;
}

/// 315 km from Base to Far Well, the last 115 of them on the fourth day from eight on.
TEST(ReturnWay, IsTheSumOfTheRoadsThatWereComeBy) {
  const auto from_camp = back(support::three_places(), support::at_place(1, 9, 1));
  ASSERT_TRUE(from_camp);
  EXPECT_EQ(from_camp->place, 0);
  EXPECT_NEAR(from_camp->distance_km, 200, 1e-6);
  EXPECT_TRUE(from_camp->as_it_came);
}

TEST(ReturnWay, CountsWhatWasDrivenOfALegUnderWay) {
  const auto trip = support::travel(support::three_places());
  // An hour after setting out on the second leg, at its speed.
  const engine::Leg& leg = trip.course.timeline->legs[1];
  const double km = leg.parts.front().speed_km_h;
  const auto way = back(support::three_places(), support::after_red_tables(3, 9, km));
  ASSERT_TRUE(way);
  EXPECT_NEAR(way->distance_km, 200 + km, 0.01);
}

TEST(ReturnWay, TakesTheRoadGivenAsTheWayBack) {
  PlanText plan = support::three_places();
  plan.itinerary[1] =
      "drive: {to: Red Tables, distance: 200 km, surfaces: gravel, back: {distance: 150 km, "
      "surfaces: gravel}}";
  const auto way = back(plan, support::at_place(1, 9, 1));
  ASSERT_TRUE(way);
  EXPECT_NEAR(way->distance_km, 150, 1e-6);
  EXPECT_FALSE(way->as_it_came);
}

TEST(ReturnWay, IsNoneFromAStretchThatIsNotTheTrips) {
  const auto trip = support::travel(support::three_places());
  answers::SupplyStretch stretch;
  stretch.reserve = support::reserve_index(trip.course, "drinking_water");
  stretch.from_place = 1;
  stretch.leaves = support::at_place(2, 8, 1);
  EXPECT_FALSE(answers::return_way(trip, stretch, support::at_place(3, 9, 1)));
}

}  // namespace
}  // namespace drystage
