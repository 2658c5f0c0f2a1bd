#include "models/resting_voltage.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <optional>

namespace drystage::models::resting_voltage_test {
namespace {

struct Published {
  double charge;
  double resting_v;
};

// Battery Council International, at 27 °C, as makers of batteries print it.
constexpr std::array<Published, 5> council{
    {{1.00, 12.65}, {0.75, 12.45}, {0.50, 12.24}, {0.25, 12.06}, {0, 11.89}}};
// Of deep-cycle batteries, twice the figure for 6 V, as owners pass it on.
constexpr std::array<Published, 10> deep_cycle{{{1.0, 12.74},
                                                {0.9, 12.62},
                                                {0.8, 12.50},
                                                {0.7, 12.38},
                                                {0.6, 12.24},
                                                {0.5, 12.10},
                                                {0.4, 11.96},
                                                {0.3, 11.82},
                                                {0.2, 11.66},
                                                {0.1, 11.50}}};
// Ver-Mac, PCMS series, operation and maintenance manual, 2018, at 25 °C.
constexpr std::array<Published, 10> sign_board{{{1.0, 12.70},
                                                {0.9, 12.58},
                                                {0.8, 12.46},
                                                {0.7, 12.36},
                                                {0.6, 12.28},
                                                {0.5, 12.20},
                                                {0.4, 12.12},
                                                {0.3, 12.02},
                                                {0.2, 11.88},
                                                {0.1, 11.72}}};

template <class Table>
void expect_within_two_errors(const Table& table) {
  for (const Published& row : table) {
    const std::optional<RestingCharge> found =
        resting_charge(BatteryKind::flooded, 12, row.resting_v);
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->share, row.charge, 2 * found->standard_error) << row.resting_v;
  }
}

TEST(RestingCharge, OfFloodedBanksIsAmongThePublishedTables) {
  expect_within_two_errors(council);
  expect_within_two_errors(deep_cycle);
  expect_within_two_errors(sign_board);
}

// A cell's voltage at rest is its specific gravity + 0.84 V (handbooks); gravities by charge as the
// Battery Council has them. 0.07 V are about the standard error.
TEST(RestingCharge, OfFloodedBanksFollowsTheSpecificGravity) {
  struct Gravity {
    double charge, gravity;
  };
  for (const Gravity row : {Gravity{1, 1.265}, {0.75, 1.225}, {0.5, 1.190}, {0.25, 1.155}}) {
    const auto found = resting_charge(BatteryKind::flooded, 12, 6 * (row.gravity + 0.84));
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->share, row.charge, 0.07) << row.gravity;
  }
}

// Polaris, owner's manual: 12.8 V full, 12.6, 12.3 and 12.0 V a quarter less each.
TEST(RestingCharge, OfAgmBanksIsAsPublished) {
  for (const Published& row :
       {Published{1, 12.8}, Published{0.75, 12.6}, Published{0.5, 12.3}, Published{0.25, 12.0}}) {
    EXPECT_NEAR(resting_charge(BatteryKind::agm, 12, row.resting_v)->share, row.charge, 1e-9);
  }
  EXPECT_NEAR(resting_charge(BatteryKind::agm, 12, 12.45)->share, 0.625, 1e-9);
}

TEST(RestingCharge, BanksOfMoreCellsHaveAsManyTimesTheVoltage) {
  for (const BatteryKind kind : {BatteryKind::flooded, BatteryKind::agm}) {
    for (double resting_v = 11.5; resting_v < 13; resting_v += 0.05) {
      const double share = resting_charge(kind, 12, resting_v)->share;
      EXPECT_NEAR(resting_charge(kind, 24, 2 * resting_v)->share, share, 1e-9);
      EXPECT_NEAR(resting_charge(kind, 48, 4 * resting_v)->share, share, 1e-9);
    }
  }
}

TEST(RestingCharge, RisesWithTheVoltageAndIsLessSureBelowHalf) {
  for (const BatteryKind kind : {BatteryKind::flooded, BatteryKind::agm}) {
    double before = 0;
    for (double resting_v = 10.5; resting_v <= 13.2; resting_v += 0.01) {
      const auto found = resting_charge(kind, 12, resting_v);
      ASSERT_TRUE(found) << resting_v;
      EXPECT_GE(found->share, before);
      EXPECT_LE(found->share, 1);
      EXPECT_GE(found->standard_error, 0.07);
      EXPECT_LE(found->standard_error, 0.15);
      before = found->share;
    }
    EXPECT_DOUBLE_EQ(before, 1);
    EXPECT_DOUBLE_EQ(resting_charge(kind, 12, 12.9)->standard_error, 0.07);
    EXPECT_DOUBLE_EQ(resting_charge(kind, 12, 11)->standard_error, 0.15);
  }
}

TEST(RestingCharge, ThereIsNoneWhereTheVoltageSaysNothing) {
  EXPECT_FALSE(resting_charge(BatteryKind::lfp, 12, 13.1));
  EXPECT_FALSE(resting_charge(BatteryKind::agm, 12, 13.8));  // on charge
  EXPECT_FALSE(resting_charge(BatteryKind::agm, 12, 8));
  EXPECT_FALSE(resting_charge(BatteryKind::agm, 24, 12.5));  // of another bank
  EXPECT_FALSE(resting_charge(BatteryKind::agm, 12, 25));
  EXPECT_FALSE(resting_charge(BatteryKind::agm, 0, 12.5));
  EXPECT_FALSE(resting_charge(BatteryKind::agm, 12, std::numeric_limits<double>::quiet_NaN()));
  EXPECT_FALSE(resting_charge(BatteryKind::agm, std::numeric_limits<double>::quiet_NaN(), 12));
}

}  // namespace
}  // namespace drystage::models::resting_voltage_test
