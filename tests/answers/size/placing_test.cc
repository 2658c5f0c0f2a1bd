// Where what `size` adds is put, so that axles and bays keep their limits.
#include "answers/size/placing.h"

#include <gtest/gtest.h>

#include <string>

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
  plan.food = {"{item: stores, kept: dry, meals: 30}"};
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

}  // namespace
}  // namespace drystage::answers::placing_test
