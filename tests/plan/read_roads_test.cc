// What roads say. What is wrong with them: tests/wrong/roads.yaml.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan_text.h"
#include "support/plan_text.h"

namespace drystage::plan::read_roads_test {
namespace {

using ::testing::IsEmpty;

TEST(Roads, AreReadFromTheWholePlan) {
  const ReadPlan reading = read_text(whole_plan());
  ASSERT_TRUE(reading.plan.has_value()) << all_of(reading);
  ASSERT_EQ(reading.plan->roads.size(), 2U);
  const Road& first = reading.plan->roads[0];
  EXPECT_EQ(reading.plan->places[static_cast<std::size_t>(first.from)].name, "Kemet Wells");
  EXPECT_EQ(reading.plan->places[static_cast<std::size_t>(first.drive.to)].name, "Oru");
  EXPECT_DOUBLE_EQ(first.drive.distance_km, 330);
  ASSERT_EQ(first.drive.surfaces.size(), 2U);
  EXPECT_EQ(first.drive.surfaces[0].surface, Surface::track);
  EXPECT_DOUBLE_EQ(first.drive.surfaces[1].speed_km_h.value(), 45);
  EXPECT_DOUBLE_EQ(first.drive.climb_m.value(), 700);
  EXPECT_DOUBLE_EQ(first.drive.descent_m.value(), 260);
  EXPECT_DOUBLE_EQ(first.drive.kind.steepness.value(), 0.05);
  EXPECT_DOUBLE_EQ(first.drive.kind.headwind_m_s, 1);
  EXPECT_EQ(first.drive.kind.tyres, Tyres::road_pressure);
  EXPECT_TRUE(first.drive.off_itinerary);
  EXPECT_FALSE(first.drive.back.has_value());
  EXPECT_FALSE(first.one_way);
  EXPECT_GT(first.mark.line, 0);
  EXPECT_TRUE(reading.plan->roads[1].one_way);
}

TEST(Roads, AreNoneWhereNothingIsSaid) {
  const std::string text = support::PlanText().text();
  EXPECT_THAT(support::read_plan(text).roads, IsEmpty());
  EXPECT_THAT(support::read_plan(text + "roads:\n").roads, IsEmpty());
  EXPECT_THAT(support::read_plan(text + "roads: []\n").roads, IsEmpty());
}

}  // namespace
}  // namespace drystage::plan::read_roads_test
