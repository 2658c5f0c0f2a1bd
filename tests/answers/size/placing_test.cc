// Where what `size` adds is put, so that axles and bays keep their limits.
#include "answers/size/placing.h"

#include <fmt/core.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "support/size_of.h"
#include "support/trip.h"

namespace drystage::answers::placing_test {
namespace {

using support::found;
using support::PlanText;
using support::size_of;
using support::taken;

constexpr const char* twenties = "20 L container of drinking water";

/// One person who drinks 4 L a day for ten days, on the 20 L in the tray: two cans are needed.
PlanText ten_days(const std::string& mass, const std::string& can = ", bay: tray",
                  const std::string& cab = "{at: 0.9 m, limit: 60 kg}") {
  PlanText plan;
  plan.people = {PlanText::person("Ada", "4 L/day")};
  plan.containers = {"{name: can 1, holds: 20 L, filled: 20 L, for: drinking, empty_mass: 1 kg" +
                     can + "}"};
  plan.vehicles = {
      "{name: truck, fuel: diesel, mass: {empty: 2000 kg" + mass +
      "}, wheelbase: 3 m, weighed: {front: 1100 kg, rear: 900 kg}, bays: {cab: " + cab +
      ", tray: {at: 3 m}, rack: {at: 1.5 m, roof: yes}}, tanks: [{name: tank, holds: 60 L, filled: "
      "0 L}]}"};
  plan.food = {"{item: stores, kept: dry, meals: 300}"};
  plan.itinerary = {"{at: Base}", "stay: {nights: 10}"};
  return plan;
}

constexpr const char* offers = "size: {containers: {drinking: [20 L]}}";

std::string bay_of(const SizedPlan& set, const std::string& name) {
  for (const plan::Container& can : set.plan.water.containers) {
    if (can.name != name) continue;
    return can.spot.bay ? set.plan.vehicles[0].bays[static_cast<std::size_t>(*can.spot.bay)].name
                        : "none";
  }
  return "not there";
}

TEST(Placing, LeavesANewCanBesideTheOneThatItIsLike) {
  const Sizing sizing = size_of(ten_days(""), offers);
  EXPECT_EQ(taken(sizing, twenties), 2);
  EXPECT_EQ(bay_of(found(sizing), "can 2"), "tray");
}

TEST(Placing, PutsANewCanWhereTheAxleBearsIt) {
  // Rear: 900 + 35 (Ada, halfway) + 21 in the tray = 956. With 21.5 more it would be 977.
  const Sizing sizing = size_of(ten_days(", rear_limit: 970 kg"), offers);
  EXPECT_EQ(taken(sizing, twenties), 2);
  const SizedPlan& set = found(sizing);
  EXPECT_EQ(bay_of(set, "can 1"), "tray");  // the plan's own stays
  EXPECT_EQ(bay_of(set, "can 2"), "cab");
  EXPECT_TRUE(set.planned.verdict.holds);
  for (const engine::Heaviest& most : set.planned.record.heaviest) EXPECT_EQ(most.over_day, -1);
}

TEST(Placing, FindsNothingWhereNoBayBearsIt) {
  // 935 + 21 + 21.5 x 0.3 in the cab is 962.5; the roof is halfway, and takes less than that.
  const Sizing sizing = size_of(ten_days(", rear_limit: 960 kg, roof_limit: 10 kg"),
                                "size: {containers: {drinking: [{holds: 20 L, most: 2}]}}");
  ASSERT_FALSE(sizing.found);
  ASSERT_TRUE(sizing.miss);
  ASSERT_FALSE(sizing.miss->failing.empty());
  EXPECT_EQ(sizing.miss->failing.front().reason, Failing::Reason::overload);
}

TEST(Placing, GivesABayToWhatIsLikeNothingThatHasOne) {
  const Sizing sizing = size_of(ten_days(", rear_limit: 990 kg", ""), offers);
  EXPECT_EQ(taken(sizing, twenties), 2);
  EXPECT_EQ(bay_of(found(sizing), "can 1"), "none");
  // The cab takes 60 kg; the tray what the axle has left, which is less; the roof is for nobody.
  EXPECT_EQ(bay_of(found(sizing), "can 2"), "cab");
}

TEST(Placing, NeverGivesABayThatHasNoRoomForIt) {
  // Nothing but the back is there, and its axle would not bear a can: it stays without a place.
  PlanText plan = ten_days(", rear_limit: 980 kg", "", "{at: 3.6 m, limit: 12 kg}");
  plan.vehicles.front().replace(plan.vehicles.front().find("tray: {at: 3 m}"), 15,
                                "tray: {at: 3.7 m}");
  const Sizing sizing = size_of(plan, offers);
  EXPECT_EQ(taken(sizing, twenties), 2);
  EXPECT_EQ(bay_of(found(sizing), "can 2"), "none");
}

TEST(Placing, PutsFuelOnlyWhereFuelIs) {
  PlanText plan = ten_days("");
  plan.places = {PlanText::place("Base", "air"), PlanText::place("End", "air")};
  plan.itinerary = {"{at: Base}", "drive: {to: End, distance: 200 km, surfaces: sealed}"};
  plan.vehicles.front().replace(plan.vehicles.front().find("holds: 60 L, filled: 0 L"), 24,
                                "holds: 6 L, filled: 5 L");
  const Sizing sizing = size_of(plan, "size: {fuel_cans: {truck: [20 L]}}");
  const SizedPlan& set = found(sizing);
  ASSERT_GT(set.plan.vehicles[0].tanks.size(), 1U);
  EXPECT_FALSE(set.plan.vehicles[0].tanks[1].spot.bay);
}

/// The least mass of 20 L cans that are enough, however they are put; infinite where none is. The
/// plan's own, in the tray, is the first of them.
double least_by_trying_all(double need_l, double rear_kg, double cab_kg) {
  constexpr double can_kg = 21;
  constexpr int most = 5;
  for (int cans = 1; cans <= most; ++cans) {
    if (20 * cans < need_l - 1e-9) continue;
    // So many of the new ones in the cab, the others in the tray.
    for (int in_cab = 0; in_cab < cans; ++in_cab) {
      const double rear = 900 + 35 + can_kg * (cans - in_cab) + 0.3 * can_kg * in_cab;
      if (rear <= rear_kg + 1e-6 && can_kg * in_cab <= cab_kg + 1e-6) return cans * can_kg;
    }
  }
  return std::numeric_limits<double>::infinity();
}

RC_GTEST_PROP(Placing, FindsTheLeastHoweverItIsPut, ()) {
  const int days = *rc::gen::inRange(2, 25);
  const int rear_kg = *rc::gen::inRange(956, 1040);
  const int cab_kg = *rc::gen::inRange(5, 90);
  PlanText plan = ten_days(fmt::format(", rear_limit: {} kg", rear_kg), ", bay: tray",
                           fmt::format("{{at: 0.9 m, limit: {} kg}}", cab_kg));
  plan.itinerary = {"{at: Base}", fmt::format("stay: {{nights: {}}}", days)};
  plan.vehicles.front().replace(plan.vehicles.front().find("rack: {at: 1.5 m, roof: yes}"), 28,
                                "rack: {at: 1.5 m, roof: yes, limit: 1 kg}");
  const Sizing sizing =
      size_of(plan, "size: {containers: {drinking: [{holds: 20 L, empty_mass: 1 kg, most: 5}]}}");
  const double least = least_by_trying_all(4.0 * days, rear_kg, cab_kg);
  RC_ASSERT(sizing.found.has_value() == std::isfinite(least));
  if (!sizing.found) return;
  RC_ASSERT(std::abs(sizing.found->totals.kg - least) < 1e-6);
  RC_ASSERT(sizing.found->planned.verdict.holds);
}

}  // namespace
}  // namespace drystage::answers::placing_test
