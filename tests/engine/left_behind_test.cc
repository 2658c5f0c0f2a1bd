// A vehicle that goes no farther: what goes over into the others, and what stays behind with it.
#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <stdexcept>

#include "answers/mishaps/aftermath.h"
#include "answers/mishaps/all_mishaps.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::Engine;
using engine::Record;
using engine::ReserveDay;
using support::PlanText;
using support::Trip;

constexpr double rounding = 1e-9;
constexpr double diesel_kg_l = 0.835;  // common practice

/// Three vehicles with two of one fuel: a truck, a van and a petrol buggy. Nobody is hungry.
PlanText convoy() {
  PlanText text;
  text.people = {
      "{name: Ada, mass: 60 kg, height: 172 cm, age: 40, sex: female, rides_in: truck, observed: "
      "{drinking: 4 L/day, meals: 0}}",
      "{name: Ben, mass: 80 kg, height: 172 cm, age: 40, sex: male, rides_in: van, observed: "
      "{drinking: 4 L/day, meals: 0}}"};
  text.containers = {
      "{name: can, holds: 20 L, filled: 20 L, for: drinking, in: truck, empty_mass: 1 kg}",
      "{name: tub, holds: 60 L, filled: 40 L, for: utility, in: truck, empty_mass: 3 kg}",
      "{name: spare, holds: 30 L, filled: 30 L, for: drinking, in: van, empty_mass: 2 kg}",
      "{name: barrel, holds: 50 L, filled: 50 L, for: utility, in: van, empty_mass: 5 kg}"};
  text.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: truck tank, holds: 80 L, "
      "filled: 70 L, unusable: 5 L}], observed: [{surface: sealed, uses: 10 L/100km}]}",
      "{name: van, fuel: diesel, mass: {empty: 2000 kg}, tanks: [{name: van tank, holds: 60 L, "
      "filled: 50 L, unusable: 4 L}, {name: jerry, holds: 20 L, filled: 18 L, unusable: 1 L, "
      "empty_mass: 4 kg}], observed: [{surface: sealed, uses: 8 L/100km}]}",
      "{name: buggy, fuel: petrol, mass: {empty: 900 kg}, tanks: [{name: buggy tank, holds: 40 L, "
      "filled: 40 L, unusable: 2 L}], observed: [{surface: sealed, uses: 6 L/100km}]}"};
  text.batteries = {
      "{name: truck bank, kind: agm, capacity: 100 Ah, filled: 90 %, in: truck, mass: 30 kg}",
      "{name: van bank, kind: agm, capacity: 80 Ah, filled: 80 %, in: van, mass: 25 kg}"};
  text.charging = {"{name: alternator, current: 20 A, on: van bank}"};
  text.loads = {"{name: lamp, draw: 12 W, on: van bank}"};
  text.climate = {PlanText::steady_climate("air", 25)};
  text.places = {PlanText::place("Base", "air"),
                 PlanText::place("There", "air", "diesel: {}, petrol: {}")};
  text.itinerary = {"{at: Base}", "stay: {nights: 2}",
                    "drive: {to: There, distance: 300 km, surfaces: sealed, speed: 100 km/h}",
                    "resupply: {diesel: 30 L}", "stay: {nights: 1}"};
  return text;
}

/// A vehicle left behind on the second morning.
class Left {
 public:
  Left(const Trip& trip, const std::string& vehicle)
      : before_(answers::laid_trip_of(trip)),
        planned_(engine::blank_record(*before_.course)),
        standing_(Engine::begin(*before_.course, planned_)) {
    const std::string name = vehicle + " left behind";
    const std::vector<answers::Mishap> all = answers::mishaps_of(before_);
    const auto mishap = std::ranges::find_if(
        all, [&name](const answers::Mishap& other) { return other.failure.name == name; });
    if (mishap == all.end()) throw std::out_of_range("no mishap is called " + name);
    const std::size_t step = answers::morning_step(*before_.timeline, 1);
    Engine::go_on(*before_.course, standing_, step);
    after_ = answers::after(before_, *mishap, step, trip.course);
    record_ = engine::blank_record(course());
    now_.emplace(Engine::resume(standing_, course(), step, record_));
    Engine::lose_excess(course(), *now_);
  }

  void go_on_to_the_end() { Engine::go_on(course(), *now_, course().timeline->steps.size()); }

  [[nodiscard]] const engine::Course& course() const { return *after_.course; }
  [[nodiscard]] const engine::Run& run() const { return now_->run; }
  [[nodiscard]] double store(const std::string& name) const {
    return run().level(support::store_index(course(), name));
  }
  [[nodiscard]] double reserve(const std::string& name) const {
    return run().reserve_level(support::reserve_index(course(), name));
  }
  [[nodiscard]] const ReserveDay& row(std::size_t day, const std::string& name) const {
    return record_.reserve(day, static_cast<std::size_t>(support::reserve_index(course(), name)));
  }
  [[nodiscard]] double lost(const std::string& store) const {
    return record_.store(1, static_cast<std::size_t>(support::store_index(course(), store))).lost;
  }
  [[nodiscard]] double gained(const std::string& store) const {
    return record_.store(1, static_cast<std::size_t>(support::store_index(course(), store))).gained;
  }
  [[nodiscard]] double before(const std::string& store) const {
    return standing_.run.level(support::store_index(*before_.course, store));
  }
  [[nodiscard]] double kg_before(int vehicle) const { return standing_.run.vehicle_kg(vehicle); }

 private:
  answers::LaidTrip before_;
  Record planned_;
  Engine::Standing standing_;
  answers::LaidTrip after_;
  Record record_;
  std::optional<Engine::Standing> now_;
};

TEST(LeftBehind, ItsFuelIsPouredAsFarAsItFitsIntoOneOfTheSameFuel) {
  const Trip trip = support::travel(convoy());
  // The jerry can goes over as it is; of the 46 L in the tank that flow, 10 fit into the truck's
  // tank and 2 into the can.
  const Left left(trip, "van");
  EXPECT_NEAR(left.store("truck tank"), 80, rounding);
  EXPECT_NEAR(left.store("jerry"), 20, rounding);
  EXPECT_NEAR(left.store("van tank"), 0, rounding);
  EXPECT_NEAR(left.lost("van tank"), 50, rounding);
  EXPECT_NEAR(left.gained("truck tank") + left.gained("jerry"), 12, rounding);
  EXPECT_NEAR(left.reserve("fuel:truck"), 75 + 19, rounding);
  EXPECT_NEAR(left.reserve("fuel:van"), 0, rounding);
  // The truck's reserve had 65 L, the van's 46 and 17.
  EXPECT_NEAR(left.row(1, "fuel:truck").gained, 10 + 19, rounding);
  EXPECT_NEAR(left.row(1, "fuel:van").lost, 46 + 17, rounding);
}

TEST(LeftBehind, FuelOfAnotherKindIsLost) {
  const Trip trip = support::travel(convoy());
  const Left left(trip, "buggy");
  EXPECT_NEAR(left.store("buggy tank"), 0, rounding);
  EXPECT_NEAR(left.reserve("fuel:buggy"), 0, rounding);
  EXPECT_NEAR(left.row(1, "fuel:buggy").lost, 38, rounding);
  EXPECT_NEAR(left.store("truck tank"), 70, rounding);
  EXPECT_NEAR(left.store("van tank"), 50, rounding);
}

TEST(LeftBehind, FuelPouredIntoAnEmptyTankLeavesThereWhatCannotBeUsed) {
  PlanText text = convoy();
  text.vehicles[0] =
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: truck tank, holds: 80 L, "
      "filled: 1 L, unusable: 5 L}]}";
  const Left left(support::travel(text), "van");
  EXPECT_NEAR(left.store("truck tank"), 1 + 46, rounding);
  EXPECT_NEAR(left.reserve("fuel:truck"), 1 + 46 - 5 + 17, rounding);
}

TEST(LeftBehind, WaterGoesOverWithItsContainersAndNoneIsLost) {
  const Trip trip = support::travel(convoy());
  const Left left(trip, "van");
  for (const char* can : {"can", "tub", "spare", "barrel"}) {
    EXPECT_NEAR(left.store(can), left.before(can), rounding) << can;
    EXPECT_EQ(left.lost(can), 0) << can;
  }
  EXPECT_NEAR(left.reserve("drinking_water"), 50 - 8, 1e-6);
  EXPECT_NEAR(left.reserve("utility_water"), 90, rounding);
}

/// The convoy with a truck that may weigh so much.
Trip with_limit(double limit_kg) {
  PlanText text = convoy();
  text.vehicles[0].replace(text.vehicles[0].find("{empty: 2500 kg}"), 16,
                           "{empty: 2500 kg, limit: " + std::to_string(limit_kg) + " kg}");
  return support::travel(text);
}

TEST(LeftBehind, WhatIsTooHeavyIsUtilityWaterFirst) {
  const Trip free = support::travel(convoy());
  const Left unlimited(free, "van");
  // What the truck weighs before fuel is poured over into it: 12 L, the can's own 18 L are in it.
  const double heavy_kg = unlimited.run().vehicle_kg(0) - 12 * diesel_kg_l;
  const auto drinking_l = [](const Left& left) { return left.store("can") + left.store("spare"); };
  for (const double over_kg : {-1.0, 20.0, 35.0, 70.0}) {
    const Trip trip = with_limit(heavy_kg - over_kg);
    const Left left(trip, "van");
    // Of what goes over; the truck's own tub it carried before.
    const double lost_l = std::clamp(over_kg, 0.0, 50.0);
    EXPECT_NEAR(left.store("barrel"), 50 - lost_l, 1e-5) << over_kg;
    EXPECT_NEAR(left.lost("barrel"), lost_l, 1e-5) << over_kg;
    EXPECT_NEAR(left.store("tub"), 40, rounding) << over_kg;
    EXPECT_NEAR(drinking_l(left), 42, 1e-6) << over_kg;
    double before_l = 0;
    double after_l = 0;
    double all_lost_l = 0;
    for (const char* can : {"can", "tub", "spare", "barrel"}) {
      before_l += left.before(can);
      after_l += left.store(can);
      all_lost_l += left.lost(can);
    }
    EXPECT_NEAR(before_l, after_l + all_lost_l, rounding) << over_kg;
  }
}

TEST(LeftBehind, PeopleContainersAndCansWeighOnTheOneThatGoesOn) {
  const Trip trip = support::travel(convoy());
  const Left left(trip, "van");
  // Ben, the containers with what is in them, and the fuel that has been poured and carried over.
  const double water_kg = left.before("spare") + left.before("barrel");
  EXPECT_NEAR(left.run().vehicle_kg(0) - left.kg_before(0),
              80 + 2 + 5 + 4 + water_kg + (18 + 12) * diesel_kg_l, 1e-6);
}

TEST(LeftBehind, ItUsesNothingAnyMoreAndTheOthersDoWhatTheyDid) {
  const Trip trip = support::travel(convoy());
  Left left(trip, "van");
  left.go_on_to_the_end();
  EXPECT_NEAR(left.row(2, "fuel:van").used, 0, rounding);
  EXPECT_NEAR(left.row(2, "fuel:van").short_of, 0, rounding);
  EXPECT_GE(left.row(2, "fuel:van").slack, 0);
  EXPECT_NEAR(left.row(2, "fuel:truck").used, 30, 1e-6);
  EXPECT_NEAR(left.row(2, "fuel:buggy").used, 18, 1e-6);
}

TEST(LeftBehind, NoFuelIsBoughtForItOutOfWhatTheOthersShare) {
  const Trip trip = support::travel(convoy());
  Left left(trip, "truck");
  left.go_on_to_the_end();
  EXPECT_NEAR(left.row(2, "fuel:truck").gained, 0, rounding);
  EXPECT_NEAR(left.store("truck tank"), 0, rounding);
  // All of the 30 L that both were to share, and room for them there is.
  EXPECT_NEAR(left.row(2, "fuel:van").gained, 24, 1e-6);
}

TEST(LeftBehind, ItsBankStaysThereAndWhatHungOnItHangsOnAnother) {
  const Trip trip = support::travel(convoy());
  Left left(trip, "van");
  EXPECT_NEAR(left.reserve("battery:van bank"), 0, rounding);
  // Two amperes of the lamp's drew 24 Ah a day from it.
  const double on_board_ah = left.before("van bank");
  EXPECT_LT(on_board_ah, 64 - 20);
  EXPECT_NEAR(left.row(1, "battery:van bank").lost, on_board_ah, 1e-6);
  EXPECT_NEAR(left.reserve("battery:truck bank"), left.before("truck bank"), rounding);
  left.go_on_to_the_end();
  EXPECT_NEAR(left.row(2, "battery:van bank").used, 0, rounding);
  // By night and before setting out; nothing charges the truck's bank any more.
  EXPECT_NEAR(left.row(2, "battery:truck bank").used, 24, 0.1);
  EXPECT_NEAR(left.row(2, "battery:truck bank").gained, 0, rounding);
}

TEST(LeftBehind, WhereNoOtherBankIsLeftItsLoadsGoWithout) {
  PlanText text = convoy();
  text.batteries = {"{name: van bank, kind: agm, capacity: 80 Ah, filled: 80 %, in: van}"};
  const Trip trip = support::travel(text);
  Left left(trip, "van");
  left.go_on_to_the_end();
  EXPECT_NEAR(left.row(2, "battery:van bank").used, 0, rounding);
  EXPECT_NEAR(left.row(2, "battery:van bank").end, 0, rounding);
}

TEST(LeftBehind, NobodyAsksWhatIsInItsBankInTheColdEither) {
  PlanText text = convoy();
  text.margins = {"battery: 50 %", "fuel: 40 L"};
  text.climate = {PlanText::steady_climate("air", -10)};
  const Trip trip = support::travel(text);
  Left left(trip, "van");
  left.go_on_to_the_end();
  EXPECT_GE(left.row(2, "battery:van bank").slack, 0);
  EXPECT_GE(left.row(2, "fuel:van").slack, 0);
  EXPECT_LT(left.row(2, "battery:van bank").breach_h, 0);
}

TEST(LeftBehind, TheOnlyVehicleIsNotLeft) {
  PlanText text = convoy();
  text.vehicles.resize(1);
  text.vehicles[0] =
      "{name: truck, fuel: diesel, mass: {empty: 2500 kg}, tanks: [{name: tank, "
      "holds: 80 L, filled: 70 L}]}";
  for (std::string& person : text.people) {
    const auto van = person.find("rides_in: van");
    if (van != std::string::npos) person.replace(van, 13, "rides_in: truck");
  }
  text.containers.resize(2);
  text.batteries.resize(1);
  text.charging.clear();
  text.loads.clear();
  text.itinerary = {"{at: Base}", "stay: {nights: 2}"};
  const answers::LaidTrip laid = answers::laid_trip_of(support::travel(text));
  for (const answers::Mishap& mishap : answers::mishaps_of(laid)) {
    EXPECT_NE(mishap.failure.kind, plan::MishapKind::vehicle);
  }
}

}  // namespace
}  // namespace drystage
