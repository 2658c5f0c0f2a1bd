// How far it is back from a moment that lies within a step of the run.
#include <gtest/gtest.h>

#include <algorithm>

#include "answers/onward/return_way.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

TEST(ReturnWay, BetweenHoursIsAsFarAsWasDriven) {
  const auto trip = support::travel(support::three_places());
  const answers::TurnBack turn_back = answers::turn_back_points(trip);
  const int water = support::reserve_index(trip.course, "drinking_water");
  const auto stretch =
      std::ranges::find(turn_back.stretches, water, &answers::SupplyStretch::reserve);
  ASSERT_NE(stretch, turn_back.stretches.end());
  const double speed_km_h = trip.course.timeline->legs[1].parts.front().speed_km_h;
  // The second leg begins at eight on day 4, after 200 km of gravel.
  for (const double driven_h : {0.25, 0.5, 1.25, 1.75}) {
    SCOPED_TRACE(driven_h);
    const double km = driven_h * speed_km_h;
    const auto way =
        answers::return_way(trip, *stretch, support::after_red_tables(3, 8 + driven_h, km));
    ASSERT_TRUE(way);
    EXPECT_EQ(way->place, 0);
    EXPECT_NEAR(way->distance_km, 200 + km, 1e-6);
  }
}

}  // namespace
}  // namespace drystage
