// Facts of the trade, common practice, no source: each as a run of the whole engine.
#include <gtest/gtest.h>

#include "plan/read.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

/// Two adults, a warm and sunny place, drinking water without end.
PlanText two_adults() {
  PlanText plan;
  plan.people = {PlanText::person("Ada", ""), PlanText::person("Ben", "")};
  plan.climate = {PlanText::climate_of("air", 33, 17, "25 %", "5.5 kWh/m2/day")};
  plan.containers = {"{name: cans, holds: 900 L, filled: 900 L, for: drinking}"};
  return plan;
}

/// Days until a utility tank of 110 L is empty.
double days_of_utility(int people, const std::vector<std::string>& uses) {
  PlanText plan = two_adults();
  plan.people.resize(static_cast<std::size_t>(people));
  plan.containers.emplace_back("{name: tank, holds: 110 L, filled: 110 L, for: utility}");
  plan.utility_use = uses;
  plan.itinerary = {"{at: Base}", "stay: {nights: 40}"};
  const Trip trip = travel(plan);
  const int utility = support::reserve_index(trip.course, "utility_water");
  for (const engine::Event& event : trip.told(EventKind::short_of)) {
    if (event.subject == utility) return support::trip_hour(event) / 24;
  }
  return 40;
}

TEST(CommonPractice, AUtilityTankOf110LitresLastsOneOrTwoPeopleAboutTwoWeeks) {
  const double sparing =
      days_of_utility(2, {"cooking: 2 L/day", "dishes: 1.2 L/day", "washing: 0.8 L/day"});
  EXPECT_GT(sparing, 12);
  EXPECT_LT(sparing, 16);
  const double easy =
      days_of_utility(1, {"cooking: 3 L/day", "dishes: 2 L/day", "washing: 2.5 L/day"});
  EXPECT_GT(easy, 12);
  EXPECT_LT(easy, 16);
}

constexpr const char* chest =
    "{name: chest, volume: 47 L, set_point: 2 °C, rated: {draw: 0.9 A, ambient: 32 °C, inside: 4 "
    "°C}, frozen_below: {barrier: 0.35 W/K}, stands_in: {above_ambient: 5 °C, while: driving}}";

/// A loop driven a few hours every day, with the chest, lights and small things to charge.
PlanText daily_driving(int days) {
  PlanText plan = two_adults();
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2700 kg}, tanks: [{name: tank, holds: 900 L, "
      "filled: 900 L}]}"};
  plan.cold = {chest};
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, floor: 50 %, cut_off: 40 %}"};
  plan.charging = {"{name: DC-DC, current: 20 A, while: driving}"};
  plan.loads = {"{name: lights, draw: 14 W, after_dark: 3 h/day}",
                "{name: small charging, energy: 60 Wh/day}"};
  plan.margins = {"battery: 50 %"};
  plan.itinerary = {"{at: Base}"};
  for (int day = 0; day < days; ++day) {
    plan.itinerary.emplace_back("drive: {to: Base, distance: 150 km, surfaces: gravel}");
    plan.itinerary.emplace_back("stay: {nights: 1}");
  }
  return plan;
}

TEST(CommonPractice, ACabinetOf44To50LitresServesTwoAdultsForAWeek) {
  PlanText plan = daily_driving(7);
  plan.food = {
      "{item: fresh, kept: chilled, mass: 14 kg, meals: 36, keeps: {for: 10 days, at: 4 °C}}",
      "{item: lamb, kept: frozen, mass: 4 kg, meals: 16}", "{item: dry, kept: dry, meals: 40}"};
  for (const plan::Diagnostic& diagnostic : plan::read_text(plan.text()).diagnostics) {
    EXPECT_EQ(diagnostic.what.find("chest"), std::string::npos) << diagnostic.what;  // too full
  }
  const Trip trip = travel(plan);
  EXPECT_EQ(trip.sum(&ReserveDay::lost, "food"), 0);
  EXPECT_LE(trip.outlook("cold:chest").lowest, 5);
}

TEST(CommonPractice, FrozenGoodsUnderABarrierNearTwoDegreesStayFrozenManyDays) {
  PlanText plan = daily_driving(10);
  plan.food.emplace_back("{item: lamb, kept: frozen, mass: 6 kg, water: 73 %, meals: 24}");
  EXPECT_TRUE(travel(plan).told(EventKind::thawed).empty());
}

TEST(CommonPractice, A20AmpereChargerAndABankOf100AmpereHoursKeepUpWithDailyDriving) {
  const Trip trip = travel(daily_driving(14));
  EXPECT_FALSE(trip.outlook("battery:bank").first_breach_day);
  EXPECT_TRUE(trip.told(EventKind::cut_off).empty());
  EXPECT_GT(trip.reserve(trip.days() - 1, "battery:bank").end, 70);
}

TEST(CommonPractice, ABankOf300AmpereHoursCarriesTheSameForSomeDaysOfStandingStill) {
  PlanText plan = daily_driving(0);
  plan.batteries = {"{name: bank, kind: agm, capacity: 300 Ah, floor: 50 %, cut_off: 40 %}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 4}"};
  EXPECT_FALSE(travel(plan).outlook("battery:bank").first_breach_day);
  plan.batteries = {"{name: bank, kind: agm, capacity: 100 Ah, floor: 50 %, cut_off: 40 %}"};
  EXPECT_TRUE(travel(plan).outlook("battery:bank").first_breach_day);
}

TEST(CommonPractice, OneCanOf20LitresIsAReserveOfAboutAHundredAndFiftyKilometres) {
  PlanText plan = daily_driving(1);
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2700 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 25 L}, {name: jerry, holds: 20 L, filled: 20 L}]}"};
  const Trip trip = travel(plan);
  const ReserveDay& day = trip.reserve(0, "fuel:truck");
  const double km_of_a_can = 20 * day.endurance / day.lowest;
  EXPECT_GT(km_of_a_can, 100);
  EXPECT_LT(km_of_a_can, 200);
}

TEST(CommonPractice, BrackishWaterIsFineForWashingAlone) {
  PlanText plan = two_adults();
  plan.containers.emplace_back(
      "{name: tank, holds: 110 L, filled: 110 L, for: utility, quality: brackish}");
  plan.utility_use = {"washing: 2 L/day", "dishes: 1.2 L/day",
                      "shower: {volume: 5 L, every: 4 days}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 10}"};
  const Trip trip = travel(plan);
  EXPECT_EQ(trip.sum(&ReserveDay::short_of, "utility_water"), 0);
  const double washed_l = trip.sum(&ReserveDay::used, "utility_water");
  EXPECT_GT(washed_l, 2 * (30 + 2 * 5));
  plan.utility_use.emplace_back("cooking: 2 L/day");
  const Trip cooking = travel(plan);
  EXPECT_NEAR(cooking.sum(&ReserveDay::used, "utility_water"), washed_l, 1e-6);
  EXPECT_GT(cooking.sum(&ReserveDay::short_of, "utility_water"), 2 * 2 * 10 - 1e-6);
}

}  // namespace
}  // namespace drystage
