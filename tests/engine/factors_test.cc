// What differs in one trip: a run begun with factors, on a course that stays as it is.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace factors_test {
namespace {

using engine::Engine;
using engine::Factors;
using engine::Record;
using engine::ReserveDay;
using plan::Surface;
using support::PlanText;
using support::Trip;

/// The same course, run once more.
Trip again(Trip trip, const Factors& factors) {
  trip.record = engine::blank_record(trip.course);
  Engine::run(trip.course, trip.record, factors);
  return trip;
}

double& on(Factors& factors, Surface surface) {
  return factors.fuel.at(static_cast<std::size_t>(surface));
}

/// A plan that has everything, with each number that a factor stands for times as much as that. Two
/// days of driving on two surfaces, and a stay between them.
PlanText with_everything(const Factors& f) {
  const auto times = [](double number, double factor) { return std::to_string(number * factor); };
  PlanText plan;
  plan.margins = {"drinking_water: 2 days", "utility_water: 1 day", "fuel: 40 km", "food: 2 days",
                  "battery: 0.5 days"};
  plan.people = {
      "{name: Ada, mass: 70 kg, height: 172 cm, age: 40, sex: male, observed: {drinking: " +
      times(6, f.drinking) + " L/day, meals: " + times(3, f.meals) + "}}"};
  plan.containers = {"{name: can, holds: 90 L, filled: 80 L, for: drinking}",
                     "{name: tank, holds: 100 L, filled: 90 L, for: utility}"};
  plan.utility_use = {"dishes: " + times(4, f.utility_water) + " L/day"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 3000 kg}, tanks: [{name: tank, holds: 300 L, "
      "filled: 280 L}], observed: [{surface: sealed, uses: " +
      times(10, f.fuel_on(Surface::sealed, 0)) + " L/100km}, {surface: track, uses: " +
      times(16, f.fuel_on(Surface::track, 0)) + " L/100km}]}"};
  plan.consumables = {
      "{name: gas, unit: g, stores: [{name: bottle, holds: 5000 g, filled: 5000 g}], use: "
      "{per_meal: 40 g}, margin: 2 days}"};
  plan.batteries = {"{name: bank, kind: lfp, capacity: 200 Ah, filled: 70 %}"};
  plan.charging = {"{name: panel, solar: " + times(60, f.panels) + " W}",
                   "{name: DC-DC, current: 5 A, while: driving}"};
  plan.loads = {"{name: lights, draw: " + times(10, f.loads) + " W, after_dark: 3 h/day}",
                "{name: radio, energy: " + times(60, f.loads) + " Wh/day}"};
  plan.climate = {PlanText::steady_climate("air", 20, "5 kWh/m2/day")};
  plan.places.push_back(PlanText::place("There", "air"));
  const std::string road = "distance: 300 km, surfaces: {sealed: 200 km, track: 100 km}}";
  plan.itinerary = {"{at: Base}", "drive: {to: There, " + road, "stay: {nights: 4}",
                    "drive: {to: Base, " + road};
  return plan;
}

/// Some factors, none like another.
Factors some() {
  Factors f{.drinking = 1.3, .utility_water = 0.8, .meals = 1.15, .loads = 1.4, .panels = 0.7};
  on(f, Surface::sealed) = 1.1;
  on(f, Surface::track) = 1.25;
  return f;
}

TEST(Factors, ComeToWhatThePlanWithItsNumbersTimesAsMuchComesTo) {
  const Trip trip = again(support::travel(with_everything({})), some());
  const Trip like = support::travel(with_everything(some()));
  ASSERT_EQ(trip.course.reserves.size(), like.course.reserves.size());
  for (std::size_t d = 0; d < like.days(); ++d) {
    for (std::size_t r = 0; r < like.course.reserves.size(); ++r) {
      const ReserveDay& is = trip.record.reserve(d, r);
      const ReserveDay& should = like.record.reserve(d, r);
      SCOPED_TRACE(like.course.reserves[r].name + ", day " + std::to_string(d));
      EXPECT_NEAR(is.used, should.used, 1e-4);
      EXPECT_NEAR(is.gained, should.gained, 1e-4);
      EXPECT_NEAR(is.drawn, should.drawn, 1e-4);
      EXPECT_NEAR(is.end, should.end, 1e-4);
      EXPECT_NEAR(is.margin, should.margin, 1e-4);
      EXPECT_NEAR(is.slack, should.slack, 1e-4);
      EXPECT_NEAR(is.endurance, should.endurance, 1e-3 * should.endurance);
      EXPECT_EQ(is.breach_h < 0, should.breach_h < 0);
      EXPECT_EQ(is.short_of, 0);
    }
  }
}

TEST(Factors, AreWhatTheDaysUseIsTimes) {
  const Trip plain = support::travel(with_everything({}));
  const Factors f = some();
  const Trip trip = again(plain, f);
  for (std::size_t d = 0; d < plain.days(); ++d) {
    for (const auto& [name, factor] : {std::pair{"drinking_water", f.drinking},
                                       {"utility_water", f.utility_water},
                                       {"food", f.meals},
                                       {"consumable:gas", f.meals}}) {
      const ReserveDay& once = plain.reserve(d, name);
      const ReserveDay& now = trip.reserve(d, name);
      EXPECT_GT(once.used, 0) << name;
      EXPECT_NEAR(now.used, factor * once.used, 1e-9) << name;
      EXPECT_NEAR(now.margin, factor * once.margin, 1e-9) << name;  // in days alone
    }
    EXPECT_NEAR(trip.reserve(d, "battery:bank").drawn,
                f.loads * plain.reserve(d, "battery:bank").drawn, 1e-9);
  }
}

TEST(Factors, OfFuelGoByTheSurfaceDrivenOn) {
  const Trip plain = support::travel(with_everything({}));
  Factors sandy;
  on(sandy, Surface::track) = 1.5;
  on(sandy, Surface::sand) = 9;  // there is none
  const Trip trip = again(plain, sandy);
  // 200 km at 10 L/100 km, 100 km at 16.
  EXPECT_NEAR(plain.reserve(0, "fuel:truck").used, 20 + 16, 1e-9);
  EXPECT_NEAR(trip.reserve(0, "fuel:truck").used, 20 + 1.5 * 16, 1e-9);
  // The margin is for 40 km of the thirstier of leg and ground.
  EXPECT_NEAR(plain.reserve(0, "fuel:truck").margin, 40 * 0.16, 1e-9);
  EXPECT_NEAR(trip.reserve(0, "fuel:truck").margin, 40 * 1.5 * 0.16, 1e-9);
}

TEST(Factors, OfALegAreOnTopOfItsGround) {
  const Trip plain = support::travel(with_everything({}));
  const Trip trip = again(plain, {.fuel_of_leg = {1.2, 1}});
  EXPECT_NEAR(trip.reserve(0, "fuel:truck").used, 1.2 * plain.reserve(0, "fuel:truck").used, 1e-9);
  // While staying, the margin is for the thirstier of the ground driven last and the next leg.
  EXPECT_NEAR(trip.reserve(2, "fuel:truck").margin, 1.2 * plain.reserve(2, "fuel:truck").margin,
              1e-9);
  const std::size_t last = plain.days() - 1;
  EXPECT_NEAR(trip.reserve(last, "fuel:truck").used, plain.reserve(last, "fuel:truck").used, 1e-9);
}

TEST(Factors, OfConsumablesAreOnWhatIsUsedAndNotOnDoses) {
  PlanText plan;
  plan.consumables = {
      "{name: gas, unit: g, stores: [{name: bottle, holds: 5000 g, filled: 5000 g}], use: "
      "{per_day: 100 g}, margin: 2 days}",
      "{name: pills, unit: pills, stores: [{name: box, holds: 50, filled: 50}], use: {doses: "
      "{amount: 1, at: "
      "[\"08:00\", \"20:00\"]}}, margin: 2 days}"};
  const Trip plain = support::travel(plan);
  const Trip trip = again(plain, {.consumables = 1.5});
  EXPECT_NEAR(trip.reserve(1, "consumable:gas").used, 0.15, 1e-9);
  EXPECT_NEAR(trip.reserve(1, "consumable:gas").margin, 0.3, 1e-9);
  EXPECT_NEAR(trip.reserve(1, "consumable:pills").used, 2, 1e-9);
  EXPECT_NEAR(trip.reserve(1, "consumable:pills").margin,
              plain.reserve(1, "consumable:pills").margin, 1e-9);
}

/// A cabinet alone on a bank that nothing charges, and food that spoils in the air.
PlanText with_a_cabinet() {
  PlanText plan;
  plan.margins = {"battery: 1 day"};
  plan.climate = {PlanText::steady_climate("air", 25)};
  plan.batteries = {"{name: bank, kind: lfp, capacity: 300 Ah, filled: 90 %}"};
  plan.cold = {
      "{name: chest, volume: 40 L, set_point: 5 °C, rated: {draw: 10 W, ambient: 32 °C, inside: 5 "
      "°C}}"};
  plan.food = {"{item: stores, kept: dry, meals: 5000}",
               "{item: bread, kept: dry, meals: 30, keeps: {for: 4 days, at: 25 °C}}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 6}"};
  return plan;
}

TEST(Factors, OfCabinetsAreWhatTheyDrawForAsMuchCold) {
  const Trip plain = support::travel(with_a_cabinet());
  const Trip trip = again(plain, {.cabinets = 1.25});
  for (std::size_t d = 0; d < plain.days(); ++d) {
    EXPECT_NEAR(trip.reserve(d, "battery:bank").drawn,
                1.25 * plain.reserve(d, "battery:bank").drawn, 1e-9);
    EXPECT_NEAR(trip.reserve(d, "cold:chest").lowest, plain.reserve(d, "cold:chest").lowest, 1e-9);
    // A day of what is drawn, above the cut-off; no faster than rated, so Peukert takes nothing.
    const double cut_off_ah = 30;
    EXPECT_NEAR(trip.reserve(d, "battery:bank").margin - cut_off_ah,
                1.25 * (plain.reserve(d, "battery:bank").margin - cut_off_ah), 1e-6);
  }
}

TEST(Factors, OfLidsLetMoreIn) {
  const Trip plain = support::travel(with_a_cabinet());
  const double once = again(plain, {.lids = 0}).reserve(2, "battery:bank").drawn;
  const double usual = plain.reserve(2, "battery:bank").drawn;
  const double twice = again(plain, {.lids = 2}).reserve(2, "battery:bank").drawn;
  EXPECT_GT(usual, once + 0.05);
  // What comes in is pumped out: as much more again.
  EXPECT_NEAR(twice - usual, usual - once, 0.02 * (usual - once));
}

TEST(Factors, OfSpoilageAreHowMuchSoonerItSpoils) {
  const Trip plain = support::travel(with_a_cabinet());
  const auto spoiled_h = [](const Trip& trip) {
    const auto told = trip.told(engine::EventKind::spoiled);
    return told.empty() ? -1.0 : support::trip_hour(told.front());
  };
  EXPECT_NEAR(spoiled_h(plain), 96, 0.1);
  EXPECT_NEAR(spoiled_h(again(plain, {.spoilage = 2})), 48, 0.1);
}

TEST(Factors, OfOneAndWhatIsLeftOfACourseStayAsTheyAre) {
  const Trip plain = support::travel(with_everything({}));
  again(plain, some());
  const Trip trip = again(plain, {});
  for (std::size_t i = 0; i < plain.record.reserve_days.size(); ++i) {
    EXPECT_EQ(trip.record.reserve_days[i].slack, plain.record.reserve_days[i].slack);
    EXPECT_EQ(trip.record.reserve_days[i].end, plain.record.reserve_days[i].end);
  }
}

TEST(Factors, GoOnWithARunThatIsTakenUpAgain) {
  const Trip trip = again(support::travel(with_everything({})), some());
  const std::size_t half = trip.course.timeline->steps.size() / 2;
  Record first = engine::blank_record(trip.course);
  Engine::Standing standing = Engine::begin(trip.course, first, some());
  Engine::go_on(trip.course, standing, half);
  Record rest = engine::blank_record(trip.course);
  Engine::Standing now = Engine::resume(standing, trip.course, half, rest);
  Engine::go_on(trip.course, now, trip.course.timeline->steps.size());
  for (std::size_t r = 0; r < rest.reserves; ++r) {
    EXPECT_EQ(rest.reserve(trip.days() - 1, r).end, trip.record.reserve(trip.days() - 1, r).end);
  }
}

RC_GTEST_PROP(Factors, AreWhatIsWantedTimesWhateverThereIs, ()) {
  const support::Pick pick = support::rapidcheck_pick();
  const PlanText text = support::random_plan(pick);
  RC_LOG() << text.text();
  const Trip plain = support::travel(text);
  const Factors f{.drinking = 0.1 * pick(0, 30),
                  .utility_water = 0.1 * pick(0, 30),
                  .meals = 0.1 * pick(0, 30)};
  const Trip trip = again(plain, f);
  const auto has = [&](const char* name) {
    return std::ranges::any_of(plain.course.reserves,
                               [&](const auto& reserve) { return reserve.name == name; });
  };
  const auto drink_l = [](const Trip& of, std::size_t d) {
    const ReserveDay& day = of.reserve(d, "drinking_water");
    return day.used + day.stood_in + day.short_of;
  };
  const auto other_l = [](const Trip& of, std::size_t d) {
    const ReserveDay& day = of.reserve(d, "utility_water");
    return day.used + day.short_of - of.reserve(d, "drinking_water").stood_in;
  };
  const auto meals = [](const Trip& of, std::size_t d) {
    return of.reserve(d, "food").used + of.reserve(d, "food").short_of;
  };
  for (std::size_t d = 0; d < plain.days(); ++d) {
    RC_ASSERT(std::abs(drink_l(trip, d) - f.drinking * drink_l(plain, d)) < 1e-6);
    if (has("utility_water")) {
      RC_ASSERT(std::abs(other_l(trip, d) - f.utility_water * other_l(plain, d)) < 1e-6);
    }
    if (has("food")) RC_ASSERT(std::abs(meals(trip, d) - f.meals * meals(plain, d)) < 1e-6);
  }
}

}  // namespace
}  // namespace factors_test
}  // namespace drystage
