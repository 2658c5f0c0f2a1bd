#include "answers/base/dip_table.h"

#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "engine/dipstick.h"
#include "support/plan_text.h"
#include "support/random_plan.h"

namespace drystage::answers {
namespace {

using support::PlanText;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

DipTable tank_table(const std::string& tank, StickMarks stick = StickMarks::centimetres) {
  PlanText plan;
  plan.vehicles = {fmt::format(
      "{{name: truck, fuel: diesel, mass: {{empty: 2000 kg}}, tanks: [{{name: tank, {}}}]}}",
      tank)};
  const std::vector<DipTable> all = dip_tables(plan.plan(), stick);
  EXPECT_EQ(all.size(), 1U);
  return all.at(0);
}

std::vector<double> depths(const DipTable& table) {
  std::vector<double> out;
  for (const DipRow& row : table.rows) out.push_back(row.depth_cm);
  return out;
}

const DipRow& row_at(const DipTable& table, double depth_cm) {
  const auto found = std::ranges::find(table.rows, depth_cm, &DipRow::depth_cm);
  EXPECT_NE(found, table.rows.end()) << depth_cm;
  return found == table.rows.end() ? table.rows.back() : *found;
}

TEST(DipTable, ABoxIsReadInProportion) {
  const DipTable table = tank_table(
      "holds: 112 L, filled: 50 L, unusable: 4 L, shape: {box: {length: 80 cm, width: 40 cm, "
      "height: 35 cm}}");
  EXPECT_THAT(depths(table),
              ElementsAre(2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 34, 35));
  for (const DipRow& row : table.rows) {
    EXPECT_NEAR(row.volume_l, 3.2 * row.depth_cm, 1e-9);
    EXPECT_NEAR(row.usable_l, 3.2 * row.depth_cm - 4, 1e-9);
    EXPECT_FALSE(row.own_mark);
  }
  EXPECT_EQ(table.rows.back().volume_l, 112);
  EXPECT_TRUE(table.ends_full);
  EXPECT_FALSE(table.measured);
  EXPECT_EQ(table.unusable_l, 4);
  EXPECT_NEAR(table.unusable_depth_cm.value(), 1.25, 1e-9);
  EXPECT_EQ(table.below_stick_l, 0);
}

// A segment 10 cm high in a circle of 40 cm is 1/3 - sqrt(3) / 4 pi of it.
TEST(DipTable, ALyingCylinderIsReadByItsSegment) {
  const DipTable table = tank_table(
      "holds: 113 L, filled: 50 L, shape: {lying_cylinder: {diameter: 40 cm, length: 90 cm}}");
  const double quarter = 1.0 / 3 - std::sqrt(3.0) / (4 * std::numbers::pi);
  EXPECT_THAT(table.rows, SizeIs(20));
  EXPECT_NEAR(row_at(table, 10).volume_l, 113 * quarter, 1e-9);
  EXPECT_NEAR(row_at(table, 20).volume_l, 113 / 2.0, 1e-9);
  EXPECT_NEAR(row_at(table, 30).volume_l, 113 * (1 - quarter), 1e-9);
  EXPECT_EQ(row_at(table, 40).volume_l, 113);
  EXPECT_FALSE(table.unusable_depth_cm.has_value());
}

TEST(DipTable, WhatAVesselHoldsWinsOverItsMeasures) {
  // The box has room for 87.5 L.
  const DipTable table = tank_table(
      "holds: 80 L, filled: 50 L, shape: {box: {length: 100 cm, width: 35 cm, height: 25 cm}}");
  EXPECT_EQ(table.rows.back().depth_cm, 25);
  EXPECT_EQ(table.rows.back().volume_l, 80);
  EXPECT_NEAR(row_at(table, 10).volume_l, 32, 1e-9);
}

// Slopes of 1.8, 2.2, 2.5 and 25/11 L/cm: to the first mark a power of 2.2/1.8; from it lines of
// 1.8 up and 2.5 back; straight above.
TEST(DipTable, OwnMarksStandAsMeasuredWithACurveBetween) {
  const DipTable table = tank_table(
      "holds: 80 L, filled: 50 L, unusable: 4 L, dip: {5 cm: 9 L, 10 cm: 20 L, 20 cm: 45 L, 31 cm: "
      "70 L}");
  EXPECT_TRUE(table.measured);
  EXPECT_THAT(depths(table),
              ElementsAre(2, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 31));
  EXPECT_EQ(row_at(table, 5).volume_l, 9);
  EXPECT_EQ(row_at(table, 10).volume_l, 20);
  EXPECT_EQ(row_at(table, 31).volume_l, 70);
  EXPECT_TRUE(row_at(table, 20).own_mark);
  EXPECT_FALSE(row_at(table, 22).own_mark);
  EXPECT_NEAR(row_at(table, 2).volume_l, 9 * std::pow(0.4, 2.2 / 1.8), 1e-12);
  EXPECT_EQ(row_at(table, 2).usable_l, 0);
  EXPECT_NEAR(row_at(table, 6).volume_l, 10.8, 1e-12);
  EXPECT_NEAR(row_at(table, 8).volume_l, 15, 1e-12);
  EXPECT_NEAR(row_at(table, 14).volume_l, 30, 1e-12);
  EXPECT_NEAR(row_at(table, 22).volume_l, 45 + 25 * 2 / 11.0, 1e-12);
  EXPECT_NEAR(table.unusable_depth_cm.value(), 5 * std::pow(4 / 9.0, 1.8 / 2.2), 1e-9);
  EXPECT_FALSE(table.ends_full);  // 10 L more go in, but nobody knows how high they stand
}

TEST(DipTable, AMarkAtTheStickFootIsWhereTheLineBegins) {
  const DipTable table =
      tank_table("holds: 43 L, filled: 40 L, unusable: 2 L, dip: {0 cm: 3 L, 10 cm: 43 L}");
  EXPECT_EQ(table.below_stick_l, 3);
  EXPECT_EQ(table.rows.front().depth_cm, 1);
  EXPECT_NEAR(table.rows.front().volume_l, 7, 1e-12);
  EXPECT_TRUE(table.ends_full);
  EXPECT_FALSE(table.unusable_depth_cm.has_value());  // it is less than the stick can show
}

TEST(DipTable, HasItsRowsAtWholeInchesOrHalvesForAStickInInches) {
  const DipTable table = tank_table(
      "holds: 112 L, filled: 50 L, shape: {box: {length: 80 cm, width: 40 cm, height: 35 cm}}",
      StickMarks::inches);
  ASSERT_THAT(table.rows, SizeIs(14));  // 13 whole inches, and the full height of 13.8
  for (std::size_t r = 0; r < 13; ++r) {
    EXPECT_NEAR(table.rows[r].depth_cm, 2.54 * static_cast<double>(r + 1), 1e-9);
    EXPECT_NEAR(table.rows[r].volume_l, 3.2 * table.rows[r].depth_cm, 1e-9);
  }
  const DipTable low = tank_table(
      "holds: 10 L, filled: 5 L, shape: {box: {length: 50 cm, width: 20 cm, height: 10 cm}}",
      StickMarks::inches);
  EXPECT_NEAR(low.rows.front().depth_cm, 1.27, 1e-9);
}

TEST(DipTable, LeavesOutARoundRowThatAllButCoincidesWithAMark) {
  const DipTable table =
      tank_table("holds: 20 L, filled: 5 L, dip: {3.05 cm: 5 L, 10.05 cm: 19 L}");
  EXPECT_THAT(depths(table), ElementsAre(1, 2, 3.05, 4, 5, 6, 7, 8, 9, 10.05));
}

TEST(DipTable, KeepsEveryOwnMarkHoweverManyThereAre) {
  std::string marks;
  for (int m = 1; m <= 40; ++m) marks += fmt::format("{}{} cm: {} L", m > 1 ? ", " : "", m, 2 * m);
  const DipTable table = tank_table("holds: 80 L, filled: 80 L, dip: {" + marks + "}");
  EXPECT_THAT(table.rows, SizeIs(40));
  EXPECT_TRUE(std::ranges::all_of(table.rows, &DipRow::own_mark));
}

TEST(DipTable, NamesVesselVehicleAndContentsInThePlansOrder) {
  const std::string box = "shape: {box: {length: 50 cm, width: 20 cm, height: 20 cm}}";
  PlanText plan;
  plan.containers = {"{name: tub, holds: 20 L, filled: 20 L, for: utility, in: car, " + box + "}",
                     "{name: bin, holds: 20 L, filled: 20 L}",
                     "{name: can, holds: 20 L, filled: 20 L, " + box + "}"};
  const auto vehicle = [&](const char* name, const char* fuel) {
    return fmt::format(
        "{{name: {}, fuel: {}, mass: {{empty: 2000 kg}}, tanks: [{{name: jerry, holds: 20 L, "
        "filled: 20 L}}, {{name: tank, holds: 20 L, filled: 20 L, {}}}]}}",
        name, fuel, box);
  };
  plan.vehicles = {vehicle("van", "diesel"), vehicle("car", "petrol")};
  const std::vector<DipTable> all = dip_tables(plan.plan());
  std::vector<std::string> told;
  for (const DipTable& table : all) {
    told.push_back(table.name + ", " + table.vehicle + ", " + table.contents + ", " +
                   table.vessel.full_name);
  }
  EXPECT_THAT(
      told, ElementsAre("tub, car, utility water, water/tub", "can, van, drinking water, water/can",
                        "tank, van, diesel, van/tank", "tank, car, petrol, car/tank"));
  EXPECT_EQ(all[1].vessel.index, 2);
  EXPECT_EQ(all[3].vessel.index, 1);
  EXPECT_EQ(all[3].vessel.of, 1);
}

TEST(DipTable, IsMadeWithoutAnyVehicleAndForNothingWithoutAGauge) {
  PlanText plan;
  plan.containers = {"{name: bin, holds: 20 L, filled: 20 L}"};
  EXPECT_THAT(dip_tables(plan.plan()), IsEmpty());
  plan.containers = {"{name: bin, holds: 20 L, filled: 20 L, dip: {20 cm: 20 L}}"};
  ASSERT_THAT(dip_tables(plan.plan()), SizeIs(1));
  EXPECT_EQ(dip_tables(plan.plan())[0].vehicle, "");
}

bool rises(const std::vector<DipRow>& rows) {
  for (std::size_t r = 1; r < rows.size(); ++r) {
    if (rows[r].depth_cm <= rows[r - 1].depth_cm || rows[r].volume_l <= rows[r - 1].volume_l) {
      return false;
    }
  }
  return true;
}

RC_GTEST_PROP(DipTableProperty, RisesFromTheStickFootToWhatIsKnown, ()) {
  const plan::Plan plan = support::random_plan(support::rapidcheck_pick()).plan();
  for (const StickMarks stick : {StickMarks::centimetres, StickMarks::inches}) {
    for (const DipTable& table : dip_tables(plan, stick)) {
      RC_ASSERT(!table.rows.empty());
      RC_ASSERT(rises(table.rows));
      RC_ASSERT(table.rows.size() <= 25U);
      RC_ASSERT(table.rows.front().depth_cm > 0);
      RC_ASSERT(table.rows.front().volume_l >= table.below_stick_l);
      RC_ASSERT(table.rows.back().volume_l <= table.holds_l);
      RC_ASSERT(table.measured || table.rows.back().volume_l == table.holds_l);
      for (const DipRow& row : table.rows) {
        RC_ASSERT(row.usable_l == std::max(0.0, row.volume_l - table.unusable_l));
      }
    }
  }
}

const plan::Gauge& gauge_of(const plan::Plan& plan, const DipTable& table) {
  const auto index = static_cast<std::size_t>(table.vessel.index);
  if (table.vessel.sort == plan::Item::Sort::container) return plan.water.containers[index].gauge;
  return plan.vehicles[static_cast<std::size_t>(table.vessel.of)].tanks[index].gauge;
}

RC_GTEST_PROP(DipTableProperty, DepthAndVolumeAreEachOthersInverse, ()) {
  const plan::Plan plan = support::random_plan(support::rapidcheck_pick()).plan();
  for (const DipTable& table : dip_tables(plan)) {
    const plan::Gauge& gauge = gauge_of(plan, table);
    for (const DipRow& row : table.rows) {
      const double depth_m = row.depth_cm / 100;
      RC_ASSERT(std::abs(engine::dipped_l(gauge, table.holds_l, depth_m) - row.volume_l) < 1e-6);
      const auto back_m = engine::dipped_depth_m(gauge, table.holds_l, row.volume_l);
      RC_ASSERT(back_m.has_value());
      RC_ASSERT(std::abs(*back_m - depth_m) < 1e-7);
    }
    RC_ASSERT(!engine::dipped_depth_m(gauge, table.holds_l, table.holds_l * 1.01));
    RC_ASSERT(!engine::dipped_depth_m(gauge, table.holds_l, -0.01));
    RC_ASSERT(engine::dipped_l(gauge, table.holds_l, 1e3) == table.rows.back().volume_l);
    RC_ASSERT(engine::dipped_l(gauge, table.holds_l, 0) == table.below_stick_l);
    for (const plan::DipMark& mark : gauge.marks) {
      const double tidy_cm = std::round(mark.depth_m * 1e8) / 1e6;
      const auto row = std::ranges::find(table.rows, tidy_cm, &DipRow::depth_cm);
      RC_ASSERT(mark.depth_m == 0 ||
                (row != table.rows.end() && row->own_mark && row->volume_l == mark.volume_l));
    }
  }
}

TEST(DipTable, RandomPlansHaveGaugesOfEverySort) {
  std::array<int, 4> shapes{};
  int marks = 0;
  rc::check([&] {
    const plan::Plan plan = support::random_plan(support::rapidcheck_pick()).plan();
    for (const DipTable& table : dip_tables(plan)) {
      const plan::Gauge& gauge = gauge_of(plan, table);
      ++shapes.at(gauge.shape.index());
      if (!gauge.marks.empty()) ++marks;
    }
  });
  EXPECT_GT(shapes[1], 0);
  EXPECT_GT(shapes[2], 0);
  EXPECT_GT(shapes[3], 0);
  EXPECT_GT(marks, 0);
}

}  // namespace
}  // namespace drystage::answers
