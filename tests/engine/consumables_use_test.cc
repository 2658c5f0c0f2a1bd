// What uses a consumable up by the ground, the clock and the air, each worked out by hand.
#include <gtest/gtest.h>

#include <string>

#include "support/trip.h"

namespace drystage::consumables_use_test {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

constexpr double exact = 1e-9;
constexpr const char* stuff = "consumable:stuff";

/// Two people at Base, one night; then 60 km sealed and 40 km of track to Far in two hours; three
/// nights there. 20 °C all the time.
PlanText with_use(const std::string& use, const std::string& more = "") {
  PlanText text;
  text.people = {PlanText::person("Ada", "4 L/day"), PlanText::person("Bo", "4 L/day")};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]}"};
  text.containers = {"{name: can, holds: 200 L, filled: 200 L}"};
  text.places = {PlanText::place("Base", "air"), PlanText::place("Far", "air")};
  text.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: Far, distance: 100 km, surfaces: {sealed: 60 km, track: 40 km}, "
                    "speed: 50 km/h}",
                    "stay: {nights: 3}"};
  text.consumables = {
      "{name: stuff, unit: kg, stores: [{name: box, holds: 50 kg, filled: 20 kg}], use: {" + use +
      "}" + more + "}"};
  return text;
}

double used(const std::string& use, std::size_t day) {
  return travel(with_use(use)).reserve(day, stuff).used;
}

TEST(UseBySurface, IsWhatIsSaidOfEach) {
  // 0.6 of 200 g and 0.4 of 500 g.
  EXPECT_NEAR(used("per_100km: {sealed: 200 g, track: 500 g}", 1), 0.12 + 0.2, exact);
  EXPECT_NEAR(used("per_100km: {sealed: 200 g, track: 500 g}", 0), 0, exact);
}

TEST(UseBySurface, IsThatOfTheNextSofterWhereNothingIsSaid) {
  // Sealed takes what gravel does; track what sand does.
  EXPECT_NEAR(used("per_100km: {gravel: 200 g, sand: 500 g}", 1), 0.12 + 0.2, exact);
  // Nothing softer is said: the softest.
  EXPECT_NEAR(used("per_100km: {sealed: 200 g}", 1), 0.2, exact);
}

TEST(UseBySurface, HasAMarginByTheGroundThatTakesMost) {
  const Trip trip = travel(with_use("per_100km: {sealed: 200 g, track: 500 g}", ", margin: 50 km"));
  // On track, 50 km take 250 g; the leg as a whole would take 160 g.
  EXPECT_NEAR(trip.reserve(1, stuff).margin, 0.25, exact);
}

TEST(Doses, AreTakenAtTheirTimes) {
  EXPECT_NEAR(used("doses: {amount: 300 g, at: [\"08:00\", \"20:30\"]}", 0), 0.6, exact);
  EXPECT_NEAR(used("doses: {amount: 300 g}", 2), 0.3, exact);
}

TEST(Doses, AreTakenEverySoManyDaysFromTheFirst) {
  const Trip trip = travel(with_use("doses: {amount: 1 kg, every: 3 days}"));
  EXPECT_NEAR(trip.reserve(0, stuff).used, 1, exact);
  EXPECT_NEAR(trip.reserve(1, stuff).used, 0, exact);
  EXPECT_NEAR(trip.reserve(2, stuff).used, 0, exact);
  EXPECT_NEAR(trip.reserve(3, stuff).used, 1, exact);
}

TEST(Doses, AreTakenOnceWhateverTheStep) {
  for (const double step_h : {1.0, 0.25, 1.0 / 7}) {
    const Trip trip = travel(
        with_use("doses: {amount: 100 g, at: [\"00:00\", \"10:00\", \"23:59\"]}").plan(), step_h);
    for (std::size_t day = 0; day < trip.days(); ++day) {
      EXPECT_NEAR(trip.reserve(day, stuff).used, 0.3, exact) << day << " by " << step_h;
    }
  }
}

TEST(Doses, RunOutAtTheMinuteOfTheOneThatIsMissing) {
  // 20 kg at 2 kg an evening leave 18, 16, 14; 8 kg a dose at noon empties it on the third day.
  const Trip trip = travel(with_use("doses: {amount: 8 kg, at: \"12:30\"}"));
  EXPECT_NEAR(trip.reserve(2, stuff).short_of, 4, exact);
  EXPECT_NEAR(trip.reserve(2, stuff).short_h, 12.5, exact);
}

TEST(Doses, BreakAMarginAtTheirMinute) {
  // 20 kg, two doses of 3 kg a day: 8 kg are left after the fourth, on day 2 at 20:00; 2 days of
  // margin are 12 kg, broken by the third, at 08:00 on day 2.
  const Trip trip =
      travel(with_use("doses: {amount: 3 kg, at: [\"08:00\", \"20:00\"]}", ", margin: 2 days"));
  EXPECT_NEAR(trip.reserve(0, stuff).margin, 12, exact);
  EXPECT_LT(trip.reserve(0, stuff).breach_h, 0);
  EXPECT_NEAR(trip.reserve(1, stuff).breach_h, 8, 1e-6);
}

TEST(UseInTheCold, IsByTheDegreeAndTheDay) {
  // 20 °C all day: 5 degrees below 25 °C.
  EXPECT_NEAR(used("in_cold: {below: 25 °C, per_degree_day: 100 g}", 0), 0.5, exact);
  EXPECT_NEAR(used("in_cold: {below: 15 °C, per_degree_day: 100 g}", 0), 0, exact);
}

TEST(UseInTheHeat, IsByTheDegreeAndTheDay) {
  EXPECT_NEAR(used("in_heat: {above: 12 °C, per_degree_day: 100 g}", 0), 0.8, exact);
  EXPECT_NEAR(used("in_heat: {above: 22 °C, per_degree_day: 100 g}", 0), 0, exact);
}

TEST(UseByTheAir, CountsTheHoursBeyondTheTemperatureAlone) {
  PlanText text = with_use("in_cold: {below: 15 °C, per_degree_day: 240 g}", ", margin: 1 day");
  text.climate = {PlanText::climate_of("air", 25, 5, "40 %", "0 kWh/m2/day")};
  const Trip trip = travel(text);
  double degree_hours = 0;
  for (const double air_c : trip.course.timeline->conditions.place_days.front().air_c) {
    degree_hours += air_c < 15 ? 15 - air_c : 0;
  }
  ASSERT_GT(degree_hours, 40);  // although the mean of the day is 15 °C
  EXPECT_NEAR(trip.reserve(0, stuff).used, degree_hours / 24 * 0.24, 1e-6);
  // A margin of a day is what such a day uses.
  EXPECT_NEAR(trip.reserve(0, stuff).margin, trip.reserve(0, stuff).used, 1e-6);
}

TEST(UseOfAllSorts, AddsUp) {
  EXPECT_NEAR(used("per_day: 1 kg, per_person_day: 100 g, per_meal: 50 g, per_100km: {sealed: 200 "
                   "g, track: 500 g}, per_engine_hour: 100 g, doses: {amount: 10 g}, in_heat: "
                   "{above: 12 °C, per_degree_day: 100 g}",
                   1),
              1 + 0.2 + 6 * 0.05 + 0.32 + 2 * 0.1 + 0.01 + 0.8, exact);
}

TEST(ASteadyUse, BreaksOnTheExactDay) {
  for (int days = 1; days <= 3; ++days) {
    const double rate = 20.0 / (days + 0.5);
    const Trip trip = travel(with_use("per_day: " + std::to_string(rate) + " kg"));
    EXPECT_LT(trip.reserve(static_cast<std::size_t>(days) - 1, stuff).short_h, 0) << days;
    EXPECT_NEAR(trip.reserve(static_cast<std::size_t>(days), stuff).short_h, 12, 1e-3) << days;
  }
}

// Lower heating value of propane: 46.4 MJ/kg; water: 4.19 kJ/kg K (standard property tables,
// memory). A litre of tea water from 15 to 100 °C: 356 kJ; at 50 % of the burner 15.4 g.
TEST(CookingGas, OfABottleLastsTwoPeopleSomeWeeks) {
  constexpr double propane_kj_kg = 46'400;
  constexpr double boil_kj_l = 4.19 * (100 - 15);
  const double boil_kg_l = boil_kj_l / propane_kj_kg / 0.5;
  EXPECT_NEAR(boil_kg_l, 0.0154, 0.0001);
  // Each meal as much as boiling two litres (ours: a pot of food and a drink for one, of two).
  PlanText text = with_use("per_meal: " + std::to_string(2 * boil_kg_l * 1000) + " g");
  text.consumables = {
      "{name: stuff, unit: kg, stores: [{name: bottle, holds: 4 kg, filled: 4 kg}], use: "
      "{per_meal: " +
      std::to_string(2 * boil_kg_l * 1000) + " g}}"};
  text.itinerary = {"{at: Base}", "stay: {nights: 40}"};
  const Trip trip = travel(text);
  double days = 0;
  while (days < 40 && trip.reserve(static_cast<std::size_t>(days), stuff).short_of <= 0) ++days;
  // A bottle of 4 kg is three weeks of cooking for two, within a week (common practice).
  EXPECT_GT(days, 14);
  EXPECT_LT(days, 28);
}

}  // namespace
}  // namespace drystage::consumables_use_test
