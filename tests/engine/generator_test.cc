// A generator: fuel in, charge out.
#include <gtest/gtest.h>

#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

PlanText with_generator(double petrol_l) {
  PlanText plan;
  plan.climate = {PlanText::steady_climate("air", 25)};
  plan.vehicles = {
      "{name: van, fuel: petrol, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: "
      "60 L, filled: " +
      std::to_string(petrol_l) + " L}]}"};
  plan.batteries = {"{name: bank, kind: lfp, capacity: 200 Ah, filled: 50 %}"};
  plan.charging = {
      "{name: generator, generator: 276 W, fuel: petrol, uses: 0.5 L/h, runs: 2 h/day}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 4}"};
  return plan;
}

/// 276 W at 13.8 V, the voltage at which a 12 V bank is charged (common practice), are 20 A.
TEST(Generator, BurnsTheVehiclesFuelAndChargesTheBank) {
  const Trip trip = travel(with_generator(20));
  for (std::size_t d = 0; d < 4; ++d) {
    EXPECT_NEAR(trip.reserve(d, "fuel:van").used, 1.0, 1e-9) << d;
  }
  EXPECT_NEAR(trip.reserve(0, "battery:bank").gained, 2 * 276 / 13.8, 1e-9);
  EXPECT_TRUE(trip.told(EventKind::generator_dry).empty());
}

TEST(Generator, StopsWithoutFuel) {
  const Trip trip = travel(with_generator(1.25));
  EXPECT_NEAR(trip.reserve(0, "battery:bank").gained, 40, 1e-9);
  EXPECT_NEAR(trip.reserve(1, "battery:bank").gained, 10, 1e-9);
  EXPECT_NEAR(trip.reserve(2, "battery:bank").gained, 0, 1e-12);
  EXPECT_NEAR(trip.sum(&ReserveDay::short_of, "fuel:van"), 4 - 1.25, 1e-9);
  EXPECT_FALSE(trip.told(EventKind::generator_dry).empty());
}

TEST(Generator, IsNotSaidToBeDryWhenItsFuelIsOnlySpreadOverTwoCans) {
  PlanText plan = with_generator(20);
  // Amounts that do not add up to an hour's fuel in the last digit of a double: 0.18 + (0.9 -
  // 0.18).
  plan.charging = {
      "{name: generator, generator: 276 W, fuel: petrol, uses: 0.9 L/h, runs: 2 h/day}"};
  for (const char* first : {"0.18", "0.19", "0.2"}) {
    plan.vehicles = {std::string("{name: van, fuel: petrol, mass: {empty: 2500 kg}, tanks: [{name: "
                                 "a, holds: 5 L, filled: ") +
                     first + " L}, {name: b, holds: 20 L, filled: 20 L}]}"};
    EXPECT_TRUE(travel(plan).told(EventKind::generator_dry).empty()) << first;
  }
}

TEST(Generator, RunsItsHoursOutPastMidnight) {
  PlanText plan = with_generator(20);
  plan.charging = {
      "{name: generator, generator: 276 W, fuel: petrol, uses: 0.5 L/h, runs: 2 h/day, starts: "
      "\"23:00\"}"};
  const Trip trip = travel(plan);
  for (const std::size_t d : {1U, 2U, 3U}) {
    EXPECT_NEAR(trip.reserve(d, "fuel:van").used, 0.5 * 2, 1e-9) << d;
  }
}

TEST(Generator, RestsWhereTheMainsIs) {
  PlanText plan = with_generator(20);
  plan.places = {PlanText::place("Base", "air", "mains: {}")};
  plan.charging.emplace_back("{name: lead, mains: 10 A}");
  EXPECT_EQ(travel(plan).sum(&ReserveDay::used, "fuel:van"), 0);
}

}  // namespace
}  // namespace drystage
