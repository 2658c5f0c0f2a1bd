// Levers, tipping and load indices.
#include "models/axle_load.h"

#include <gtest/gtest.h>

#include <cmath>
#include <utility>

namespace drystage::models {
namespace {

constexpr double tiny = 1e-12;

TEST(AxleShares, FollowTheLeverRuleByHand) {
  // Halfway, above an axle, ahead of the front one and behind the rear one (statics).
  EXPECT_NEAR(axle_shares(1.5, 3).front, 0.5, tiny);
  EXPECT_NEAR(axle_shares(0, 3).front, 1, tiny);
  EXPECT_NEAR(axle_shares(3, 3).rear, 1, tiny);
  // 60 kg on a bumper 0.6 m ahead: 72 kg on the front axle, 12 kg off the rear one.
  EXPECT_NEAR(60 * axle_shares(-0.6, 3).front, 72, tiny);
  EXPECT_NEAR(60 * axle_shares(-0.6, 3).rear, -12, tiny);
  // A ball load of 90 kg, 1.2 m behind the rear axle: 126 kg on it, 36 kg off the front one.
  EXPECT_NEAR(90 * axle_shares(3 + 1.2, 3).rear, 126, tiny);
  EXPECT_NEAR(90 * axle_shares(3 + 1.2, 3).front, -36, tiny);
}

TEST(AxleShares, OfTwoAndThreeLoadsBalanceTheirMomentsAboutEachAxle) {
  const double wheelbase_m = 2.85;
  for (const auto& loads :
       {std::vector<std::pair<double, double>>{{80, 1.35}, {212, 2.9}},
        std::vector<std::pair<double, double>>{{45, -0.7}, {90, 1.1}, {300, 3.6}}}) {
    double kg = 0;
    double about_front = 0;
    double about_rear = 0;
    double front = 0;
    double rear = 0;
    for (const auto& [mass, at_m] : loads) {
      kg += mass;
      about_front += mass * at_m;
      about_rear += mass * (wheelbase_m - at_m);
      front += mass * axle_shares(at_m, wheelbase_m).front;
      rear += mass * axle_shares(at_m, wheelbase_m).rear;
    }
    EXPECT_NEAR(front + rear, kg, 1e-9);
    EXPECT_NEAR(rear * wheelbase_m, about_front, 1e-9);
    EXPECT_NEAR(front * wheelbase_m, about_rear, 1e-9);
  }
}

TEST(AxleShares, MoveByMassTimesDistanceOverWheelbase) {
  const double before = 40 * axle_shares(1.2, 2.5).rear;
  const double after = 40 * axle_shares(1.2 + 0.35, 2.5).rear;
  EXPECT_NEAR(after - before, 40 * 0.35 / 2.5, tiny);
}

TEST(RightShare, IsHalfInTheMiddleAndAllAboveAWheel) {
  EXPECT_NEAR(right_share(0, 1.6), 0.5, tiny);
  EXPECT_NEAR(right_share(0.8, 1.6), 1, tiny);
  EXPECT_NEAR(right_share(-0.8, 1.6), 0, tiny);
  EXPECT_NEAR(right_share(0.2, 1.6), 0.625, tiny);
}

TEST(StaticRollAngle, IsWhereTheCentreComesAboveTheLowerWheels) {
  // As high as half the track is wide: 45 degrees; twice as high: 26.57 (trigonometry).
  EXPECT_NEAR(static_roll_angle_deg(1.6, 0, 0.8), 45, 1e-9);
  EXPECT_NEAR(static_roll_angle_deg(1.6, 0, 1.6), 26.565051, 1e-6);
  // Off the middle it tips sooner, to whichever side.
  EXPECT_NEAR(static_roll_angle_deg(1.6, 0.1, 0.7), 45, 1e-9);
  EXPECT_NEAR(static_roll_angle_deg(1.6, -0.1, 0.7), 45, 1e-9);
}

TEST(LoadIndex, IsAsInTheTablesOfTyreMakers) {
  // ETRTO and ISO 4000-1, as tyre makers print it (75 to 150), and general tables below.
  for (const auto& [index, kg] : std::vector<std::pair<int, double>>{
           {40, 140},   {50, 190},   {60, 250},   {65, 290},   {71, 345},   {75, 387},
           {84, 500},   {91, 615},   {98, 750},   {100, 800},  {104, 900},  {108, 1000},
           {110, 1060}, {112, 1120}, {113, 1150}, {115, 1215}, {116, 1250}, {118, 1320},
           {120, 1400}, {121, 1450}, {123, 1550}, {126, 1700}, {130, 1900}, {134, 2120},
           {140, 2500}, {144, 2800}, {150, 3350}}) {
    EXPECT_EQ(load_index_kg(index), kg) << index;
  }
  EXPECT_EQ(load_index_kg(39), std::nullopt);
  EXPECT_EQ(load_index_kg(151), std::nullopt);
}

TEST(LoadIndex, RisesByAnEightiethOfADecade) {
  // The indices are preferred numbers of the series R80 (ISO 3), rounded: 100 is 800 kg.
  for (int index = least_load_index; index <= most_load_index; ++index) {
    const double in_series = 800 * std::pow(10, (index - 100) / 80.0);
    EXPECT_NEAR(*load_index_kg(index) / in_series, 1, 0.02) << index;
    if (index > least_load_index) EXPECT_GT(*load_index_kg(index), *load_index_kg(index - 1));
  }
}

}  // namespace
}  // namespace drystage::models
