// What readings say. What is wrong with them: tests/wrong/readings.yaml and readings_when.yaml.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan_text.h"
#include "support/plan_text.h"
#include "support/rewritten.h"

namespace drystage::plan::read_readings_test {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

// A plan with a can, a truck and these readings.
std::string with(const std::string& readings) {
  return support::plan_around("water: {containers: [{name: can, holds: 20 L, filled: 20 L}]}\n" +
                              support::one_truck()) +
         "readings: " + readings + "\n";
}

TEST(Readings, SayWhatWasFoundAtAMoment) {
  const Plan plan = support::read_plan(whole_plan());
  ASSERT_EQ(plan.readings.size(), 2U);
  const Reading& first = plan.readings[0];
  EXPECT_EQ(first.day, 1);
  EXPECT_TRUE(first.in_the_evening);
  EXPECT_EQ(first.hour, evening_h);
  EXPECT_EQ(first.at, (Whereabouts{.place = 1}));
  EXPECT_EQ(first.drinking_l, 24);
  EXPECT_EQ(first.utility_l, 70);
  EXPECT_EQ(first.meals, 100);
  EXPECT_THAT(first.fuel, ElementsAre(FuelFound{0, 61}, FuelFound{1, 33}));
  EXPECT_THAT(first.banks, ElementsAre(BankFound{.bank = 0, .share = 0.85},
                                       BankFound{.bank = 1, .charge_ah = 40}));
  EXPECT_THAT(first.cabinets, ElementsAre(CabinetFound{0, 4}));
  EXPECT_THAT(first.consumables, ElementsAre(ConsumableFound{0, 4}, ConsumableFound{2, 8}));
  EXPECT_THAT(first.containers, IsEmpty());
  EXPECT_THAT(first.tanks, IsEmpty());

  const Reading& second = plan.readings[1];
  EXPECT_EQ(second.day, 5);
  EXPECT_FALSE(second.in_the_evening);
  EXPECT_EQ(second.hour, 15.5);
  EXPECT_EQ(second.at, (Whereabouts{.place = 2, .after_km = 85}));
  EXPECT_EQ(second.drinking_l, std::nullopt);
  EXPECT_THAT(second.containers, ElementsAre(ContainerFound{2, {.amount = 9}}));
  EXPECT_THAT(second.tanks, ElementsAre(TankFound{{0, 0}, {.depth_m = 0.23}}));
  EXPECT_THAT(second.banks, ElementsAre(BankFound{.bank = 0, .resting_v = 12.4}));
  EXPECT_GT(second.mark.line, first.mark.line);
}

TEST(Readings, OfTheOnlyVehicleNeedNotNameIt) {
  const Plan bare = support::read_plan(with("[{evening: 1, fuel: 40 L}]"));
  const Plan named = support::read_plan(with("[{evening: 1, fuel: {truck: 40 L}}]"));
  EXPECT_THAT(bare.readings[0].fuel, ElementsAre(FuelFound{0, 40}));
  EXPECT_EQ(bare.readings[0].fuel, named.readings[0].fuel);
}

TEST(Readings, OfAFullVesselMayBeMoreByALastDigit) {
  const Plan plan =
      support::read_plan(with("[{evening: 1, drinking: 20.000000001 L, fuel: 76 L}]"));
  EXPECT_EQ(plan.readings[0].drinking_l, 20);
  EXPECT_EQ(plan.readings[0].fuel[0].usable_l, 76);
}

TEST(Readings, AreNoneWhereNothingIsSaid) {
  EXPECT_THAT(support::read_plan(with("")).readings, IsEmpty());
  EXPECT_THAT(support::read_plan(with("[]")).readings, IsEmpty());
}

TEST(Readings, MayBeTwoADayButNotAtOneMoment) {
  const Plan plan =
      support::read_plan(with("[{day: 1, hour: '19:59', fuel: 9 L}, {evening: 1, fuel: 8 L}]"));
  EXPECT_EQ(plan.readings.size(), 2U);
  const Diagnostic error =
      only_error(read_text(with("[{day: 1, hour: '20:00', fuel: 9 L}, {evening: 1, fuel: 8 L}]")));
  EXPECT_THAT(error.what, HasSubstr("two readings at one moment"));
}

}  // namespace
}  // namespace drystage::plan::read_readings_test
