#include <gtest/gtest.h>

#include <string>

#include "support/trip.h"

namespace drystage::engine {
namespace {

using support::PlanText;
using support::travel;
using support::Trip;

PlanText two_hundred_km(const std::string& vehicle_more) {
  PlanText plan;
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2700 kg, limit: 3500 kg}, tanks: [{name: tank, "
      "holds: 80 L, filled: 80 L}]" +
      vehicle_more + "}"};
  plan.places.push_back(PlanText::place("There", "air"));
  plan.itinerary = {"{at: Base}",
                    "drive: {to: There, distance: 200 km, surfaces: sealed, speed: 72 km/h, "
                    "climb: 900 m, descent: 900 m}"};
  return plan;
}

TEST(ATrailer, IsMovedAndLiftedAndIsNoPartOfTheVehiclesMass) {
  const Trip alone = travel(two_hundred_km(""));
  const Trip towing = travel(two_hundred_km(", trailer: {mass: 800 kg, drag_area: 0.5 m2}"));
  // But for what presses on its ball: a tenth.
  EXPECT_DOUBLE_EQ(towing.record.heaviest[0].kg, alone.record.heaviest[0].kg + 80);
  const double more =
      towing.sum(&ReserveDay::used, "fuel:truck") - alone.sum(&ReserveDay::used, "fuel:truck");
  // By hand, at 0.24 of 35.8 MJ/L: rolling 0.015 x 800 kg, drag 0.5 m2 at 20 m/s, and 900 m up. On
  // 15 km of 6 % down rolling and drag are saved.
  const double density = 101325 / (287.05 * 293.15);  // dry air of 20 °C at sea level (ICAO)
  const double level_n = 0.015 * 800 * 9.80665 + 0.5 * density * 0.5 * 20 * 20;
  const double by_hand = (level_n * (200e3 - 15e3) + 800 * 9.80665 * 900) / (0.24 * 35.8e6);
  EXPECT_NEAR(more, by_hand, 0.01 * by_hand);
}

TEST(ATrailer, MakesAMarginInKilometresDearer) {
  const auto km = [](const std::string& more) {
    const Trip trip = travel(two_hundred_km(more));
    return trip.reserve(0, "fuel:truck").endurance / trip.reserve(0, "fuel:truck").lowest;
  };
  EXPECT_LT(km(", trailer: {mass: 800 kg}"), 0.9 * km(""));
}

}  // namespace
}  // namespace drystage::engine
