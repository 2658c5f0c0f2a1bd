// Margins as amounts, shares, days and km; the low point counts.
#include <gtest/gtest.h>

#include <cmath>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

PlanText driving() {
  PlanText plan;
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: main, holds: 80 L, "
      "filled: 70 L, unusable: 5 L}], observed: [{surface: sealed, uses: 10 L/100km}, {surface: "
      "gravel, uses: 20 L/100km}, {surface: soft sand, uses: 40 L/100km}]}"};
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  plan.places.push_back(PlanText::place("There", "air"));
  plan.places.push_back(PlanText::place("Beyond", "air"));
  plan.driving =
      "{most_per_day: 10 h, daylight_only: no, depart: \"08:00\", speeds: {sealed: 50 "
      "km/h, gravel: 50 km/h, soft sand: 20 km/h}}";
  plan.itinerary = {"{at: Base}", "drive: {to: There, distance: 100 km, surfaces: sealed}",
                    "stay: {nights: 1}", "drive: {to: Beyond, distance: 100 km, surfaces: gravel}"};
  return plan;
}

TEST(Margin, OfAnAmountAndAShareAreAmounts) {
  PlanText plan = driving();
  plan.margins = {"drinking_water: 25 %", "fuel: 20 L"};
  const Trip trip = travel(plan);
  EXPECT_NEAR(trip.reserve(0, "drinking_water").margin, 15, 1e-9);
  EXPECT_NEAR(trip.reserve(0, "fuel:truck").margin, 20, 1e-9);
}

TEST(Margin, OfDaysIsWhatStayingPutUses) {
  PlanText plan = driving();
  plan.margins = {"drinking_water: 3 days"};
  EXPECT_NEAR(travel(plan).reserve(0, "drinking_water").margin, 12, 1e-9);
}

TEST(Margin, OfAReservesOwnNameWinsOverItsFamilys) {
  PlanText plan = driving();
  plan.margins = {"fuel: 20 L", "\"fuel:truck\": 33 L"};
  EXPECT_NEAR(travel(plan).reserve(0, "fuel:truck").margin, 33, 1e-9);
}

TEST(Margin, OfKmIsOnTheWorseOfThisLegAndTheNext) {
  PlanText plan = driving();
  plan.margins = {"fuel: 150 km"};
  const Trip trip = travel(plan);
  // Gravel is the worse of the first two, and the last has no next.
  EXPECT_NEAR(trip.reserve(0, "fuel:truck").margin, 150 * 0.20, 1e-9);
  EXPECT_NEAR(trip.reserve(1, "fuel:truck").margin, 150 * 0.20, 1e-9);
}

TEST(Margin, OfKmAtACampHalfWayCountsTheLegThatIsNotYetOver) {
  PlanText plan = driving();
  plan.margins = {"fuel: 50 km"};
  // Ten hours of soft sand, then sealed road to the end.
  plan.itinerary = {"{at: Base}", "drive: {to: There, distance: 200 km, surfaces: soft sand}",
                    "drive: {to: Beyond, distance: 10 km, surfaces: sealed}"};
  plan.driving =
      "{most_per_day: 4 h, daylight_only: no, depart: \"08:00\", speeds: {soft sand: 20 "
      "km/h}}";
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: main, holds: 200 L, "
      "filled: 200 L}], observed: [{surface: sealed, uses: 10 L/100km}, {surface: soft sand, uses: "
      "40 L/100km}]}"};
  const Trip trip = travel(plan);
  ASSERT_GE(trip.days(), 3U);
  // In the evening there is still sand to come.
  for (const std::size_t d : {0U, 1U}) {
    const ReserveDay& day = trip.reserve(d, "fuel:truck");
    EXPECT_NEAR(day.margin, 50 * 0.40, 1e-9) << d;
    EXPECT_NEAR(day.endurance, day.end / 0.40, 1e-6) << d;
  }
}

TEST(Margin, OfKmCountsTheSurfaceUnderTheWheelsAndNotOnlyTheMeanOfTheLeg) {
  PlanText plan = driving();
  plan.margins = {"fuel: 50 km"};
  plan.itinerary = {"{at: Base}",
                    "drive: {to: There, distance: 100 km, surfaces: [{surface: sealed, distance: "
                    "98 km}, {surface: soft sand, distance: 2 km}]}",
                    "stay: {nights: 2}", "drive: {to: Beyond, distance: 100 km, surfaces: sealed}",
                    "stay: {nights: 2}"};
  const Trip trip = travel(plan);
  // On the day of arrival, and in the camp on the sand; both legs' means are far below it.
  for (const std::size_t d : {0U, 1U}) {
    const ReserveDay& day = trip.reserve(d, "fuel:truck");
    EXPECT_NEAR(day.margin, 50 * 0.40, 1e-9) << d;
    EXPECT_NEAR(day.endurance, day.lowest / 0.40, 1e-6) << d;
  }
  // On the sealed road again it is the road's.
  const ReserveDay& last = trip.reserve(3, "fuel:truck");
  EXPECT_NEAR(last.margin, 50 * 0.10, 1e-9);
  EXPECT_NEAR(last.endurance, last.lowest / 0.10, 1e-6);
}

TEST(Margin, OfBatteryDaysIsWhatADayTakesAboveWhatTheColdPutsOutOfReach) {
  PlanText plan;
  plan.climate = {PlanText::steady_climate("air", 4.4)};
  plan.margins = {"battery: 1 day"};
  plan.batteries = {"{name: bank, kind: agm, capacity: 200 Ah, cut_off: 0 %, floor: 0 %}"};
  plan.loads = {"{name: fan, draw: 12 W}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 9}"};
  const Trip trip = travel(plan);
  // IEEE 485 (memory): a factor of 1.30 at 4.4 °C.
  const double out_of_reach = 200 - 200 / 1.30;
  EXPECT_NEAR(trip.reserve(0, "battery:bank").margin, out_of_reach + 24, 1e-6);
  // The margin is broken a day before the loads go.
  const auto cut = trip.told(engine::EventKind::cut_off);
  ASSERT_EQ(cut.size(), 1U);
  EXPECT_NEAR(support::trip_hour(cut.front()), 200 / 1.30, 1e-6);
  const auto first = trip.outlook("battery:bank").first_breach_day;
  ASSERT_TRUE(first);
  const auto day = static_cast<std::size_t>(*first);
  const double breach_h = 24.0 * *first + trip.reserve(day, "battery:bank").breach_h;
  // At 1 Ah an hour, when 24 Ah are left above what is out of reach.
  EXPECT_NEAR(breach_h, 200 / 1.30 - 24, 1e-6);
}

TEST(LowPoint, BeforeARefillCountsAndNotTheEvening) {
  PlanText plan;
  plan.margins = {"drinking_water: 5 L"};
  plan.containers = {"{name: can, holds: 40 L, filled: 10 L, for: drinking}"};
  plan.places = {PlanText::place("Base", "air", "drinking_water: {}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {drinking_water: fill}",
                    "stay: {nights: 1}"};
  const Trip trip = travel(plan);
  // At eight on the second day 32 hours have been drunk.
  const ReserveDay& day = trip.reserve(1, "drinking_water");
  EXPECT_NEAR(day.lowest, 10 - 4 * 32 / 24.0, 1e-9);
  EXPECT_GT(day.end, 30);
  ASSERT_TRUE(trip.verdict.first_breach);
  EXPECT_EQ(trip.verdict.first_breach->day, 1);
  // 5 L are drunk in 30 hours: at six on the second day.
  EXPECT_NEAR(trip.verdict.first_breach->hour, 6, 1e-9);
  EXPECT_NEAR(trip.verdict.first_breach->left, day.lowest, 1e-12);
}

TEST(LowPoint, OfFuelIsNotTheUnusableRemainder) {
  PlanText plan = driving();
  const Trip trip = travel(plan);
  EXPECT_NEAR(trip.reserve(0, "fuel:truck").start, 65, 1e-9);
  EXPECT_NEAR(trip.reserve(1, "fuel:truck").end, 65 - 10 - 20, 1e-9);
}

}  // namespace
}  // namespace drystage
