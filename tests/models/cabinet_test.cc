#include "models/cabinet.h"

#include <gtest/gtest.h>

#include <cmath>

namespace drystage::models {
namespace {

// A cabinet of about 45 L, rated 0.9 A at 12 V in 32 °C with 4 °C inside. Common practice.
constexpr RatedDraw rated{.mean_w = 10.8, .ambient_c = 32.0, .inside_c = 4.0};

CabinetParams chest(CabinetKind kind) {
  CabinetParams params;
  params.kind = kind;
  params.leak_w_per_k = rated_leak_w_per_k(rated);
  params.barrier_w_per_k = 0.35;
  params.set_point_c = 2.0;
  params.compressor = rated_compressor(rated);
  params.slab = food_thermal(0.73);
  return params;
}

CabinetState holding(double slab_kg = 0.0, double slab_c = -18.0) {
  return {.chilled_c = 2.0,
          .chilled_kj_per_k = 35.0,
          .slab_kg = slab_kg,
          .slab_kj_kg = food_enthalpy_kj_kg(food_thermal(0.73), slab_c)};
}

// T = Ta + (T0 - Ta) exp(-UA t / C). Closed form.
TEST(Cabinet, LeftOffItWarmsExponentially) {
  const CabinetParams params = chest(CabinetKind::single);
  CabinetState state = holding();
  const CabinetFlows flows = step_cabinet(params, state, 30.0, 7.0, false);
  const double expected = 30.0 - 28.0 * std::exp(-3.6 * params.leak_w_per_k * 7.0 / 35.0);
  EXPECT_NEAR(state.chilled_c, expected, 1e-12);
  EXPECT_NEAR(flows.max_chilled_c, expected, 1e-12);
  EXPECT_EQ(flows.electric_wh, 0.0);
  const double five_after_h = std::log(28.0 / 25.0) * 35.0 / (3.6 * params.leak_w_per_k);
  EXPECT_NEAR(flows.hours_above_5c, 7.0 - five_after_h, 1e-12);
  EXPECT_NEAR(hold_over_h(params, holding(), 30.0, 5.0), five_after_h, 1e-12);
}

// t = m L / (UA dT). Closed form.
TEST(Cabinet, AFrozenSlabMeltsAtTheHourTheClosedFormGives) {
  CabinetParams params = chest(CabinetKind::frozen_below);
  CabinetState state = holding(6.0, -1.0);
  const double hours = 6.0 * 335.0 * 0.73 / (3.6 * 0.35 * 3.0);
  const CabinetFlows flows = step_cabinet(params, state, 30.0, 1000.0, true);
  EXPECT_NEAR(flows.hour_thawed, hours, 1e-9);
  EXPECT_GT(hours, 300.0);

  // Without a barrier to the chilled part and without power, all comes through the wall.
  params.barrier_w_per_k = 0.0;
  state = holding(6.0, -1.0);
  const double wall = params.slab_share * params.leak_w_per_k;
  EXPECT_NEAR(step_cabinet(params, state, 30.0, 1000.0, false).hour_thawed,
              6.0 * 335.0 * 0.73 / (3.6 * wall * 31.0), 1e-9);
}

TEST(Cabinet, IceMeltsAtTheHourTheClosedFormGivesAndItsWaterRunsOff) {
  CabinetParams box = chest(CabinetKind::ice_box);
  box.slab_share = 1.0;
  box.barrier_w_per_k = 0.0;
  CabinetState state = holding(10.0);
  state.slab_kj_kg = food_enthalpy_kj_kg(ice_thermal(), 0.0);
  const double per_h = 3.6 * box.leak_w_per_k * 25.0 / 335.0;
  CabinetFlows flows = step_cabinet(box, state, 25.0, 6.0, true);
  EXPECT_NEAR(flows.melted_kg, 6.0 * per_h, 1e-12);
  EXPECT_NEAR(state.slab_kg, 10.0 - 6.0 * per_h, 1e-12);
  flows = step_cabinet(box, state, 25.0, 100.0, true);
  EXPECT_NEAR(flows.hour_thawed + 6.0, 10.0 / per_h, 1e-9);
  EXPECT_EQ(state.slab_kg, 0.0);
  EXPECT_EQ(flows.pumped_kj, 0.0);
}

// Common practice: frozen goods laid under a damp barrier in a cabinet set near 2 °C stay frozen
// for many days.
TEST(Cabinet, FrozenLambBelowABarrierStaysFrozenForManyDays) {
  const CabinetParams params = chest(CabinetKind::frozen_below);
  CabinetState state = holding(6.0);
  double day_thawed = -1.0;
  for (int hour = 0; hour < 24 * 60 && day_thawed < 0.0; ++hour) {
    const double ambient_c = 26.0 + 9.0 * std::sin(hour * 3.14159265358979 / 12.0);
    const CabinetFlows flows = step_cabinet(params, state, ambient_c, 1.0, true);
    ASSERT_EQ(flows.hours_above_5c, 0.0);
    if (flows.hour_thawed >= 0.0) {
      day_thawed = (hour + flows.hour_thawed) / 24.0;
    }
  }
  EXPECT_GT(day_thawed, 10.0);
  EXPECT_LT(day_thawed, 40.0);
}

TEST(Cabinet, WithoutPowerTheSameLambThawsMuchSooner) {
  const CabinetParams params = chest(CabinetKind::frozen_below);
  CabinetState with = holding(6.0);
  CabinetState without = holding(6.0);
  const double powered = step_cabinet(params, with, 28.0, 2000.0, true).hour_thawed;
  const double unpowered = step_cabinet(params, without, 28.0, 2000.0, false).hour_thawed;
  EXPECT_GT(unpowered, 10.0);
  EXPECT_LT(unpowered, powered / 4.0);
}

// Common practice, as in the compressor's tests.
TEST(Cabinet, HoldingDrawsTheRatedCurrentAtTheRatedPoint) {
  CabinetParams params = chest(CabinetKind::single);
  params.set_point_c = 4.0;
  CabinetState state = holding();
  state.chilled_c = 4.0;
  const CabinetFlows flows = step_cabinet(params, state, 32.0, 24.0, true);
  EXPECT_NEAR(flows.electric_wh, 24.0 * 10.8, 1e-9);
  EXPECT_NEAR(flows.compressor_on_h, 6.0, 1e-9);
  EXPECT_EQ(state.chilled_c, 4.0);
  EXPECT_NEAR(steady_cabinet(params, 32.0).mean_w, 10.8, 1e-12);
}

TEST(Cabinet, TheEvaporatorCarriesTheSlabsShareOfTheWall) {
  const CabinetParams params = chest(CabinetKind::frozen_below);
  CabinetState state = holding(6.0, -1.0);
  const CabinetFlows flows = step_cabinet(params, state, 32.0, 10.0, true);
  EXPECT_NEAR(flows.leak_in_kj, 3.6 * params.leak_w_per_k * 30.0 * 10.0, 1e-9);
  // The slab cools the chilled part through the barrier, and so spares the compressor that much.
  EXPECT_NEAR(flows.leak_in_kj - flows.pumped_kj, 3.6 * 0.35 * 3.0 * 10.0, 1e-9);
}

TEST(Cabinet, PullsAWarmCabinetDownAtFullPowerAndThenHolds) {
  const CabinetParams params = chest(CabinetKind::single);
  CabinetState state = holding();
  state.chilled_c = 28.0;
  const CabinetFlows flows = step_cabinet(params, state, 28.0, 24.0, true);
  EXPECT_EQ(state.chilled_c, 2.0);
  EXPECT_EQ(flows.max_chilled_c, 28.0);
  EXPECT_GT(flows.hours_above_5c, 1.0);
  EXPECT_LT(flows.hours_above_5c, 12.0);
}

TEST(Cabinet, RisesAboveItsSetPointWhenTheHeatIsTooMuchForIt) {
  CabinetParams params = chest(CabinetKind::single);
  params.compressor.running_w = 5.0;
  CabinetState state = holding();
  const CabinetFlows flows = step_cabinet(params, state, 43.0, 480.0, true);
  const double capacity_w = cooling_capacity_w(params.compressor, 43.0, 2.0);
  EXPECT_NEAR(state.chilled_c, 43.0 - capacity_w / params.leak_w_per_k, 1e-9);
  EXPECT_NEAR(flows.compressor_on_h, 480.0, 1e-9);
  EXPECT_FALSE(steady_cabinet(params, 43.0).holds);
}

TEST(Cabinet, StandsStillInTheColdAndDriftsWithIt) {
  const CabinetParams params = chest(CabinetKind::single);
  CabinetState state = holding();
  const CabinetFlows flows = step_cabinet(params, state, -8.0, 6.0, true);
  EXPECT_LT(state.chilled_c, 2.0);
  EXPECT_EQ(flows.electric_wh, 0.0);
  step_cabinet(params, state, 25.0, 48.0, true);
  EXPECT_EQ(state.chilled_c, 2.0);
}

TEST(Cabinet, AFreezerHoldsBothItsSetPoints) {
  const CabinetParams params = chest(CabinetKind::freezer);
  CabinetState state = holding(6.0);
  const CabinetFlows flows = step_cabinet(params, state, 30.0, 24.0, true);
  EXPECT_EQ(state.chilled_c, 2.0);
  EXPECT_NEAR(food_temperature_c(params.slab, state.slab_kj_kg), -18.0, 1e-12);
  EXPECT_NEAR(flows.electric_wh, 24.0 * steady_cabinet(params, 30.0).mean_w, 1e-8);
  EXPECT_NEAR(flows.leak_in_kj, flows.pumped_kj, 1e-9);
}

TEST(Cabinet, AFreezerFreezesWhatIsPutInWarm) {
  const CabinetParams params = chest(CabinetKind::freezer);
  CabinetState state = holding(4.0, 10.0);
  step_cabinet(params, state, 28.0, 200.0, true);
  EXPECT_NEAR(food_temperature_c(params.slab, state.slab_kj_kg), -18.0, 1e-12);
  EXPECT_EQ(state.chilled_c, 2.0);
}

TEST(Cabinet, AFreezersSlabThawsWhenThePowerIsGone) {
  const CabinetParams params = chest(CabinetKind::freezer);
  CabinetState state = holding(6.0);
  const CabinetFlows flows = step_cabinet(params, state, 30.0, 200.0, false);
  EXPECT_GT(flows.hour_thawed, 12.0);
  EXPECT_GT(state.chilled_c, 5.0);
}

TEST(Cabinet, AChestSetToEighteenBelowIsAFreezer) {
  CabinetParams params = chest(CabinetKind::frozen_below);
  params.set_point_c = -18.0;
  params.barrier_w_per_k = 5.0;
  params.slab_share = 0.9;
  CabinetState state{.chilled_c = -18.0,
                     .chilled_kj_per_k = 3.0,
                     .slab_kg = 12.0,
                     .slab_kj_kg = food_enthalpy_kj_kg(params.slab, -18.0)};
  const CabinetFlows held = step_cabinet(params, state, 30.0, 48.0, true);
  EXPECT_NEAR(food_temperature_c(params.slab, state.slab_kj_kg), -18.0, 1e-9);
  EXPECT_LT(held.compressor_on_h, 48.0);
  EXPECT_GT(held.electric_wh, 48.0 * 10.8);
  const CabinetFlows off = step_cabinet(params, state, 30.0, 200.0, false);
  EXPECT_GT(off.hour_thawed, 24.0);
}

TEST(Cabinet, AWarmSlabBelowTheBarrierFreezesAgainInAColdCabinet) {
  CabinetParams params = chest(CabinetKind::frozen_below);
  params.set_point_c = -10.0;
  CabinetState state = holding(2.0, 5.0);
  const CabinetFlows flows = step_cabinet(params, state, 25.0, 500.0, true);
  EXPECT_LT(food_temperature_c(params.slab, state.slab_kj_kg), -9.0);
  EXPECT_EQ(flows.hour_thawed, -1.0);
}

TEST(Cabinet, AnIceBoxKeepsItsChilledPartColdUntilTheIceIsGone) {
  const CabinetParams box = [] {
    CabinetParams params = chest(CabinetKind::ice_box);
    params.barrier_w_per_k = 6.0;
    return params;
  }();
  CabinetState state{.chilled_c = 3.0,
                     .chilled_kj_per_k = 30.0,
                     .slab_kg = 8.0,
                     .slab_kj_kg = food_enthalpy_kj_kg(ice_thermal(), -5.0)};
  const double over_h = hold_over_h(box, state, 30.0, 5.0);
  const CabinetFlows flows = step_cabinet(box, state, 30.0, 72.0, true);
  EXPECT_GT(flows.hour_thawed, 24.0);
  EXPECT_GT(over_h, flows.hour_thawed);
  EXPECT_NEAR(flows.melted_kg, 8.0, 1e-12);
  EXPECT_NEAR(flows.hours_above_5c, 72.0 - over_h, 1e-8);
}

TEST(Cabinet, HoldOverIsNothingAboveTheLimitAndForeverBelowItInTheCold) {
  const CabinetParams params = chest(CabinetKind::single);
  EXPECT_EQ(hold_over_h(params, holding(), 30.0, 1.0), 0.0);
  EXPECT_TRUE(std::isinf(hold_over_h(params, holding(), 4.0, 5.0)));
}

TEST(Cabinet, AFrozenSlabLengthensTheHoldOver) {
  const CabinetParams params = chest(CabinetKind::frozen_below);
  EXPECT_GT(hold_over_h(params, holding(6.0), 30.0, 5.0),
            hold_over_h(params, holding(), 30.0, 5.0));
}

TEST(Cabinet, HotterSurroundingsMeanMorePower) {
  for (const CabinetKind kind :
       {CabinetKind::single, CabinetKind::frozen_below, CabinetKind::freezer}) {
    const CabinetParams params = chest(kind);
    EXPECT_LT(steady_cabinet(params, 22.0).mean_w, steady_cabinet(params, 38.0).mean_w);
    EXPECT_LT(steady_cabinet(params, 38.0).mean_w, steady_cabinet(params, 43.0).mean_w);
  }
  EXPECT_GT(steady_cabinet(chest(CabinetKind::freezer), 30.0).mean_w,
            steady_cabinet(chest(CabinetKind::single), 30.0).mean_w);
  EXPECT_FALSE(steady_cabinet(chest(CabinetKind::ice_box), 30.0).holds);
}

TEST(Cabinet, NothingHappensInNoTime) {
  const CabinetParams params = chest(CabinetKind::frozen_below);
  CabinetState state = holding(6.0);
  const CabinetFlows flows = step_cabinet(params, state, 40.0, 0.0, true);
  EXPECT_EQ(flows.leak_in_kj, 0.0);
  EXPECT_EQ(state.chilled_c, 2.0);
}

}  // namespace
}  // namespace drystage::models
