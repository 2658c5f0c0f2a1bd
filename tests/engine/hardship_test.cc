// What the weather does to people and cans: frost, heat beyond what a body may drink, and people
// who are not used to it.
#include <gtest/gtest.h>

#include <cmath>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::Event;
using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

constexpr double most_l = 12 * 0.946352946;  // 12 US quarts: TB MED 507, about 11.36 L

/// Body surface by DuBois and DuBois (memory): 0.202 m^0.425 h^0.725.
double surface_m2(double mass_kg, double height_m) {
  return 0.202 * std::pow(mass_kg, 0.425) * std::pow(height_m, 0.725);
}

TEST(Frost, IsToldOfEachDayThatFreezesWithItsMinimum) {
  PlanText plan;
  plan.weather = {"{on: 2027-03-02, max: 6 °C, min: -3.5 °C}",
                  "{on: 2027-03-04, max: 6 °C, min: 0 °C}",
                  "{on: 2027-03-05, max: -2 °C, min: -11 °C}"};
  const auto told = travel(plan).told(EventKind::frost);
  ASSERT_EQ(told.size(), 2U);
  EXPECT_EQ(told[0].day, 1);
  EXPECT_DOUBLE_EQ(told[0].amount, -3.5);
  EXPECT_EQ(told[1].day, 4);
  EXPECT_DOUBLE_EQ(told[1].amount, -11);
}

std::string person(const std::string& name, double mass_kg, double height_cm, int age,
                   const std::string& more = "") {
  return "{name: " + name + ", mass: " + std::to_string(mass_kg) +
         " kg, height: " + std::to_string(height_cm) + " cm, age: " + std::to_string(age) +
         ", sex: male" + more + "}";
}

/// Two days of hard work at 43 °C in the sun.
PlanText furnace(std::vector<std::string> people) {
  PlanText plan;
  plan.people = std::move(people);
  plan.activities = {"quarry: {moderate: 4 h, high: 6 h, in_sun: 100 %}"};
  plan.climate = {PlanText::climate_of("air", 43, 28, "20 %", "7 kWh/m2/day")};
  plan.containers = {"{name: tank, holds: 900 L, filled: 900 L, for: drinking}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 2, activity: quarry}"};
  return plan;
}

std::vector<Event> of_person(const Trip& trip, EventKind kind, int person) {
  std::vector<Event> out;
  for (const Event& event : trip.told(kind)) {
    if (event.subject == person) out.push_back(event);
  }
  return out;
}

TEST(HeatCeiling, IsTheAdultsForAnAdultHoweverLarge) {
  const Trip trip = travel(furnace({person("Ada", 75, 178, 40), person("Gog", 120, 200, 40)}));
  for (const int who : {0, 1}) {
    const auto told = of_person(trip, EventKind::heat_ceiling, who);
    ASSERT_EQ(told.size(), 2U) << who;
    EXPECT_DOUBLE_EQ(told[0].other, most_l) << who;
    EXPECT_GT(told[0].amount, most_l) << who;
  }
  // The larger body needs more, and may not have more.
  EXPECT_GT(of_person(trip, EventKind::heat_ceiling, 1)[0].amount,
            of_person(trip, EventKind::heat_ceiling, 0)[0].amount);
}

TEST(HeatCeiling, IsLessForAChildByTheSurfaceOfItsBody) {
  const Trip trip = travel(furnace({person("Ada", 75, 178, 40), person("Pim", 24, 122, 7)}));
  const auto told = of_person(trip, EventKind::heat_ceiling, 1);
  ASSERT_EQ(told.size(), 2U);
  EXPECT_NEAR(told[0].other, most_l * surface_m2(24, 1.22) / 1.8, 1e-3 * most_l);
  EXPECT_GT(told[0].amount, told[0].other);
  // Measured by the adult's ceiling the child would not have been told of.
  EXPECT_LT(told[0].amount, most_l);
}

TEST(HeatCeiling, IsToldWhateverWasObserved) {
  for (const std::string litres : {"4", "14"}) {
    const Trip trip = travel(
        furnace({person("Ada", 75, 178, 40, ", observed: {drinking: " + litres + " L/day}")}));
    EXPECT_EQ(trip.told(EventKind::heat_ceiling).size(), 2U) << litres;
  }
}

TEST(HotWind, IsToldOfEachDayOnWhichItIsHotterThanSkin) {
  PlanText plan = furnace({person("Ada", 75, 178, 40)});
  plan.weather = {"{on: 2027-03-02, wind: 9 m/s}"};
  const auto told = travel(plan).told(EventKind::hot_wind);
  ASSERT_EQ(told.size(), 1U);
  EXPECT_EQ(told[0].day, 1);
  EXPECT_DOUBLE_EQ(told[0].amount, 9);
}

/// Three days of the same maximum, with one person used to it and one who is not.
PlanText hot(const std::string& max, const std::string& acclimatised) {
  PlanText plan = furnace(
      {person("Ada", 75, 178, 40), person("Ben", 75, 178, 40, ", acclimatised: " + acclimatised)});
  plan.weather = {"{from: 2027-03-01, to: 2027-03-09, max: " + max + ", min: 20 °C}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 3}"};
  return plan;
}

TEST(NotUsedToHeat, IsToldOfEachDayFrom35DegreesUpAndOfThatPersonOnly) {
  const auto told = travel(hot("35 °C", "no")).told(EventKind::not_used_to_heat);
  ASSERT_EQ(told.size(), 3U);
  for (const Event& event : told) EXPECT_EQ(event.subject, 1);
  EXPECT_TRUE(travel(hot("34.9 °C", "no")).told(EventKind::not_used_to_heat).empty());
  EXPECT_TRUE(travel(hot("35 °C", "yes")).told(EventKind::not_used_to_heat).empty());
}

TEST(NotUsedToHeat, GivesNobodyLessWater) {
  const Trip used = travel(hot("41 °C", "yes"));
  const Trip unused = travel(hot("41 °C", "no"));
  for (std::size_t d = 0; d < used.days(); ++d) {
    EXPECT_EQ(unused.reserve(d, "drinking_water").used, used.reserve(d, "drinking_water").used);
  }
}

TEST(Hardship, OfADayInTwoClimatesIsToldOnce) {
  PlanText plan = hot("41 °C", "no");
  plan.weather.clear();
  plan.climate = {PlanText::climate_of("air", 43, 28, "20 %", "7 kWh/m2/day"),
                  PlanText::climate_of("basin", 44, 29, "20 %", "7 kWh/m2/day")};
  plan.places.push_back(PlanText::place("Pan", "basin"));
  plan.itinerary = {"{at: Base}", "drive: {to: Pan, distance: 200 km, surfaces: gravel}",
                    "stay: {nights: 1}"};
  const Trip trip = travel(plan);
  int first_day = 0;
  for (const Event& event : trip.told(EventKind::not_used_to_heat)) {
    if (event.day == 0) ++first_day;
  }
  EXPECT_EQ(first_day, 1);
}

}  // namespace
}  // namespace drystage
