// What is taken on at each stop, in few words.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/charts/run_parts.h"
#include "support/needs_answer.h"
#include "support/trip.h"

namespace drystage::report::supply_stops_test {
namespace {

using support::PlanText;
using support::travel;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// A night in Base on 4 L out of a can of 60 L, and then a stop there.
PlanText stopping(const std::string& supply, const std::string& order) {
  PlanText plan;
  plan.containers = {"{name: can, holds: 60 L, filled: 40 L, for: drinking}"};
  plan.places = {PlanText::place("Base", "air", supply)};
  plan.itinerary = {"{at: Base}", "stay: {nights: 1}", "resupply: {" + order + "}",
                    "stay: {nights: 1}"};
  return plan;
}

std::vector<SupplyStop> stops(const PlanText& plan, units::System system = units::System::metric) {
  return supply_stops(travel(plan), system);
}

TEST(SupplyStops, SayWhatIsTakenAndWhen) {
  PlanText plan = stopping("drinking_water: {}, utility_water: {}",
                           "drinking_water: 12 L, utility_water: fill");
  plan.containers.emplace_back("{name: tank, holds: 50 L, filled: 20 L, for: utility}");
  const auto trip = travel(plan);
  const std::vector<SupplyStop> all = supply_stops(trip, units::System::metric);
  ASSERT_THAT(all, SizeIs(1));
  EXPECT_EQ(all[0].words, "drinking water 12 L, utility water 30 L");
  EXPECT_EQ(all[0].hour, support::trip_hour(trip.told(engine::EventKind::refill).at(0)));
}

TEST(SupplyStops, SayWhatNobodyHasConfirmed) {
  const auto all = stops(stopping("drinking_water: {confirmed: no}", "drinking_water: 12 L"));
  ASSERT_THAT(all, SizeIs(1));
  EXPECT_EQ(all[0].words, "drinking water 12 L (not confirmed)");
}

TEST(SupplyStops, SayWhatIsShut) {
  // The second day is a Tuesday.
  const auto all = stops(stopping("drinking_water: {open: [mon]}", "drinking_water: 12 L"));
  ASSERT_THAT(all, SizeIs(1));
  EXPECT_EQ(all[0].words, "drinking water: shut");
}

TEST(SupplyStops, AreNoneWhereNothingIsTaken) { EXPECT_THAT(stops(PlanText{}), IsEmpty()); }

TEST(SupplyStops, ShowOtherUnits) {
  // 12 L are 3.17 US gallons, shown whole, of 3.785411784 L (NIST SP 811).
  const auto all = stops(stopping("drinking_water: {}", "drinking_water: 12 L"), units::System::us);
  ASSERT_THAT(all, SizeIs(1));
  EXPECT_EQ(all[0].words, "drinking water 3 US gal");
}

}  // namespace
}  // namespace drystage::report::supply_stops_test
