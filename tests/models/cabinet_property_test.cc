#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "models/cabinet.h"

namespace drystage::models::cabinet_property_test {
namespace {

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 1000001) / 1e6;
}

struct Case {
  CabinetParams params;
  CabinetState state;
  double ambient_c = 0.0;
  double dt_h = 0.0;
  bool available = false;
};

/// Any cabinet; with `extreme` also ones that nobody builds.
Case any_case(bool extreme) {
  Case any;
  CabinetParams& params = any.params;
  params.kind = *rc::gen::element(CabinetKind::single, CabinetKind::frozen_below,
                                  CabinetKind::freezer, CabinetKind::ice_box);
  const double odd = extreme ? *rc::gen::element(1.0, 1.0, 1.0, 0.0, 1e-9, 1e3) : 1.0;
  params.leak_w_per_k = between(0.1, 3) * odd;
  params.slab_share = between(0, 1);
  params.lid_w_per_k = *rc::gen::element(0.0, between(0, 1));
  params.barrier_w_per_k =
      between(0.05, 8) * (extreme ? *rc::gen::element(1.0, 1.0, 0.0, 1e-9, 1e3) : 1.0);
  params.set_point_c = *rc::gen::element(2.0, 4.0, -18.0, between(-20, 10));
  params.frozen_set_point_c = *rc::gen::element(-18.0, -1.0, between(-25, extreme ? 8 : -5));
  params.compressor.running_w =
      between(5, 120) * (extreme ? *rc::gen::element(1.0, 1.0, 0.0, 1e-6, 100.0) : 1.0);
  params.slab = food_thermal(extreme ? between(0, 1) : between(0.4, 1), between(-3, 0));
  CabinetState& state = any.state;
  state.chilled_c = *rc::gen::element(params.set_point_c, between(-25, 45));
  state.chilled_kj_per_k =
      between(1, 150) * (extreme ? *rc::gen::element(1.0, 1.0, 0.0, 1e-9, 1e-3) : 1.0);
  state.slab_kg = *rc::gen::element(0.0, 1.0, 1.0, 1.0) * between(0.1, 30) *
                  (extreme ? *rc::gen::element(1.0, 1.0, 1e-6, 1e-13) : 1.0);
  const bool ice = params.kind == CabinetKind::ice_box;
  const FoodThermal food = ice ? ice_thermal() : params.slab;
  state.slab_kj_kg = food_enthalpy_kj_kg(food, between(-25, ice ? 0 : 20));
  if (*rc::gen::inRange(0, 4) == 0) {
    state.slab_kj_kg = frozen_end_kj_kg(food) + food.latent_kj_kg * between(0, 1);
  }
  any.ambient_c = between(-25, 55);
  any.dt_h = *rc::gen::element(1.0, 1.0, between(0.001, 1), between(1, 500));
  any.available = *rc::gen::arbitrary<bool>();
  return any;
}

double slab_c(const Case& any) {
  return food_temperature_c(
      any.params.kind == CabinetKind::ice_box ? ice_thermal() : any.params.slab,
      any.state.slab_kj_kg);
}

/// `passing_kj`: heat that may stream through besides, and leave again.
void energy_balances(Case any, double passing_kj) {
  const double before = cabinet_enthalpy_kj(any.params, any.state);
  const double gross = std::abs(before) + any.state.chilled_kj_per_k * 60.0;
  const CabinetFlows flows =
      step_cabinet(any.params, any.state, any.ambient_c, any.dt_h, any.available);
  const double after = cabinet_enthalpy_kj(any.params, any.state);
  const double size =
      gross + std::abs(after) + std::abs(flows.leak_in_kj) + std::abs(flows.pumped_kj) + passing_kj;
  RC_ASSERT(std::isfinite(after) && std::isfinite(flows.electric_wh));
  RC_ASSERT(std::abs(after - before - flows.leak_in_kj + flows.pumped_kj) <= 1e-9 * (size + 1.0));
}

RC_GTEST_PROP(CabinetProperty, EnergyBalances, ()) { energy_balances(any_case(false), 0.0); }

RC_GTEST_PROP(CabinetProperty, EnergyBalancesInCabinetsNobodyBuilds, ()) {
  const Case any = any_case(true);
  const double watts_per_k = any.params.leak_w_per_k + any.params.barrier_w_per_k;
  energy_balances(any, 3.6 * watts_per_k * 60.0 * any.dt_h);
}

RC_GTEST_PROP(CabinetProperty, NoTemperatureLeavesTheRangeOfWhatDrivesIt, ()) {
  Case any = any_case(true);
  double low = std::min({any.state.chilled_c, any.ambient_c, any.params.set_point_c});
  double high = std::max(any.state.chilled_c, any.ambient_c);
  if (any.params.kind != CabinetKind::single && any.state.slab_kg > 1e-10) {
    low = std::min({low, slab_c(any), any.params.frozen_set_point_c});
    high = std::max(high, slab_c(any));
  }
  const CabinetFlows flows =
      step_cabinet(any.params, any.state, any.ambient_c, any.dt_h, any.available);
  RC_ASSERT(any.state.chilled_c >= low - 1e-5 && any.state.chilled_c <= high + 1e-5);
  RC_ASSERT(flows.max_chilled_c >= any.state.chilled_c - 1e-9);
  RC_ASSERT(flows.max_chilled_c <= high + 1e-5);
  if (any.params.kind != CabinetKind::single && any.state.slab_kg > 1e-10) {
    RC_ASSERT(slab_c(any) >= low - 1e-5 && slab_c(any) <= high + 1e-5);
  }
}

RC_GTEST_PROP(CabinetProperty, TheAccountIsPossible, ()) {
  Case any = any_case(true);
  const double slab_kg = any.state.slab_kg;
  const CabinetFlows flows =
      step_cabinet(any.params, any.state, any.ambient_c, any.dt_h, any.available);
  RC_ASSERT(flows.compressor_on_h >= -1e-8);
  RC_ASSERT(flows.compressor_on_h <= any.dt_h * (1.0 + 1e-9) + 1e-8);
  RC_ASSERT(std::abs(flows.electric_wh - flows.compressor_on_h * any.params.compressor.running_w) <=
            1e-9 * (1.0 + flows.electric_wh));
  RC_ASSERT(flows.pumped_kj >= -1e-6);
  RC_ASSERT(any.available || flows.electric_wh == 0.0);
  RC_ASSERT(flows.hours_above_5c >= 0.0 && flows.hours_above_5c <= any.dt_h * (1.0 + 1e-12));
  RC_ASSERT(flows.hour_thawed == -1.0 ||
            (flows.hour_thawed >= 0.0 && flows.hour_thawed <= any.dt_h));
  RC_ASSERT(std::abs(any.state.slab_kg + flows.melted_kg - slab_kg) <= 1e-12 * (1.0 + slab_kg));
}

RC_GTEST_PROP(CabinetProperty, CuttingAStepInTwoChangesNothing, ()) {
  Case whole = any_case(false);
  Case halves = whole;
  const CabinetFlows once =
      step_cabinet(whole.params, whole.state, whole.ambient_c, whole.dt_h, whole.available);
  const double half_h = 0.5 * whole.dt_h;
  const CabinetFlows a =
      step_cabinet(halves.params, halves.state, whole.ambient_c, half_h, whole.available);
  const CabinetFlows b =
      step_cabinet(halves.params, halves.state, whole.ambient_c, half_h, whole.available);
  RC_ASSERT(std::abs(whole.state.chilled_c - halves.state.chilled_c) < 1e-9 * 50);
  RC_ASSERT(std::abs(whole.state.slab_kj_kg - halves.state.slab_kj_kg) < 1e-9 * 500);
  RC_ASSERT(std::abs(whole.state.slab_kg - halves.state.slab_kg) < 1e-9 * 30);
  const double size = 1.0 + std::abs(once.leak_in_kj) + once.pumped_kj;
  RC_ASSERT(std::abs(once.leak_in_kj - a.leak_in_kj - b.leak_in_kj) < 1e-9 * size);
  RC_ASSERT(std::abs(once.pumped_kj - a.pumped_kj - b.pumped_kj) < 1e-9 * size);
  RC_ASSERT(std::abs(once.hours_above_5c - a.hours_above_5c - b.hours_above_5c) <
            1e-8 * (1.0 + whole.dt_h));
  RC_ASSERT(once.max_chilled_c == std::max(a.max_chilled_c, b.max_chilled_c) ||
            std::abs(once.max_chilled_c - std::max(a.max_chilled_c, b.max_chilled_c)) < 1e-8);
}

RC_GTEST_PROP(CabinetProperty, HoldOverIsWhenTheStepSaysTheLimitIsPassed, ()) {
  Case any = any_case(false);
  any.state.chilled_c = between(-20, 4.9);
  any.ambient_c = between(12, 50);
  const double hours = hold_over_h(any.params, any.state, any.ambient_c, 5.0);
  RC_ASSERT(std::isfinite(hours) && hours > 0.0);
  CabinetState at = any.state;
  const CabinetFlows until = step_cabinet(any.params, at, any.ambient_c, hours, false);
  RC_ASSERT(std::abs(at.chilled_c - 5.0) < 1e-7);
  RC_ASSERT(until.hours_above_5c < 1e-6);
}

}  // namespace
}  // namespace drystage::models::cabinet_property_test
