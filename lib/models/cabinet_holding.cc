#include "models/cabinet_holding.h"

#include <algorithm>

#include "models/cabinet_regime.h"
#include "models/relaxation.h"

namespace drystage::models {

namespace {

constexpr double kj_per_wh = 3.6;

/// What became of the slab in a step beside a chilled part at a fixed temperature.
struct SlabStep {
  double kj_kg = 0.0;  ///< Its enthalpy at the end.
  double start_c = 0.0;
  double end_c = 0.0;
  double swept_k_h = 0.0;  ///< Integral of its temperature above `start_c`.
  bool same_side = false;  ///< It stayed frozen, melting or thawed throughout.
};

/// Frozen or thawed throughout: an exponential approach to the chilled part.
SlabStep warm(const FoodThermal& food, const CabinetState& state, double between, double chilled_c,
              double dt_h, bool frozen) {
  const double kj_kg_k = frozen ? food.below_kj_kg_k : food.above_kj_kg_k;
  const double capacity = state.slab_kg * kj_kg_k;
  const double start_c = food_temperature_c(food, state.slab_kj_kg);
  const double k = between / capacity;
  const double covered = approach(k, dt_h);
  const double speed = k * (chilled_c - start_c);
  SlabStep step;
  step.start_c = start_c;
  step.end_c = start_c + speed * covered;
  step.swept_k_h = speed * approach_integral(k, dt_h, covered);
  step.kj_kg = state.slab_kj_kg + speed * covered * kj_kg_k;
  step.same_side = frozen ? step.end_c < food.freezing_c : step.end_c > food.freezing_c;
  return step;
}

SlabStep pass_slab(const FoodThermal& food, const CabinetState& state, double between,
                   double chilled_c, double dt_h) {
  const double frozen_end = frozen_end_kj_kg(food);
  const double thawed_end = thawed_end_kj_kg(food);
  if (state.slab_kj_kg < frozen_end) return warm(food, state, between, chilled_c, dt_h, true);
  if (state.slab_kj_kg > thawed_end) return warm(food, state, between, chilled_c, dt_h, false);
  SlabStep step{.start_c = food.freezing_c, .end_c = food.freezing_c};
  step.kj_kg = state.slab_kj_kg + between * (chilled_c - food.freezing_c) * dt_h / state.slab_kg;
  step.same_side =
      state.slab_kj_kg > frozen_end && step.kj_kg > frozen_end && step.kj_kg < thawed_end;
  return step;
}

}  // namespace

bool step_holding(const CabinetParams& params, CabinetState& state, double ambient_c, double dt_h,
                  CabinetFlows& flows) {
  const bool plain = params.kind == CabinetKind::single || params.kind == CabinetKind::frozen_below;
  if (!plain || state.chilled_c != params.set_point_c || dt_h <= 0.0) return false;
  const double set_c = params.set_point_c;
  const double can = kj_per_wh * cooling_capacity_w(params.compressor, ambient_c, set_c);
  const double wall =
      kj_per_wh * (std::max(params.leak_w_per_k, 0.0) + std::max(params.lid_w_per_k, 0.0));
  const double leak = wall * (ambient_c - set_c);
  double pumped_kj = leak * dt_h;
  if (cabinet_regime::has_slab(params.kind, params.slab, state.slab_kg)) {
    const double between = kj_per_wh * std::max(params.barrier_w_per_k, 0.0);
    const SlabStep slab = pass_slab(params.slab, state, between, set_c, dt_h);
    // The slab's pull on the load is greatest at the one end and least at the other.
    const double first = leak + between * (slab.start_c - set_c);
    const double last = leak + between * (slab.end_c - set_c);
    if (!slab.same_side || std::min(first, last) < 0.0 || std::max(first, last) > can) return false;
    pumped_kj = first * dt_h + between * slab.swept_k_h;
    state.slab_kj_kg = slab.kj_kg;
  } else if (leak < 0.0 || leak > can) {
    return false;
  }
  flows.leak_in_kj = leak * dt_h;
  flows.pumped_kj = pumped_kj;
  flows.compressor_on_h = can > 0.0 ? pumped_kj / can : 0.0;
  flows.electric_wh = flows.compressor_on_h * params.compressor.running_w;
  flows.max_chilled_c = set_c;
  flows.hours_above_5c = set_c > cabinet_regime::warm_c ? dt_h : 0.0;
  return true;
}

}  // namespace drystage::models
