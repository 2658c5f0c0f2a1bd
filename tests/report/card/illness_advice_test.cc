// Signs of illness from heat, cold and height, and what to do first.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "report/card/advice.h"
#include "support/advice.h"
#include "support/needs_answer.h"

namespace drystage {
namespace {

using support::first_steps_of;
using support::PlanText;
using support::steps_for;
using ::testing::AllOf;
using ::testing::HasSubstr;

constexpr const char* heat = "Heat illness";
constexpr const char* cold = "Illness from cold";
constexpr const char* altitude = "Altitude illness";

bool is_told(const PlanText& plan, const std::string& title) {
  const std::vector<report::Advice> all = first_steps_of(plan);
  return std::ranges::any_of(all, [&](const auto& advice) { return advice.title == title; });
}

PlanText in_air(double max_c, double min_c) {
  PlanText plan = support::three_places();
  plan.climate = {PlanText::climate_of("air", max_c, min_c, "40 %", "5 kWh/m2/day")};
  return plan;
}

// CDC/NIOSH, first aid for heat illness (memory): call for help, cool with water and air, and give
// nothing to drink to anyone who is not fully awake.
TEST(IllnessAdvice, TellsTheSignsOfHeatStrokeAndToCoolFirst) {
  EXPECT_THAT(steps_for(first_steps_of(support::three_places()), heat),
              AllOf(HasSubstr("HEAT STROKE: confused"), HasSubstr("Cool at once"),
                    HasSubstr("Give no drink to anyone who is confused")));
}

TEST(IllnessAdvice, IsOfColdWhereNightsAreNearFrost) {
  EXPECT_FALSE(is_told(in_air(33, 16), cold));
  const PlanText frosty = in_air(8, -6);
  EXPECT_TRUE(is_told(frosty, cold));
  EXPECT_FALSE(is_told(frosty, heat));
  EXPECT_THAT(steps_for(first_steps_of(frosty), cold),
              AllOf(HasSubstr("frostbite"), HasSubstr("No alcohol"), HasSubstr("charcoal")));
}

// CDC Yellow Book, altitude illness (memory): common from nights at 2500 m on.
TEST(IllnessAdvice, IsOfHeightWhereANightIsSpentAt2500m) {
  EXPECT_FALSE(is_told(in_air(20, 10), altitude));
  PlanText high = in_air(20, 10);
  for (std::string& place : high.places) {
    const std::size_t at = place.find("elevation: 0 m");
    ASSERT_NE(at, std::string::npos) << place;
    place.replace(at, 14, "elevation: 2600 m");
  }
  EXPECT_TRUE(is_told(high, altitude));
  EXPECT_THAT(steps_for(first_steps_of(high), altitude), HasSubstr("go down at once"));
}

}  // namespace
}  // namespace drystage
