// What happens in a mishap, against plans small enough to reckon by hand, for what no shipped plan
// has.
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/other_plan.h"
#include "support/plan_text.h"
#include "support/suffered.h"
#include "support/trip.h"

namespace drystage::answers {
namespace {

using plan::MishapKind;
using support::exactly;
using support::Planned;
using support::rounding;
using support::Suffered;

TEST(MishapsBruteForceSmall, SoftGoingIsAnObservedUseHalfAsHighAgain) {
  support::PlanText text;
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 90 L, "
      "filled: 90 L}], observed: [{surface: sand, uses: 20 L/100km}]}"};
  text.places = {support::PlanText::place("Base", "air"), support::PlanText::place("Red", "air")};
  text.itinerary = {"{at: Base}", "stay: {nights: 1}",
                    "drive: {to: Red, distance: 60 km, surfaces: sand, speed: 30 km/h}",
                    "stay: {nights: 1}"};
  const Planned planned(text.plan());
  text.vehicles[0].replace(text.vehicles[0].find("20 L/100km"), 2, "30");
  text.itinerary[2].replace(text.itinerary[2].find("30 km/h"), 2, "21");
  const PlanRun other = support::run_plan(text.plan());
  const SweepPlan sweep = planned.sweep(MishapKind::soft_going);
  ASSERT_EQ(sweep.strikes().size(), 1U);
  expect_same(Suffered(sweep, sweep.strikes()[0]), other, exactly);
  // 60 km at 20 and at 30 L/100km, by hand.
  EXPECT_NEAR(planned.run.verdict.reserves[1].lowest, 90 - 12, 1e-9);
  EXPECT_NEAR(other.verdict.reserves[1].lowest, 90 - 18, 1e-9);
}

TEST(MishapsBruteForceSmall, VehicleLeftBehindIsATripWithoutItWithWhatFits) {
  const std::string a =
      "{name: a, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank a, holds: 80 L, filled: "
      "60 L, unusable: 4 L}]}";
  support::PlanText text;
  text.vehicles = {
      a,
      "{name: b, fuel: diesel, mass: {empty: 1900 kg}, tanks: [{name: tank b, holds: 70 L, filled: "
      "50 L, unusable: 5 L}, {name: jerry b, holds: 20 L, filled: 18 L, empty_mass: 5 kg}]}"};
  text.people = {"{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: female, rides_in: a}",
                 "{name: Ben, mass: 70 kg, height: 172 cm, age: 40, sex: male, rides_in: b}"};
  text.containers = {"{name: can a, holds: 30 L, filled: 30 L, in: a}",
                     "{name: can b, holds: 30 L, filled: 30 L, in: b}"};
  text.places = {support::PlanText::place("Base", "air"), support::PlanText::place("Red", "air")};
  text.itinerary = {"{at: Base}", "drive: {to: Red, distance: 200 km, surfaces: gravel}",
                    "stay: {nights: 2}"};
  const Planned planned(text.plan());
  // Of 45 L that can be poured out of b's tank 20 L go into a's, 2 L into the can, and 23 L stay.
  text.vehicles = {
      "{name: a, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank a, holds: 80 L, filled: "
      "80 L, unusable: 4 L}, {name: jerry b, holds: 20 L, filled: 20 L}]}"};
  for (std::string* in_b : {&text.people[1], &text.containers[1]}) {
    in_b->replace(in_b->rfind(": b}"), 4, ": a}");
  }
  const PlanRun other = support::run_plan(text.plan());
  const SweepPlan sweep = planned.sweep(MishapKind::vehicle);
  const auto left = std::ranges::find_if(sweep.strikes(), [&](const Strike& strike) {
    return sweep.mishaps()[strike.mishap].failure.name == "b left behind" && strike.ordinal == 0;
  });
  ASSERT_NE(left, sweep.strikes().end());
  const Suffered suffered(sweep, *left);
  for (const char* name : {"drinking_water", "food", "fuel:a"}) {
    const auto index = [&](const engine::CourseBase& course) {
      return static_cast<std::size_t>(support::reserve_index(course, name));
    };
    // The empty can of b is not weighed.
    const double tolerance = std::string(name) == "fuel:a" ? 0.05 : rounding;
    for (std::size_t day = 0; day < other.record.days(); ++day) {
      const auto& got = suffered.record.reserve(day, index(*suffered.laid.course));
      const auto& wanted = other.record.reserve(day, index(other.course));
      EXPECT_NEAR(got.end, wanted.end, tolerance) << name;
      EXPECT_NEAR(got.slack, wanted.slack, tolerance) << name;
      EXPECT_NEAR(got.used, wanted.used, tolerance) << name;
    }
  }
  double lost_l = 0;
  double gained_l = 0;
  for (std::size_t s = 0; s < suffered.record.stores; ++s) {
    const engine::StoreInfo& store = suffered.laid.course->stores[s];
    if (!store.name.starts_with("tank") && !store.name.starts_with("jerry")) continue;
    lost_l += suffered.record.store(0, s).lost;
    gained_l += suffered.record.store(0, s).gained;
  }
  EXPECT_NEAR(lost_l, 50, 1e-9);
  EXPECT_NEAR(gained_l, 22, 1e-9);
}

support::PlanText round_by_mid() {
  support::PlanText text;
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, holds: 80 L, "
      "filled: 70 L}], observed: [{surface: gravel, uses: 10 L/100km}]}"};
  text.places = {support::PlanText::place("Base", "air", "diesel: {}"),
                 support::PlanText::place("Near", "air"), support::PlanText::place("Mid", "air"),
                 support::PlanText::place("Far", "air")};
  text.itinerary = {"{at: Base}",
                    "drive: {to: Near, distance: 50 km, surfaces: gravel}",
                    "drive: {to: Mid, distance: 100 km, surfaces: gravel}",
                    "drive: {to: Far, distance: 100 km, surfaces: gravel}",
                    "stay: {nights: 1}",
                    "drive: {to: Mid, distance: 100 km, surfaces: gravel}",
                    "drive: {to: Near, distance: 100 km, surfaces: gravel}",
                    "stay: {nights: 1}",
                    "drive: {to: Far, distance: 60 km, surfaces: gravel}",
                    "stay: {nights: 1}",
                    "drive: {to: Near, distance: 60 km, surfaces: gravel}",
                    "drive: {to: Base, distance: 50 km, surfaces: gravel}"};
  return text;
}

std::vector<int> struck_legs(const SweepPlan& sweep) {
  std::vector<int> legs;
  for (const Strike& strike : sweep.strikes()) {
    legs.push_back(sweep.laid().timeline->steps[strike.step].leg);
  }
  return legs;
}

// From Far the road of 60 km is shut by which it was come. The one by Mid is 250 km.
TEST(MishapsBruteForceSmall, RoadShutIsGoneRoundByAnotherThatWasDriven) {
  const Planned planned(round_by_mid().plan());
  const SweepPlan sweep = planned.sweep(MishapKind::shut);
  // To Mid and Far, and to Far again: back by the roads come. From Far to Near: by Mid. From Far to
  // Mid at first, from Mid to Near, and from Near to Base the only way home is shut.
  EXPECT_EQ(struck_legs(sweep), (std::vector<int>{1, 2, 5, 6}));
  ASSERT_FALSE(sweep.strikes().empty());
  const Suffered suffered(sweep, sweep.strikes().back());
  // 51 L are gone, and 25 L more are needed.
  EXPECT_EQ(suffered.found.outcome, Outcome::runs_out_vital);
  EXPECT_NEAR(suffered.found.short_of, 51 + 25 - 70, 1e-6);
}

// The same with a road from Far to Near that the trip does not take. From there it is 50 km.
TEST(MishapsBruteForceSmall, RoadShutIsGoneRoundByARoadOfThePlan) {
  const auto sufferings = [](int km) {
    support::PlanText text = round_by_mid();
    text.roads = {fmt::format("{{from: Far, to: Near, distance: {} km, surfaces: gravel}}", km)};
    const Planned planned(text.plan());
    const SweepPlan sweep = planned.sweep(MishapKind::shut);
    // There is another way home now from everywhere but Near.
    EXPECT_EQ(struck_legs(sweep), (std::vector<int>{1, 2, 3, 4, 5, 6}));
    return Suffered(sweep, sweep.strikes().back()).found;
  };
  EXPECT_EQ(sufferings(139).outcome, Outcome::holds);
  const Finding longer = sufferings(180);
  EXPECT_EQ(longer.outcome, Outcome::runs_out_vital);
  EXPECT_NEAR(longer.short_of, 51 + 18 + 5 - 70, 1e-6);
}

TEST(MishapsBruteForceSmall, StoppedCompressorWarmsAnEmptyChestByTheClosedForm) {
  support::PlanText text;
  text.cold = {
      "{name: chest, volume: 40 L, set_point: 4 °C, heat_leak: 0.8 W/K, rated: {draw: 12 "
      "W, ambient: 32 °C, inside: 4 °C}}"};
  text.batteries = {"{name: bank, kind: lfp, capacity: 200 Ah}"};
  text.climate = {support::PlanText::steady_climate("air", 30)};
  const Planned planned(text.plan());
  const SweepPlan sweep = planned.sweep(MishapKind::compressor);
  const Suffered suffered(sweep, sweep.strikes()[1]);
  ASSERT_EQ(suffered.day, 1U);
  // T = Ta + (T0 - Ta) exp(-UA t / C), with the liner's 0.1 kJ/K per litre alone inside.
  const double hours_k = 0.8 * 3.6 / (0.1 * 40);
  const std::size_t r = suffered.record.reserves;
  for (std::size_t cold = 0; cold < r; ++cold) {
    if (suffered.laid.course->reserves[cold].name != "cold:chest") continue;
    const engine::ReserveDay& day = suffered.record.reserve(1, cold);
    EXPECT_NEAR(day.start, 4, 1e-6);
    EXPECT_NEAR(day.end, 30 - 26 * std::exp(-24 * hours_k), 1e-4);
    // The hour's warming is taken to be even: 1 K of what comes in the first hour. By the closed
    // form it is above 5 °C 1.2 minutes earlier.
    EXPECT_NEAR(day.breach_h, 1 / (26 - 26 * std::exp(-hours_k)), 1e-6);
    EXPECT_NEAR(day.breach_h, -std::log(25.0 / 26) / hours_k, 1.3 / 60);
  }
}

}  // namespace
}  // namespace drystage::answers
