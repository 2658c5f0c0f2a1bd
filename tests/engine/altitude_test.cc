// High places: more to drink, and the danger of going up too fast.
#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

std::string place_at(const std::string& name, int elevation_m) {
  return name + ": {at: {latitude: 0°, longitude: 0°, elevation: " + std::to_string(elevation_m) +
         " m}, climate: plateau, supplies: {}}";
}

/// One man of the models, who camps for two days at an elevation in a cold and dry place.
PlanText camp(int elevation_m) {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "")};
  plan.climate = {PlanText::climate_of("plateau", 5, -15, "35 %", "4.6 kWh/m2/day")};
  plan.containers = {"{name: cans, holds: 200 L, filled: 200 L, for: drinking}"};
  plan.places = {place_at("Base", elevation_m)};
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}"};
  return plan;
}

double litres_a_day(int elevation_m) {
  return travel(camp(elevation_m)).reserve(0, "drinking_water").used;
}

// US Army TB MED 505 (memory): 3 to 4 L a day at 4000 m and above.
TEST(Altitude, ACampAt4500MetresInTheColdTakesThreeToFourLitres) {
  EXPECT_GE(litres_a_day(4500), 3.0);
  EXPECT_LE(litres_a_day(4500), 4.0);
  EXPECT_GE(litres_a_day(4000), 3.0);
  EXPECT_LE(litres_a_day(5500), 4.0);
  EXPECT_EQ(litres_a_day(2000), litres_a_day(0));
}

/// Nights at places of these elevations, one after another, from a first place that is left at
/// once.
PlanText climb(const std::vector<int>& elevations_m) {
  PlanText plan = camp(elevations_m.front());
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 900 L, "
      "filled: 900 L}]}"};
  plan.itinerary = {"{at: Base}"};
  for (std::size_t i = 1; i < elevations_m.size(); ++i) {
    const std::string name = "P" + std::to_string(i);
    plan.places.push_back(place_at(name, elevations_m[i]));
    plan.itinerary.push_back("drive: {to: " + name +
                             ", distance: 50 km, surfaces: sealed, climb: 900 m, descent: 900 m}");
    plan.itinerary.emplace_back("stay: {nights: 1}");
  }
  return plan;
}

TEST(AltitudeIllness, IsWarnedOfOnTheFirstNightAbove2500Metres) {
  const auto told = travel(climb({500, 2400, 2600, 2700})).told(EventKind::altitude);
  ASSERT_EQ(told.size(), 1U);
  EXPECT_EQ(told[0].day, 1);
  EXPECT_DOUBLE_EQ(told[0].amount, 2600);
  EXPECT_DOUBLE_EQ(told[0].other, 200);
}

TEST(AltitudeIllness, IsWarnedOfAgainAfterADescent) {
  EXPECT_EQ(travel(climb({500, 2600, 2000, 2600})).told(EventKind::altitude).size(), 2U);
}

TEST(AltitudeIllness, IsWarnedOfWhereTheTripBeginsHigh) {
  EXPECT_EQ(travel(camp(3200)).told(EventKind::altitude).size(), 1U);
  EXPECT_TRUE(travel(camp(2500)).told(EventKind::altitude).empty());
}

// US CDC, Yellow Book: above about 3000 m sleep no more than 500 m higher each night.
TEST(AltitudeIllness, IsWarnedOfWhereNightsAreMoreThan500MetresApart) {
  const auto fast = travel(climb({2600, 3100, 3700, 4200})).told(EventKind::fast_ascent);
  ASSERT_EQ(fast.size(), 1U);
  EXPECT_EQ(fast[0].day, 1);
  EXPECT_DOUBLE_EQ(fast[0].amount, 3700);
  EXPECT_DOUBLE_EQ(fast[0].other, 600);
  EXPECT_TRUE(travel(climb({2600, 3100, 3600, 4100})).told(EventKind::fast_ascent).empty());
}

}  // namespace
}  // namespace drystage
