// What applies at some times only: while driving, parked, or in camp.
#include <gtest/gtest.h>

#include <string>

#include "support/trip.h"

namespace drystage::while_test {
namespace {

using engine::ReserveDay;
using support::PlanText;
using support::travel;
using support::Trip;

constexpr double exact = 1e-9;
constexpr const char* bank = "battery:bank";

/// Day 1 at Base. Day 2: from 08:00 two hours of driving, three of a stop at Mid, two of driving.
/// Day 3 at Far.
PlanText with_power(const std::string& charging, const std::string& load) {
  PlanText text;
  text.vehicles = {
      "{name: truck, fuel: petrol, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}]}"};
  text.containers = {"{name: can, holds: 100 L, filled: 100 L}"};
  text.batteries = {"{name: bank, kind: lfp, capacity: 900 Ah, filled: 50 %}"};
  if (!charging.empty()) text.charging = {charging};
  if (!load.empty()) text.loads = {load};
  text.climate = {PlanText::steady_climate("air", 25, "6 kWh/m2/day")};
  text.places = {PlanText::place("Base", "air"), PlanText::place("Mid", "air", "petrol: {}"),
                 PlanText::place("Far", "air")};
  text.itinerary = {"{at: Base}",
                    "stay: {nights: 1}",
                    "drive: {to: Mid, distance: 100 km, surfaces: sealed, speed: 50 km/h}",
                    "resupply: {petrol: fill, takes: 3 h}",
                    "drive: {to: Far, distance: 100 km, surfaces: sealed, speed: 50 km/h}",
                    "stay: {nights: 2}"};
  return text;
}

/// Hours in which a load of 12 W, 1 A at 12 V, was on.
double hours_on(const std::string& when, std::size_t day) {
  return travel(with_power("", "{name: fan, draw: 12 W, while: " + when + "}"))
      .reserve(day, bank)
      .drawn;
}

TEST(ALoad, IsOnInItsHours) {
  EXPECT_NEAR(hours_on("always", 1), 24, exact);
  EXPECT_NEAR(hours_on("driving", 1), 4, exact);
  EXPECT_NEAR(hours_on("parked", 1), 20, exact);
  EXPECT_NEAR(hours_on("camp", 1), 17, exact);
}

TEST(ALoad, IsOnAllOfADayOfStayingInCamp) {
  EXPECT_NEAR(hours_on("camp", 0), 24, exact);
  EXPECT_NEAR(hours_on("driving", 0), 0, exact);
}

TEST(ALoad, StandingIsParked) { EXPECT_EQ(hours_on("standing", 1), hours_on("parked", 1)); }

TEST(APanel, YieldsInItsHours) {
  const auto gained = [](const std::string& when, std::size_t day) {
    return travel(with_power("{name: panel, solar: 100 W, while: " + when + "}", ""))
        .reserve(day, bank)
        .gained;
  };
  // A whole day of staying, and on the second day what is not yielded on the way or at the stop.
  EXPECT_GT(gained("always", 0), 10);
  EXPECT_NEAR(gained("camp", 0), gained("always", 0), exact);
  EXPECT_NEAR(gained("driving", 1) + gained("parked", 1), gained("always", 1), 1e-6);
  // 08:00 to 15:00 is the best of the day, on the equator where clock and sun agree.
  EXPECT_LT(gained("camp", 1), 0.45 * gained("always", 1));
  EXPECT_GT(gained("camp", 1), 0.1 * gained("always", 1));
  EXPECT_GT(gained("parked", 1), gained("camp", 1));
}

TEST(ACabinetsPlace, IsHotInItsHours) {
  const auto gained_heat = [](const std::string& when) {
    PlanText text = with_power("", "");
    text.cold = {
        "{name: chest, volume: 40 L, set_point: 4 °C, rated: {draw: 11 W, ambient: 32 °C, inside: "
        "4 "
        "°C}, lid: {openings: 0, warm: 0 L/day}, stands_in: {above_ambient: 10 °C, while: " +
        when + "}}"};
    return travel(text).store(1, "heat in chest").gained;
  };
  // By the hour: heat leaks in at W/K times the difference.
  EXPECT_NEAR(gained_heat("parked") - gained_heat("driving"),
              (gained_heat("always") - gained_heat("driving")) * 16.0 / 20, 1e-6);
}

/// 276 W at 13.8 V are 20 A; it runs five hours from 20:00, 0.5 L/h.
std::string generator(const std::string& more) {
  return "{name: generator, generator: 276 W, fuel: petrol, uses: 0.5 L/h, runs: 5 h/day, starts: "
         "\"20:00\"" +
         more + "}";
}

TEST(AGenerator, DoesNotRunInHoursOfQuiet) {
  const Trip trip = travel(with_power(generator(", quiet: {from: \"22:00\", to: \"07:00\"}"), ""));
  EXPECT_NEAR(trip.reserve(0, bank).gained, 2 * 20, exact);
  EXPECT_NEAR(trip.reserve(2, bank).gained, 2 * 20, exact);
  EXPECT_NEAR(trip.reserve(0, "fuel:truck").used, 2 * 0.5, exact);
}

TEST(AGenerator, GoesOnAfterQuietThatEndsInItsRun) {
  const Trip trip = travel(with_power(generator(", quiet: {from: \"20:30\", to: \"21:30\"}"), ""));
  EXPECT_NEAR(trip.reserve(0, bank).gained, 3 * 20, exact);        // till midnight, less an hour
  EXPECT_NEAR(trip.reserve(2, bank).gained, (3 + 1) * 20, exact);  // and one from the day before
}

TEST(AGenerator, RunsInCampOrOnTheMoveAsIsSaid) {
  const auto used = [](const std::string& more) {
    return travel(with_power("{name: generator, generator: 276 W, fuel: petrol, uses: 0.5 L/h, "
                             "runs: 6 h/day, starts: \"09:00\"" +
                                 more + "}",
                             ""))
        .reserve(1, bank)
        .gained;
  };
  // 09:00 to 15:00: one hour of driving, the stop of three, two of driving.
  EXPECT_NEAR(used(""), 3 * 20, exact);
  EXPECT_NEAR(used(", while: parked"), 3 * 20, exact);
  EXPECT_NEAR(used(", while: camp"), 0, exact);
  EXPECT_NEAR(used(", while: driving"), 3 * 20, exact);
  EXPECT_NEAR(used(", while: always"), 6 * 20, exact);
}

constexpr const char* petrol = "consumable:generator petrol";

PlanText with_own_can(double petrol_l) {
  PlanText text = with_power(generator(", burns: generator petrol"), "");
  text.consumables = {
      "{name: generator petrol, unit: L, unit_mass: 0.745 kg, margin: 1 day, stores: [{name: red "
      "can, holds: 10 L, filled: " +
      std::to_string(petrol_l) + " L}]}"};
  return text;
}

TEST(AGenerator, BurnsWhatIsInItsOwnCan) {
  const Trip trip = travel(with_own_can(9));
  // Four hours till midnight; then five, and one of the evening before.
  EXPECT_NEAR(trip.reserve(0, petrol).used, 4 * 0.5, exact);
  EXPECT_NEAR(trip.reserve(2, petrol).used, 5 * 0.5, exact);
  EXPECT_NEAR(trip.reserve(0, bank).gained, 4 * 20, exact);
  EXPECT_NEAR(trip.sum(&ReserveDay::used, "fuel:truck"),
              travel(with_power("", "")).sum(&ReserveDay::used, "fuel:truck"), 0.1);
  EXPECT_NEAR(trip.reserve(0, petrol).margin, 5 * 0.5, exact);
}

TEST(AGenerator, StopsWhenItsOwnCanIsEmpty) {
  const Trip trip = travel(with_own_can(3));
  EXPECT_NEAR(trip.reserve(1, bank).gained, 2 * 20, exact);
  EXPECT_NEAR(trip.reserve(1, petrol).short_of, 5 * 0.5 - 1, exact);
  EXPECT_NEAR(trip.reserve(1, petrol).short_h, 21, exact);  // one hour past midnight, and one more
  EXPECT_FALSE(trip.told(engine::EventKind::generator_dry).empty());
  EXPECT_FALSE(trip.verdict.holds);
}

}  // namespace
}  // namespace drystage::while_test
