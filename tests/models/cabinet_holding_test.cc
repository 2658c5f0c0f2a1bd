#include "models/cabinet_holding.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "models/cabinet_regime.h"

namespace drystage::models::cabinet_holding_test {
namespace {

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 1000001) / 1e6;
}

bool near(double a, double b, double scale) { return std::abs(a - b) <= 1e-9 * scale; }

// The short way and the walk through the regimes are two derivations of the same closed form.
RC_GTEST_PROP(CabinetHolding, TheShortWayAgreesWithTheWalkThroughTheRegimes, ()) {
  CabinetParams params;
  params.kind = *rc::gen::element(CabinetKind::single, CabinetKind::frozen_below);
  params.leak_w_per_k = between(0.2, 2);
  params.barrier_w_per_k = between(0, 3);
  params.slab_share = between(0, 1);
  params.set_point_c = between(-20, 8);
  params.compressor.running_w = between(10, 80);
  params.slab = food_thermal(between(0.3, 0.95), between(-4, 0));
  CabinetState start;
  start.chilled_c = params.set_point_c;
  start.chilled_kj_per_k = between(1, 150);
  start.slab_kg = between(0, 20);
  start.slab_kj_kg = food_enthalpy_kj_kg(params.slab, between(-25, 10)) + between(0, 200);
  const double ambient_c = between(-10, 55);
  const double dt_h = between(0.01, 2);
  CabinetState quick = start;
  CabinetFlows flows;
  if (!step_holding(params, quick, ambient_c, dt_h, flows)) {
    RC_ASSERT(quick.slab_kj_kg == start.slab_kj_kg);
    RC_DISCARD("not holding throughout");
  }
  CabinetState walked = start;
  const CabinetFlows reference =
      cabinet_regime::walk_cabinet(params, walked, ambient_c, dt_h, true);
  RC_ASSERT(near(quick.slab_kj_kg, walked.slab_kj_kg, 400));
  RC_ASSERT(quick.chilled_c == walked.chilled_c);
  RC_ASSERT(near(flows.leak_in_kj, reference.leak_in_kj, 1000));
  RC_ASSERT(near(flows.pumped_kj, reference.pumped_kj, 1000));
  RC_ASSERT(near(flows.electric_wh, reference.electric_wh, 1000));
  RC_ASSERT(near(flows.compressor_on_h, reference.compressor_on_h, 1));
  RC_ASSERT(flows.max_chilled_c == reference.max_chilled_c);
  RC_ASSERT(near(flows.hours_above_5c, reference.hours_above_5c, 1));
  RC_ASSERT(flows.hour_thawed == reference.hour_thawed);
}

TEST(CabinetHolding, LeavesEverythingElseToTheWalk) {
  CabinetParams params;
  params.leak_w_per_k = 1;
  params.set_point_c = 4;
  params.compressor.running_w = 45;
  CabinetFlows flows;
  CabinetState warm{.chilled_c = 6, .chilled_kj_per_k = 20};
  EXPECT_FALSE(step_holding(params, warm, 30, 1, flows));
  CabinetState cold_outside{.chilled_c = 4, .chilled_kj_per_k = 20};
  EXPECT_FALSE(step_holding(params, cold_outside, 0, 1, flows));
  EXPECT_TRUE(step_holding(params, cold_outside, 30, 1, flows));
}

}  // namespace
}  // namespace drystage::models::cabinet_holding_test
