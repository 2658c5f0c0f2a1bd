#include "models/battery.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace drystage::models {
namespace {

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 1000001) / 1e6;
}

BatteryParams any_battery() {
  const BatteryKind kind =
      *rc::gen::element(BatteryKind::flooded, BatteryKind::agm, BatteryKind::lfp);
  return usual_battery(kind, between(10, 600), *rc::gen::element(5.0, 10.0, 20.0, 100.0));
}

// 100 Ah at 20 h, k = 1.2, at 10 A: 8.7 h. Peukert's law, worked example in general reference
// works.
TEST(Battery, PeukertsLawGivesTheTextbookHours) {
  EXPECT_NEAR(peukert_hours(100.0, 20.0, 1.2, 10.0), 8.7, 0.05);
  EXPECT_TRUE(std::isinf(peukert_hours(100.0, 20.0, 1.2, 0.0)));
}

TEST(Battery, TheStepRunsAFullBankForPeukertsHours) {
  BatteryParams bank = usual_battery(BatteryKind::flooded, 100.0);
  bank.peukert = 1.2;
  double charge_ah = 100.0;
  const BatteryFlows flows = step_battery(bank, charge_ah, 10.0, 0.0, 25.0, 24.0, 0.0);
  EXPECT_NEAR(flows.served * 24.0, peukert_hours(100.0, 20.0, 1.2, 10.0), 1e-12);
  EXPECT_NEAR(flows.used_ah, 10.0 * peukert_hours(100.0, 20.0, 1.2, 10.0), 1e-11);
  EXPECT_EQ(charge_ah, 0.0);
}

TEST(Battery, BelowTheRatedCurrentAnAmpereHourIsAnAmpereHour) {
  const BatteryParams bank = usual_battery(BatteryKind::agm, 100.0);
  double charge_ah = 90.0;
  for (int hour = 0; hour < 10; ++hour) {
    step_battery(bank, charge_ah, 2.5, 0.0, 25.0, 1.0, 50.0);
  }
  EXPECT_NEAR(charge_ah, 65.0, 1e-12);
}

// IEEE 485 cell size correction factors (memory).
TEST(Battery, LeadCapacityFollowsTheCellSizeFactors) {
  EXPECT_DOUBLE_EQ(cold_factor(BatteryKind::agm, 25.0), 1.00);
  EXPECT_DOUBLE_EQ(cold_factor(BatteryKind::agm, 15.6), 1.11);
  EXPECT_DOUBLE_EQ(cold_factor(BatteryKind::flooded, 4.4), 1.30);
  EXPECT_DOUBLE_EQ(cold_factor(BatteryKind::flooded, -3.9), 1.52);
  EXPECT_DOUBLE_EQ(cold_factor(BatteryKind::flooded, 45.0), 1.00);
  EXPECT_NEAR(cold_factor(BatteryKind::agm, 5.8), 1.275, 1e-12);
  EXPECT_GT(cold_factor(BatteryKind::agm, -20.0), 1.9);
}

// Common practice.
TEST(Battery, ColdTakesLessFromLfpThanFromLead) {
  EXPECT_NEAR(cold_factor(BatteryKind::lfp, 0.0), 1.12, 1e-12);
  for (const double c : {20.0, 10.0, 0.0, -10.0, -20.0}) {
    EXPECT_LT(cold_factor(BatteryKind::lfp, c), cold_factor(BatteryKind::agm, c)) << c;
  }
}

// IEEE 485 (memory): at 4.4 °C a bank must be 1.30 times as large to give the same; so of 130 Ah a
// full one gives 100 Ah before it is empty, and 50 before it is half empty.
TEST(Battery, ColdPutsTheLowerPartOfTheChargeOutOfReach) {
  const BatteryParams bank = usual_battery(BatteryKind::agm, 130.0);
  EXPECT_NEAR(cold_floor_ah(bank, 0.0, 4.4), 30.0, 1e-12);
  EXPECT_NEAR(cold_floor_ah(bank, 65.0, 4.4), 80.0, 1e-12);
  EXPECT_EQ(cold_floor_ah(bank, 65.0, 25.0), 65.0);
  double charge_ah = 130.0;
  const double floor_ah = cold_floor_ah(bank, 0.0, 4.4);
  const BatteryFlows flows = step_battery(bank, charge_ah, 5.0, 0.0, 4.4, 30.0, floor_ah);
  EXPECT_NEAR(flows.used_ah, 100.0, 1e-9);
  EXPECT_NEAR(flows.lost_ah, 0.0, 1e-9);
}

TEST(Battery, ASurplusIsStoredLessTheCoulombicLoss) {
  const BatteryParams bank = usual_battery(BatteryKind::flooded, 100.0);
  double charge_ah = 50.0;
  const BatteryFlows flows = step_battery(bank, charge_ah, 3.0, 13.0, 25.0, 2.0, 40.0);
  EXPECT_NEAR(flows.direct_ah, 6.0, 1e-12);
  EXPECT_NEAR(flows.gained_ah, 20.0, 1e-12);
  EXPECT_NEAR(flows.lost_ah, 3.0, 1e-12);
  EXPECT_NEAR(charge_ah, 67.0, 1e-12);
  EXPECT_EQ(flows.spilled_ah, 0.0);
}

TEST(Battery, AboveTheKneeTheLastPartFillsExponentially) {
  const BatteryParams bank = usual_battery(BatteryKind::agm, 100.0);
  double charge_ah = 80.0;
  step_battery(bank, charge_ah, 0.0, 200.0, 25.0, 1.5, 0.0);
  const double time_constant_h = (1.0 - 0.8) / (0.95 * 0.3);
  EXPECT_NEAR(charge_ah, 100.0 - 20.0 * std::exp(-1.5 / time_constant_h), 1e-10);
}

TEST(Battery, TheAcceptedCurrentHasNoJumpAtTheKnee) {
  const BatteryParams bank = usual_battery(BatteryKind::lfp, 200.0);
  EXPECT_NEAR(accepted_a(bank, 190.0 - 1e-9, 25.0), 100.0, 1e-9);
  EXPECT_NEAR(accepted_a(bank, 190.0 + 1e-9, 25.0), 100.0, 1e-6);
  EXPECT_NEAR(accepted_a(bank, 195.0, 25.0), 50.0, 1e-9);
  EXPECT_EQ(accepted_a(bank, 200.0, 25.0), 0.0);
  EXPECT_NEAR(accepted_a(bank, 20.0, 25.0), 100.0, 1e-9);
}

// Common practice: a lithium iron phosphate bank is not charged in frost.
TEST(Battery, LfpTakesNoChargeBelowFreezing) {
  const BatteryParams bank = usual_battery(BatteryKind::lfp, 100.0);
  double charge_ah = 50.0;
  const BatteryFlows frost = step_battery(bank, charge_ah, 2.0, 12.0, -0.5, 1.0, 20.0);
  EXPECT_EQ(charge_ah, 50.0);
  EXPECT_NEAR(frost.spilled_ah, 10.0, 1e-12);
  EXPECT_EQ(accepted_a(bank, 50.0, -0.5), 0.0);
  step_battery(bank, charge_ah, 2.0, 12.0, 0.0, 1.0, 20.0);
  EXPECT_GT(charge_ah, 59.0);
}

TEST(Battery, CutsTheLoadsOffAtTheFloorAndChargesInTheRestOfTheStep) {
  const BatteryParams bank = usual_battery(BatteryKind::agm, 100.0);
  double charge_ah = 42.0;
  const BatteryFlows flows = step_battery(bank, charge_ah, 5.0, 1.0, 25.0, 1.0, 40.0);
  EXPECT_NEAR(flows.served, 0.5, 1e-12);
  EXPECT_NEAR(flows.used_ah, 2.0, 1e-12);
  EXPECT_NEAR(flows.direct_ah, 0.5, 1e-12);
  EXPECT_EQ(flows.lowest_ah, 40.0);
  EXPECT_NEAR(charge_ah, 40.0 + 0.5 * 0.95, 1e-12);
}

TEST(Battery, BelowTheFloorItServesOnlyWhatTheSourcesCover) {
  const BatteryParams bank = usual_battery(BatteryKind::agm, 100.0);
  double charge_ah = 30.0;
  EXPECT_EQ(step_battery(bank, charge_ah, 5.0, 0.0, 25.0, 1.0, 40.0).served, 0.0);
  EXPECT_EQ(charge_ah, 30.0);
  EXPECT_EQ(step_battery(bank, charge_ah, 5.0, 5.0, 25.0, 1.0, 40.0).served, 1.0);
}

TEST(Battery, AFullBankSpillsWhatItIsOffered) {
  const BatteryParams bank = usual_battery(BatteryKind::agm, 100.0);
  double charge_ah = 100.0;
  const BatteryFlows flows = step_battery(bank, charge_ah, 1.0, 9.0, 25.0, 3.0, 40.0);
  EXPECT_NEAR(flows.spilled_ah, 24.0, 1e-12);
  EXPECT_EQ(charge_ah, 100.0);
}

TEST(Battery, NothingHappensInNoTime) {
  const BatteryParams bank = usual_battery(BatteryKind::agm, 100.0);
  double charge_ah = 60.0;
  EXPECT_EQ(step_battery(bank, charge_ah, 1.0, 9.0, 25.0, 0.0, 40.0).gained_ah, 0.0);
  EXPECT_EQ(charge_ah, 60.0);
}

// Common practice: a 20 A charger on a drive of several hours puts back what a cabinet, lights and
// small charging take from a bank of about 100 Ah in a day.
TEST(Battery, ADailyDriveKeepsACampBankGoing) {
  const BatteryParams bank = usual_battery(BatteryKind::agm, 100.0);
  double charge_ah = 100.0;
  for (int hour = 0; hour < 24 * 14; ++hour) {
    const int of_day = hour % 24;
    const double source_a = of_day >= 9 && of_day < 14 ? 20.0 : 0.0;
    const double evening_a = of_day >= 19 && of_day < 22 ? 3.0 : 0.0;
    const BatteryFlows flows =
        step_battery(bank, charge_ah, 1.2 + evening_a, source_a, 25.0, 1.0, 50.0);
    ASSERT_EQ(flows.served, 1.0) << hour;
  }
  EXPECT_GT(charge_ah, 70.0);
}

RC_GTEST_PROP(Battery, EveryAmpereHourIsAccountedFor, ()) {
  const BatteryParams bank = any_battery();
  const double c = bank.capacity_ah;
  const double before = between(0, 1) * c;
  const double load_a = between(0, 0.6) * c * *rc::gen::element(0.0, 0.05, 1.0);
  const double source_a = between(0, 0.8) * c * *rc::gen::element(0.0, 0.05, 1.0);
  const double battery_c = between(-25, 50);
  const double dt_h = between(0.01, 30);
  const double floor_ah = between(0, 0.6) * c;
  double after = before;
  const BatteryFlows f = step_battery(bank, after, load_a, source_a, battery_c, dt_h, floor_ah);
  const double size = c + (load_a + source_a) * dt_h;
  RC_ASSERT(std::abs(before + f.gained_ah - f.used_ah - f.lost_ah - after) < 1e-12 * size);
  RC_ASSERT(std::abs(source_a * dt_h - f.direct_ah - f.gained_ah - f.spilled_ah) < 1e-12 * size);
  RC_ASSERT(std::abs(load_a * dt_h * f.served - f.direct_ah - f.used_ah) < 1e-12 * size);
  RC_ASSERT(f.served >= 0.0 && f.served <= 1.0);
  RC_ASSERT(after >= 0.0 && after <= c);
  RC_ASSERT(f.lost_ah >= -1e-12 * size && f.spilled_ah >= 0.0 && f.gained_ah >= 0.0);
  RC_ASSERT(f.lowest_ah <= before && f.lowest_ah <= after);
  RC_ASSERT(before < floor_ah || f.lowest_ah >= floor_ah);
}

RC_GTEST_PROP(Battery, CuttingAStepInTwoChangesNothing, ()) {
  const BatteryParams bank = any_battery();
  const double c = bank.capacity_ah;
  const double before = between(0.3, 1) * c;
  const double load_a = between(0, 0.3) * c;
  const double source_a = *rc::gen::element(0.0, 1.0) * between(0, 0.5) * c;
  const double battery_c = between(-10, 40);
  const double dt_h = between(0.01, 8);
  double whole = before;
  const BatteryFlows once = step_battery(bank, whole, load_a, source_a, battery_c, dt_h, 0.0);
  RC_PRE(once.served == 1.0);
  double halves = before;
  const BatteryFlows a = step_battery(bank, halves, load_a, source_a, battery_c, dt_h / 2, 0.0);
  const BatteryFlows b = step_battery(bank, halves, load_a, source_a, battery_c, dt_h / 2, 0.0);
  RC_ASSERT(std::abs(whole - halves) < 1e-11 * c);
  RC_ASSERT(std::abs(once.lost_ah - a.lost_ah - b.lost_ah) < 1e-11 * c);
  RC_ASSERT(std::abs(once.spilled_ah - a.spilled_ah - b.spilled_ah) < 1e-10 * c);
}

RC_GTEST_PROP(Battery, TakesNoMoreThanItAccepts, ()) {
  const BatteryParams bank = any_battery();
  const double before = between(0, 1) * bank.capacity_ah;
  const double battery_c = between(-10, 40);
  double after = before;
  const BatteryFlows f =
      step_battery(bank, after, 0.0, between(0, 2) * bank.capacity_ah, battery_c, 1e-4, 0.0);
  RC_ASSERT(f.gained_ah <= accepted_a(bank, before, battery_c) * 1e-4 * (1.0 + 1e-9) + 1e-12);
}

}  // namespace
}  // namespace drystage::models
