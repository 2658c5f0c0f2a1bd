// Cans of fuel that several vehicles have in common: who is filled from them, and that no other way
// of sharing would do better.
#include <fmt/core.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>

#include "support/random_plan.h"
#include "support/trip.h"

namespace drystage {
namespace {

using engine::EventKind;
using support::PlanText;
using support::Trip;

/// A truck and a wagon, each with so much in its tank, on 200 km at 10 L/100km, and what cans the
/// truck and the wagon carry. Whatever they weigh, they use that.
PlanText two(double truck_l, double wagon_l, const std::string& truck_can,
             const std::string& wagon_can = "", int margin_km = 50) {
  PlanText text;
  const auto vehicle = [](const std::string& name, double fuel_l, const std::string& can) {
    return fmt::format(
        "{{name: {0}, fuel: diesel, mass: {{empty: 2000 kg}}, tanks: [{{name: {0} tank, holds: 90 "
        "L, filled: {1} L, unusable: 2 L}}{2}], observed: [{{surface: sealed, uses: 10 "
        "L/100km}}]}}",
        name, fuel_l, can.empty() ? "" : ", " + can);
  };
  text.vehicles = {vehicle("truck", truck_l, truck_can), vehicle("wagon", wagon_l, wagon_can)};
  text.containers = {"{name: can, holds: 60 L, filled: 60 L}"};
  text.margins = {fmt::format("fuel: {} km", margin_km)};
  text.places = {PlanText::place("Base", "air"), PlanText::place("End", "air")};
  text.itinerary = {"{at: Base}", "drive: {to: End, distance: 200 km, surfaces: sealed}"};
  return text;
}

std::string can(double litres, const std::string& whom) {
  return fmt::format("{{name: jerry, holds: 30 L, filled: {} L, empty_mass: 4 kg{}}}", litres,
                     whom.empty() ? "" : ", for: " + whom);
}

TEST(SharedCan, IsPouredOnlySoFarAsTheOtherNeedsIt) {
  // The wagon has 12 L, and needs 20 and 5 in the end: 13 L come out of the truck's can.
  const Trip trip = support::travel(two(60, 14, can(20, "any")));
  EXPECT_TRUE(trip.verdict.holds);
  EXPECT_NEAR(trip.store(0, "jerry").end, 7, 1e-6);
  EXPECT_NEAR(trip.reserve(0, "fuel:wagon").end, 5, 1e-6);
  EXPECT_NEAR(trip.reserve(0, "fuel:truck").end, 58 + 20 - 20 - 13, 1e-6);
  EXPECT_NEAR(trip.reserve(0, "fuel:truck").lost, 13, 1e-6);
  EXPECT_NEAR(trip.reserve(0, "fuel:wagon").gained, 13, 1e-6);
  const auto poured = trip.told(EventKind::poured);
  ASSERT_EQ(poured.size(), 1U);
  EXPECT_EQ(trip.course.stores[static_cast<std::size_t>(poured[0].subject)].name, "jerry");
}

TEST(SharedCan, OfOneVehicleAloneHelpsNoOther) {
  EXPECT_FALSE(support::travel(two(60, 14, can(20, ""))).verdict.holds);
  EXPECT_FALSE(support::travel(two(60, 14, can(20, "truck"))).verdict.holds);
  EXPECT_TRUE(support::travel(two(60, 14, can(20, "[truck, wagon]"))).verdict.holds);
}

TEST(SharedCan, FillsFirstWhatNobodyGetsOutOfATank) {
  // The wagon's tank is empty, and 2 L of it are of no use.
  const Trip trip = support::travel(two(60, 0, can(30, "any")));
  EXPECT_NEAR(trip.reserve(0, "fuel:wagon").end, 5, 1e-6);
  EXPECT_NEAR(trip.store(0, "wagon tank").end, 7, 1e-6);
  EXPECT_NEAR(trip.store(0, "jerry").end, 30 - 27, 1e-6);
}

TEST(SharedCan, IsNotGivenAwayForAMarginThatItsOwnVehicleNeeds) {
  // Both have just what they drive on; the can is one margin of 5 L, and stays with the truck.
  const Trip trip = support::travel(two(22, 22, can(5, "any")));
  EXPECT_EQ(trip.sum(&engine::ReserveDay::short_of, "fuel:truck"), 0);
  EXPECT_EQ(trip.sum(&engine::ReserveDay::short_of, "fuel:wagon"), 0);
  EXPECT_NEAR(trip.reserve(0, "fuel:truck").end + trip.reserve(0, "fuel:wagon").end, 5, 1e-6);
  EXPECT_FALSE(trip.verdict.holds);
}

TEST(SharedCan, IsOfNoUseToAVehicleWhoseOwnerHasGoneHome) {
  PlanText text = two(60, 14, can(20, "any"));
  text.vehicles[0] =
      "{name: guest, fuel: diesel, until: Half, mass: {empty: 2000 kg}, tanks: "
      "[{name: guest tank, holds: 60 L, filled: 60 L}, " +
      can(20, "any") + "]}";
  text.people = {
      "{name: Ada, mass: 60 kg, height: 172 cm, age: 40, sex: female, rides_in: wagon, "
      "observed: {drinking: 4 L/day, meals: 3}}"};
  text.containers = {"{name: can, holds: 60 L, filled: 60 L, in: wagon}"};
  text.places.push_back(PlanText::place("Half", "air"));
  text.itinerary = {"{at: Base}", "drive: {to: Half, distance: 100 km, surfaces: sealed}",
                    "drive: {to: End, distance: 100 km, surfaces: sealed}"};
  const Trip trip = support::travel(text);
  // Until Half it is kept at its margin; from there it is alone.
  EXPECT_FALSE(trip.verdict.holds);
  EXPECT_NEAR(trip.store(0, "jerry").lost, 20, 1e-6);
}

/// Does any division of the can into two that nobody shares do?
bool some_division_does(double truck_l, double wagon_l, double can_l, int margin_km) {
  for (int tenths = 0; tenths <= 10 * can_l; ++tenths) {
    const double to_truck = tenths / 10.0;
    const Trip trip = support::travel(
        two(truck_l, wagon_l, can(to_truck, ""), can(can_l - to_truck, ""), margin_km));
    if (trip.verdict.holds) return true;
  }
  return false;
}

RC_GTEST_PROP(SharedCanProperty, HoldsWhereAnyDivisionDoes, ()) {
  const auto pick = support::rapidcheck_pick();
  const double truck_l = pick(2, 40);
  const double wagon_l = pick(2, 40);
  const double can_l = pick(1, 12);
  const int margin_km = 10 * pick(0, 6);
  const bool shared =
      support::travel(two(truck_l, wagon_l, can(can_l, "any"), "", margin_km)).verdict.holds;
  RC_ASSERT(shared == some_division_does(truck_l, wagon_l, can_l, margin_km));
}

/// One vehicle that uses what truck and wagon use together, and has the tanks of both.
PlanText as_one(double each_l, const std::string& cans, int margin_km) {
  PlanText text = two(each_l, each_l, "", "", margin_km);
  text.vehicles = {fmt::format(
      "{{name: truck, fuel: diesel, mass: {{empty: 2000 kg}}, tanks: [{{name: tank, holds: 180 L, "
      "filled: {} L, unusable: 4 L}}{}], observed: [{{surface: sealed, uses: 20 L/100km}}]}}",
      2 * each_l, cans)};
  return text;
}

std::string named_can(const std::string& name, int litres, const std::string& more) {
  return fmt::format("{{name: {}, holds: 30 L, filled: {} L, empty_mass: 4 kg{}}}", name, litres,
                     more);
}

// With as much in both tanks, sharing every can is the same as being one vehicle.
TEST(SharedCan, OfTwoThatHaveTheSameIsAsOfOneVehicle) {
  int dry = 0;
  int below = 0;
  for (double each_l = 2; each_l <= 34; each_l += 2) {
    for (const int truck_can_l : {0, 1, 5, 12, 30}) {
      for (const int wagon_can_l : {0, 3, 9, 20}) {
        for (const int margin_km : {0, 40}) {
          const Trip shared =
              support::travel(two(each_l, each_l, named_can("one", truck_can_l, ", for: any"),
                                  named_can("other", wagon_can_l, ", for: any"), margin_km));
          const Trip one = support::travel(as_one(
              each_l,
              ", " + named_can("one", truck_can_l, "") + ", " + named_can("other", wagon_can_l, ""),
              margin_km));
          const auto both = [&](double engine::ReserveDay::*column) {
            return shared.reserve(0, "fuel:truck").*column +
                   shared.reserve(0, "fuel:wagon").*column;
          };
          SCOPED_TRACE(fmt::format("{} L in each tank, {} and {} L in cans, margin {} km", each_l,
                                   truck_can_l, wagon_can_l, margin_km));
          EXPECT_EQ(shared.verdict.holds, one.verdict.holds);
          const double short_l = both(&engine::ReserveDay::short_of);
          const double one_short_l = one.reserve(0, "fuel:truck").short_of;
          const bool runs_dry = one_short_l > 1e-6;
          // What was poured into one's tank for its margin is not there for the other.
          const double kept_l = one.verdict.holds ? 0 : margin_km / 10.0;
          EXPECT_GE(short_l, one_short_l - 1e-6);
          EXPECT_LE(short_l, one_short_l + kept_l + 1e-6);
          EXPECT_NEAR(both(&engine::ReserveDay::end) - short_l,
                      one.reserve(0, "fuel:truck").end - one_short_l, 1e-6);
          if (runs_dry) ++dry;
          if (!runs_dry && !one.verdict.holds) ++below;
        }
      }
    }
  }
  // All that can come of it did.
  EXPECT_GT(dry, 50);
  EXPECT_GT(below, 20);
}

}  // namespace
}  // namespace drystage
