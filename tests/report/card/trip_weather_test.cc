// Whether a trip asks for advice for the heat, for the cold, or for both.
#include <gtest/gtest.h>

#include "report/card/advice.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage {
namespace {

report::TripWeather weather_of(double max_c, double min_c) {
  support::PlanText plan = support::three_places();
  plan.climate = {support::PlanText::climate_of("air", max_c, min_c, "40 %", "3 kWh/m2/day")};
  return report::trip_weather(support::travel(plan));
}

TEST(TripWeather, IsHotColdOrBoth) {
  EXPECT_TRUE(weather_of(35, 16).heat);
  EXPECT_FALSE(weather_of(35, 16).cold);
  EXPECT_FALSE(weather_of(10, -5).heat);
  EXPECT_TRUE(weather_of(10, -5).cold);
  EXPECT_TRUE(weather_of(30, 3).heat);
  EXPECT_TRUE(weather_of(30, 3).cold);
}

TEST(TripWeather, ThatIsMildIsTakenForHeat) {
  EXPECT_TRUE(weather_of(18, 8).heat);
  EXPECT_FALSE(weather_of(18, 8).cold);
}

TEST(TripWeather, GoesByTheColdestNight) {
  support::PlanText plan = support::three_places();
  plan.climate = {support::PlanText::climate_of("air", 30, 12, "40 %", "3 kWh/m2/day")};
  EXPECT_FALSE(report::trip_weather(support::travel(plan)).cold);
  plan.weather = {"{on: 2027-03-03, min: -2 °C}"};
  EXPECT_TRUE(report::trip_weather(support::travel(plan)).cold);
}

}  // namespace
}  // namespace drystage
