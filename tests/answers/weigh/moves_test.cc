// What to move so that all limits are kept: by hand, and against trying everything.
#include "answers/weigh/moves.h"

#include <fmt/core.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "answers/weigh/trailer_moves.h"
#include "answers/weigh/weighing.h"
#include "support/trip.h"

namespace drystage::answers::moves_test {
namespace {

using support::PlanText;
using support::Trip;

/// A truck of 2000 kg with a wheelbase of 3 m and two bays, and what else it has.
PlanText plan_of(const std::string& mass, const std::string& more,
                 const std::string& bays = "{cab: {at: 1 m}, tray: {at: 3 m}}") {
  PlanText plan;
  plan.people = {
      "{name: Ada, mass: 80 kg, height: 175 cm, age: 40, sex: female, observed: {drinking: 4 "
      "L/day, meals: 3}}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg" + mass +
      "}, wheelbase: 3 m, overhang: {front: 1 m, rear: 1.5 m}, weighed: {front: 1100 kg, rear: 900 "
      "kg}, tanks: [{name: tank, holds: 60 L, filled: 0 L, at: 1.5 m}]" +
      (bays.empty() ? "" : ", bays: " + bays) + more + "}"};
  return plan;
}

Moves moves_of(const PlanText& plan) { return weigh(support::travel(plan)).moves[0]; }

TEST(Moves, TakeTheLightestThingThatIsEnough) {
  // Rear: 900 + 40 + 70 in the tray = 1010, 10 over. A third of what comes 2 m forward stays: 16 kg
  // must move, and of 12, 20 and 38 it is 20.
  const Moves found = moves_of(plan_of(
      ", rear_limit: 1000 kg",
      ", gear: [{name: a, mass: 12 kg, bay: tray}, {name: b, mass: 38 kg, bay: tray}, {name: c, "
      "mass: 20 kg, bay: tray}]"));
  ASSERT_TRUE(found.found);
  ASSERT_EQ(found.moves.size(), 1U);
  EXPECT_EQ(found.moves[0].name, "c");
  EXPECT_EQ(found.moves[0].to_bay, 0);
  EXPECT_FALSE(found.moves[0].left);
  EXPECT_NEAR(found.moves[0].kg, 20, 1e-9);
}

TEST(Moves, PreferTwoLightThingsToAHeavyOne) {
  const Moves found = moves_of(plan_of(
      ", rear_limit: 1000 kg",
      ", gear: [{name: a, mass: 9 kg, bay: tray}, {name: b, mass: 51 kg, bay: tray}, {name: c, "
      "mass: 10 kg, bay: tray}]"));
  ASSERT_EQ(found.moves.size(), 2U);
  EXPECT_EQ(found.moves[0].name, "a");
  EXPECT_EQ(found.moves[1].name, "c");
}

TEST(Moves, LeaveGearOnlyWhereNoMoveDoes) {
  // The whole is 2000 + 80 + 60 = 2140 kg, whatever lies where.
  const Moves found = moves_of(
      plan_of(", limit: 2120 kg",
              ", gear: [{name: a, mass: 22 kg, bay: tray}, {name: b, mass: 38 kg, bay: cab}]"));
  ASSERT_EQ(found.moves.size(), 1U);
  EXPECT_EQ(found.moves[0].name, "a");
  EXPECT_TRUE(found.moves[0].left);
}

TEST(Moves, SayWhereNothingDoes) {
  const Moves found = moves_of(plan_of(", limit: 2050 kg", ""));
  EXPECT_FALSE(found.found);
  EXPECT_FALSE(found.given_up);
  EXPECT_TRUE(found.moves.empty());
}

TEST(Moves, ArePackedInNoSeatAndNoBayThatIsFull) {
  PlanText plan = plan_of(", rear_limit: 1000 kg", ", gear: [{name: a, mass: 70 kg, bay: tray}]",
                          "{seat: {at: 1 m}, locker: {at: 0.5 m, limit: 60 kg}, tray: {at: 3 m}, "
                          "well: {at: 2.4 m}}");
  plan.people.front().insert(plan.people.front().size() - 1, ", seat: seat");
  // 900 + 26.7 + 70: within 1000. Over with 80 kg; the locker takes 60.
  EXPECT_TRUE(moves_of(plan).moves.empty());
  plan.vehicles.front().replace(plan.vehicles.front().find("70 kg, bay"), 2, "80");
  const Moves found = moves_of(plan);
  ASSERT_EQ(found.moves.size(), 1U);
  EXPECT_EQ(found.moves[0].to_bay, 3);
}

TEST(Moves, WithoutBaysGoNoFurtherThanNeeded) {
  // Over by 10 kg: 30 kg must come 1 m forward, to 2 m.
  const Moves found = moves_of(plan_of(", rear_limit: 960 kg",
                                       ", gear: [{name: a, mass: 30 kg, at: 3 m}, {name: peg, "
                                       "mass: 0.01 kg, at: 0.5 m}]",
                                       ""));
  ASSERT_EQ(found.moves.size(), 1U);
  EXPECT_EQ(found.moves[0].name, "a");
  EXPECT_NEAR(found.moves[0].to_m, 2, 0.0501);
  EXPECT_LE(found.moves[0].to_m, 2);
}

TEST(Moves, LookAtEveryHourOfTheTrip) {
  // The can in the cab empties over the trip. To carry the box there is too much at first only.
  PlanText plan = plan_of(", front_limit: 1200 kg, rear_limit: 975 kg",
                          ", gear: [{name: box, mass: 36 kg, bay: tray}]");
  plan.containers = {"{name: can, holds: 20 L, filled: 20 L, bay: cab}"};
  // Front 1100 + 40 + 13.3; rear 900 + 40 + 36 + 6.7 = 982.7 at first, 7.7 over.
  const Trip trip = support::travel(plan);
  const Weighing before = weigh(trip);
  ASSERT_EQ(before.over.size(), 1U);
  EXPECT_NEAR(before.over[0].kg, 900 + 40 + 36 + 20 / 3.0 - 975, 1e-6);
  ASSERT_EQ(before.moves[0].moves.size(), 1U);
  EXPECT_EQ(before.moves[0].moves[0].name, "box");
}

TEST(Moves, PutFuelOnlyWhereFuelIs) {
  PlanText plan = plan_of(", rear_limit: 950 kg", "");
  plan.vehicles.front().replace(plan.vehicles.front().find("filled: 0 L, at: 1.5 m}"), 23,
                                "filled: 0 L, at: 1.5 m}, {name: jerry, holds: 20 L, filled: 20 L, "
                                "empty_mass: 4 kg, bay: tray}");
  EXPECT_FALSE(moves_of(plan).found);
  plan.vehicles.front().replace(
      plan.vehicles.front().find("{name: jerry"), 12,
      "{name: can in cab, holds: 5 L, filled: 0 L, empty_mass: 1 kg, bay: "
      "cab}, {name: jerry");
  const Moves found = moves_of(plan);
  ASSERT_EQ(found.moves.size(), 1U);
  EXPECT_EQ(found.moves[0].name, "jerry");
}

TEST(Moves, LeaveNothingAtHomeThatIsNeeded) {
  const Moves found = moves_of(plan_of(", limit: 2120 kg",
                                       ", gear: [{name: a, mass: 22 kg, bay: tray, needed: yes}, "
                                       "{name: b, mass: 38 kg, bay: cab}]"));
  ASSERT_EQ(found.moves.size(), 1U);
  EXPECT_EQ(found.moves[0].name, "b");
}

TEST(Moves, KeepWhatCanBeKeptWhereNotAllCan) {
  // The whole is over whatever is moved; the rear axle need not be.
  const Moves found = moves_of(plan_of(", limit: 2030 kg, rear_limit: 950 kg",
                                       ", gear: [{name: a, mass: 20 kg, bay: tray, needed: yes}]"));
  EXPECT_FALSE(found.found);
  ASSERT_EQ(found.moves.size(), 1U);
  EXPECT_EQ(found.moves[0].name, "a");
  ASSERT_EQ(found.still.size(), 1U);
  EXPECT_EQ(found.still[0], 0U);
}

TEST(Moves, OfATrailerGoBackOrStayAtHome) {
  plan::Vehicle vehicle;
  vehicle.trailer = plan::Trailer{.mass_kg = 500,
                                  .ball_kg = 50,
                                  .drawbar_m = 3,
                                  .gear = {{.name = "wood", .mass_kg = 60, .ahead_m = 0.5},
                                           {.name = "tins", .mass_kg = 25, .ahead_m = 1}}};
  // The ball has 50 + 10 + 8.3. To lose 5 kg, 25 kg must go 0.6 m back.
  const TrailerMoves ball = trailer_moves(vehicle, 0, 0, 5);
  ASSERT_EQ(ball.moves.size(), 1U);
  EXPECT_EQ(ball.moves[0].name, "tins");
  EXPECT_NEAR(ball.moves[0].to_m, 0.4, 1e-9);
  EXPECT_TRUE(ball.keeps_ball);
  const TrailerMoves heavy = trailer_moves(vehicle, 0, 40, 0);
  ASSERT_EQ(heavy.moves.size(), 1U);
  EXPECT_EQ(heavy.moves[0].name, "wood");
  EXPECT_TRUE(heavy.moves[0].left);
  EXPECT_FALSE(trailer_moves(vehicle, 0, 90, 0).keeps_limit);
  EXPECT_FALSE(trailer_moves(vehicle, 0, 0, 80).keeps_ball);
}

TEST(Moves, OfManyThingsAreFoundThoughNotAllWaysAreTried) {
  std::string gear = "{name: big, mass: 150 kg, bay: tray}";
  for (int i = 0; i < 30; ++i) {
    gear += fmt::format(", {{name: g{}, mass: {} kg, bay: tray}}", i, 8 + i % 7);
  }
  const Moves found = moves_of(plan_of(", rear_limit: 1330 kg", ", gear: [" + gear + "]",
                                       "{a: {at: 1 m}, b: {at: 1.1 m}, c: {at: 1.2 m}, tray: {at: "
                                       "3 m}}"));
  EXPECT_TRUE(found.found);
  EXPECT_TRUE(found.given_up);
  EXPECT_FALSE(found.moves.empty());
}

// --- against trying everything ---

struct Item {
  double kg = 0;
  int bay = 0;
};

/// A truck at rest, and things in three bays: what each axle has, and each bay.
struct Case {
  std::vector<Item> items;
  double front_kg = 0;
  double rear_kg = 0;
  double tray_kg = 0;
};
constexpr std::array<double, 3> bays_m{0.6, 1.8, 3.3};

bool keeps(const Case& one, const std::vector<int>& bays) {
  double front = 1100 + 40;
  double rear = 900 + 40;
  double tray = 0;
  for (std::size_t i = 0; i < bays.size(); ++i) {
    const double at_m = bays_m.at(static_cast<std::size_t>(bays[i]));
    front += one.items[i].kg * (1 - at_m / 3);
    rear += one.items[i].kg * at_m / 3;
    if (bays[i] == 2) tray += one.items[i].kg;
  }
  constexpr double tiny = 1e-6;
  return front <= one.front_kg + tiny && rear <= one.rear_kg + tiny && tray <= one.tray_kg + tiny;
}

/// The least mass moved of all ways to put the things; infinite where none does.
double least_by_trying_all(const Case& one) {
  std::vector<int> bays(one.items.size(), 0);
  double least = std::numeric_limits<double>::infinity();
  for (;;) {
    if (keeps(one, bays)) {
      double moved = 0;
      for (std::size_t i = 0; i < bays.size(); ++i) {
        if (bays[i] != one.items[i].bay) moved += one.items[i].kg;
      }
      least = std::min(least, moved);
    }
    std::size_t digit = 0;
    while (digit < bays.size() && ++bays[digit] == 3) bays[digit++] = 0;
    if (digit == bays.size()) return least;
  }
}

RC_GTEST_PROP(Moves, AreTheLeastOfAllByExhaustiveTrial, ()) {
  Case one;
  std::string gear;
  const int count = *rc::gen::inRange(1, 6);
  for (int i = 0; i < count; ++i) {
    const Item item{.kg = static_cast<double>(*rc::gen::inRange(5, 60)),
                    .bay = *rc::gen::inRange(0, 3)};
    one.items.push_back(item);
    gear += fmt::format("{}{{name: g{}, mass: {} kg, bay: b{}}}", i == 0 ? "" : ", ", i, item.kg,
                        item.bay);
  }
  one.front_kg = 1140 + *rc::gen::inRange(-20, 120);
  one.rear_kg = 940 + *rc::gen::inRange(10, 120);
  one.tray_kg = *rc::gen::inRange(20, 150);
  PlanText plan = plan_of(
      fmt::format(", front_limit: {} kg, rear_limit: {} kg", one.front_kg, one.rear_kg),
      ", gear: [" + gear + "]",
      fmt::format("{{b0: {{at: 0.6 m}}, b1: {{at: 1.8 m}}, b2: {{at: 3.3 m, limit: {} kg}}}}",
                  one.tray_kg));
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}"};
  const Trip trip = support::travel(plan);
  const Trace trace = trace_of(trip);
  const Loads loads(trip, trace, 0);
  const Moves found =
      least_moves(trip, trace, loads, trip.course.scales, {.which = {}, .may_leave = false});
  const double least = least_by_trying_all(one);
  RC_ASSERT(found.found == std::isfinite(least));
  double moved = 0;
  std::vector<int> bays;
  for (const Item& item : one.items) bays.push_back(item.bay);
  for (const Move& move : found.moves) {
    moved += move.kg;
    bays[static_cast<std::size_t>(std::stoi(move.name.substr(1)))] = move.to_bay;
  }
  if (!found.found) return;
  RC_ASSERT(std::abs(moved - least) < 1e-6);
  RC_ASSERT(keeps(one, bays));
}

}  // namespace
}  // namespace drystage::answers::moves_test
