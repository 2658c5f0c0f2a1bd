// Resupply: what is open, how much there is, and what is needed to the next one.
#include <gtest/gtest.h>

#include "answers/base/plan_run.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

PlanText with_truck() {
  PlanText plan;
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: main, holds: 80 L, "
      "filled: 40 L, unusable: 4 L}, {name: jerry, holds: 20 L, filled: 0 L}]}"};
  plan.containers = {"{name: can, holds: 60 L, filled: 12 L, for: drinking}"};
  plan.food = {"{item: rice, kept: dry, mass: 20 kg, meals: 60}"};
  return plan;
}

/// 1 March 2027 is a Monday.
PlanText shop(const std::string& supply) {
  PlanText plan = with_truck();
  plan.places = {PlanText::place("Base", "air", supply)};
  plan.itinerary = {"{at: Base}", "resupply: {diesel: fill}", "stay: {nights: 1}"};
  return plan;
}

double diesel_taken(const std::string& supply) {
  return travel(shop(supply)).sum(&ReserveDay::gained, "fuel:truck");
}

TEST(Supply, FillsTanksAndCansWhenOpen) {
  EXPECT_NEAR(diesel_taken("diesel: {}"), 60, 1e-9);
  EXPECT_NEAR(diesel_taken("diesel: {open: [mon]}"), 60, 1e-9);
  EXPECT_NEAR(diesel_taken("diesel: {open_dates: [2027-03-01]}"), 60, 1e-9);
}

TEST(Supply, GivesNothingWhenShutAndSaysSo) {
  for (const char* supply : {"diesel: {open: [tue, wed]}", "diesel: {shut: [2027-03-01]}",
                             "diesel: {open_dates: [{from: 2027-03-02, to: 2027-04-01}]}"}) {
    const Trip trip = travel(shop(supply));
    EXPECT_EQ(trip.sum(&ReserveDay::gained, "fuel:truck"), 0) << supply;
    EXPECT_EQ(trip.told(EventKind::shut).size(), 1U) << supply;
  }
}

TEST(Supply, GivesNoMoreThanThereIs) {
  EXPECT_NEAR(diesel_taken("diesel: {most: 25 L}"), 25, 1e-9);
}

TEST(Supply, SharesOneAmountAmongVehiclesOfTheSameFuel) {
  PlanText plan = shop("diesel: {}");
  plan.vehicles.emplace_back(
      "{name: van, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 50 L, "
      "filled: 10 L}]}");
  plan.itinerary[1] = "resupply: {diesel: 75 L}";
  const Trip trip = travel(plan);
  EXPECT_NEAR(trip.sum(&ReserveDay::gained, "fuel:truck"), 60, 1e-9);
  EXPECT_NEAR(trip.sum(&ReserveDay::gained, "fuel:van"), 15, 1e-9);
}

TEST(Supply, KeepsFuelKindsApart) {
  PlanText plan = shop("diesel: {}, petrol: {}");
  plan.vehicles.emplace_back(
      "{name: van, fuel: petrol, mass: {empty: 2000 kg}, tanks: [{name: tank, holds: 50 L, "
      "filled: 10 L}]}");
  const Trip trip = travel(plan);
  EXPECT_EQ(trip.sum(&ReserveDay::gained, "fuel:van"), 0);
}

TEST(Supply, OnThatNobodyHasConfirmedIsUsedButTheVerdictCanBeHadWithoutIt) {
  PlanText plan = with_truck();
  plan.margins = {"drinking_water: 1 day"};
  plan.places = {PlanText::place("Base", "air", "drinking_water: {confirmed: no}")};
  plan.itinerary = {"{at: Base}", "resupply: {drinking_water: fill}", "stay: {nights: 5}"};
  const Trip trip = travel(plan);
  EXPECT_EQ(trip.told(EventKind::unconfirmed).size(), 1U);
  EXPECT_TRUE(trip.verdict.holds);
  const auto without = answers::without_unconfirmed(trip);
  ASSERT_TRUE(without);
  EXPECT_FALSE(without->holds);
  // 12 L less a margin of 4 L last two days to the minute.
  EXPECT_EQ(without->first_breach->day, 2);
  EXPECT_NEAR(without->first_breach->hour, 0, 1e-6);
}

TEST(Supply, WithNothingUnconfirmedThereIsNoSecondVerdict) {
  EXPECT_FALSE(answers::without_unconfirmed(travel(shop("diesel: {}"))));
}

/// A drive of two legs with a stop between, where what is needed for the second is taken.
PlanText to_next(const std::string& what) {
  PlanText plan = with_truck();
  plan.margins = {"fuel: 5 L", "drinking_water: 3 L", "food: 2 meals"};
  plan.food = {"{item: rice, kept: dry, mass: 5 kg, meals: 5}"};
  plan.places = {PlanText::place("Base", "air", "diesel: {}, drinking_water: {}, food: {}"),
                 PlanText::place("There", "air")};
  plan.itinerary = {"{at: Base}", "resupply: {" + what + ": to next}", "stay: {nights: 4}",
                    "drive: {to: There, distance: 400 km, surfaces: gravel}"};
  return plan;
}

TEST(ToNext, TakesExactlyWhatLeavesTheMarginUntouched) {
  for (const auto& [commodity, reserve] : {std::pair{"diesel", "fuel:truck"},
                                           {"drinking_water", "drinking_water"},
                                           {"food", "food"}}) {
    const Trip trip = travel(to_next(commodity));
    EXPECT_GE(trip.outlook(reserve).slack, 0) << reserve;
    EXPECT_NEAR(trip.outlook(reserve).slack, 0, 1e-5) << reserve;
    EXPECT_FALSE(trip.outlook(reserve).first_breach_day) << reserve;
    EXPECT_GT(trip.sum(&ReserveDay::gained, reserve), 0) << reserve;
  }
}

TEST(ToNext, TakesNothingWhenThereIsEnough) {
  PlanText plan = to_next("drinking_water");
  plan.containers = {"{name: can, holds: 60 L, filled: 50 L, for: drinking}"};
  EXPECT_NEAR(travel(plan).sum(&ReserveDay::gained, "drinking_water"), 0, 1e-9);
}

TEST(ToNext, CountsOnlyAsFarAsTheNextStopThatSellsIt) {
  PlanText plan = to_next("drinking_water");
  plan.itinerary = {"{at: Base}", "resupply: {drinking_water: to next}", "stay: {nights: 4}",
                    "resupply: {drinking_water: fill}", "stay: {nights: 9}"};
  const Trip trip = travel(plan);
  // At the low point just before the fill on the fifth day the margin is there and no more.
  EXPECT_NEAR(trip.record.order_slack[0], 0, 1e-5);
  // From eight on the first day: four days of 4 L, 3 L to be left, less what is still there.
  EXPECT_NEAR(trip.record.order_taken[0], 4 * 4 + 3 - (12 - 4 * 8 / 24.0), 1e-4);
}

TEST(ToNext, KeepsTheMarginWithAndWithoutAnUnconfirmedSupplyOfSomethingElseOnTheWay) {
  // The water, if it is there, makes the truck 400 kg heavier over the rest of the way.
  PlanText plan = with_truck();
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: main, holds: 120 L, "
      "filled: 6 L, unusable: 4 L}]}"};
  plan.margins = {"fuel: 60 km"};
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}",
                     "{name: tank, holds: 400 L, filled: 0 L, for: utility}"};
  plan.places = {PlanText::place("Base", "air", "diesel: {}"),
                 PlanText::place("Bore", "air", "utility_water: {confirmed: no}"),
                 PlanText::place("There", "air", "diesel: {}")};
  plan.itinerary = {"{at: Base}", "resupply: {diesel: to next}",
                    "drive: {to: Bore, distance: 90 km, surfaces: gravel}",
                    "resupply: {utility_water: fill}",
                    "drive: {to: There, distance: 210 km, surfaces: sand}"};
  const Trip trip = travel(plan);
  ASSERT_NEAR(trip.sum(&ReserveDay::gained, "utility_water"), 400, 1e-9);
  const auto without = answers::without_unconfirmed(trip);
  ASSERT_TRUE(without);
  const auto fuel = static_cast<std::size_t>(support::reserve_index(trip.course, "fuel:truck"));
  // Nothing can be done about the time before the first litre is taken: none passes here.
  EXPECT_GE(trip.verdict.reserves[fuel].slack, 0);
  EXPECT_GE(without->reserves[fuel].slack, 0);
  EXPECT_FALSE(trip.verdict.reserves[fuel].first_breach_day);
  EXPECT_FALSE(without->reserves[fuel].first_breach_day);
  // And it is no more than the heavier of the two takes.
  EXPECT_NEAR(trip.verdict.reserves[fuel].slack, 0, 1e-5);
  EXPECT_GT(without->reserves[fuel].slack, 1);
}

TEST(ToNext, ReachesPastASupplyOfTheSameThatNobodyHasConfirmed) {
  PlanText plan = with_truck();
  plan.margins = {"fuel: 60 km"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: main, holds: 120 L, "
      "filled: 6 L, unusable: 4 L}]}"};
  plan.containers = {"{name: can, holds: 60 L, filled: 60 L, for: drinking}"};
  plan.places = {PlanText::place("Base", "air", "diesel: {}"),
                 PlanText::place("Pump", "air", "diesel: {confirmed: no}"),
                 PlanText::place("There", "air")};
  plan.itinerary = {"{at: Base}", "resupply: {diesel: to next}",
                    "drive: {to: Pump, distance: 90 km, surfaces: gravel}",
                    "resupply: {diesel: fill}",
                    "drive: {to: There, distance: 210 km, surfaces: sand}"};
  const Trip trip = travel(plan);
  const auto without = answers::without_unconfirmed(trip);
  ASSERT_TRUE(without);
  const auto fuel = static_cast<std::size_t>(support::reserve_index(trip.course, "fuel:truck"));
  EXPECT_FALSE(trip.verdict.reserves[fuel].first_breach_day);
  EXPECT_FALSE(without->reserves[fuel].first_breach_day);
  EXPECT_NEAR(without->reserves[fuel].slack, 0, 1e-5);
}

TEST(ToNext, OfIceKeepsTheBoxColdAsFillingItDoes) {
  PlanText plan = with_truck();
  plan.climate = {PlanText::steady_climate("air", 25)};
  plan.cold = {"{name: box, volume: 40 L, ice: 15 kg, heat_leak: 0.7 W/K}"};
  plan.places = {PlanText::place("Base", "air", "ice: {}")};
  plan.itinerary = {"{at: Base}", "stay: {nights: 2}", "resupply: {ice: fill}",
                    "stay: {nights: 2}"};
  const Trip full = travel(plan);
  ASSERT_LE(full.outlook("cold:box").lowest, 5);
  plan.itinerary[2] = "resupply: {ice: to next}";
  EXPECT_LE(travel(plan).outlook("cold:box").lowest, 5);
}

TEST(AnAmountOfIce, IsNoMoreInAFrost) {
  PlanText plan = with_truck();
  plan.climate = {PlanText::steady_climate("air", 30), PlanText::steady_climate("frost", -20)};
  plan.cold = {"{name: box, volume: 40 L, ice: 15 kg, heat_leak: 0.7 W/K}"};
  plan.places = {PlanText::place("Base", "air"), PlanText::place("There", "frost", "ice: {}")};
  plan.itinerary = {"{at: Base}",
                    "stay: {nights: 3}",
                    "drive: {to: There, distance: 50 km, surfaces: sealed}",
                    "stay: {nights: 3}",
                    "resupply: {ice: 1 kg}",
                    "stay: {nights: 1}"};
  const Trip trip = travel(plan);
  ASSERT_LT(trip.reserve(6, "cold:box").end, -2);
  EXPECT_NEAR(trip.record.order_taken.at(0), 1, 1e-9);
}

TEST(BoughtFood, HasRoomForWhatIsBoughtToTheNextStop) {
  PlanText plan = to_next("food");
  plan.itinerary[2] = "stay: {nights: 9}";
  const Trip trip = travel(plan);
  const auto store = static_cast<std::size_t>(support::store_index(trip.course, "bought food"));
  EXPECT_LE(trip.record.store(0, store).end, trip.course.stores[store].capacity + 1e-9);
}

}  // namespace
}  // namespace drystage
