#include <benchmark/benchmark.h>

#include "models/battery.h"
#include "models/cabinet.h"

namespace drystage::models {
namespace {

CabinetParams chest(CabinetKind kind) {
  constexpr RatedDraw rated{.mean_w = 10.8, .ambient_c = 32.0, .inside_c = 4.0};
  CabinetParams params;
  params.kind = kind;
  params.leak_w_per_k = rated_leak_w_per_k(rated);
  params.barrier_w_per_k = 0.35;
  params.set_point_c = 2.0;
  params.compressor = rated_compressor(rated);
  params.slab = food_thermal(0.73);
  return params;
}

CabinetState holding(double slab_c) {
  return {.chilled_c = 2.0,
          .chilled_kj_per_k = 35.0,
          .slab_kg = 6.0,
          .slab_kj_kg = food_enthalpy_kj_kg(food_thermal(0.73), slab_c)};
}

void cabinet_steps(benchmark::State& bench, CabinetKind kind, double slab_c, bool power,
                   double chilled_c) {
  const CabinetParams params = chest(kind);
  CabinetState start = holding(slab_c);
  start.chilled_c = chilled_c;
  double ambient_c = 28.0;
  for (auto _ : bench) {
    CabinetState state = start;
    benchmark::DoNotOptimize(ambient_c);
    benchmark::DoNotOptimize(step_cabinet(params, state, ambient_c, 1.0, power));
    benchmark::DoNotOptimize(state);
  }
}

// The common case: the thermostat holds, the slab warms slowly through its barrier.
void cabinet_and_battery_step(benchmark::State& bench) {
  const CabinetParams params = chest(CabinetKind::frozen_below);
  const CabinetState start = holding(-12.0);
  const BatteryParams bank = usual_battery(BatteryKind::agm, 100.0);
  double ambient_c = 28.0;
  for (auto _ : bench) {
    CabinetState state = start;
    double charge_ah = 80.0;
    benchmark::DoNotOptimize(ambient_c);
    const CabinetFlows cold = step_cabinet(params, state, ambient_c, 1.0, true);
    benchmark::DoNotOptimize(
        step_battery(bank, charge_ah, cold.electric_wh / 12.0 + 1.5, 0.0, ambient_c, 1.0, 40.0));
    benchmark::DoNotOptimize(state);
    benchmark::DoNotOptimize(charge_ah);
  }
}

void battery_step(benchmark::State& bench, double load_a, double source_a, double start_ah) {
  const BatteryParams bank = usual_battery(BatteryKind::agm, 100.0);
  double battery_c = 12.0;
  for (auto _ : bench) {
    double charge_ah = start_ah;
    benchmark::DoNotOptimize(battery_c);
    benchmark::DoNotOptimize(step_battery(bank, charge_ah, load_a, source_a, battery_c, 1.0, 40.0));
    benchmark::DoNotOptimize(charge_ah);
  }
}

BENCHMARK(cabinet_and_battery_step);
BENCHMARK_CAPTURE(cabinet_steps, holding_frozen, CabinetKind::frozen_below, -12.0, true, 2.0);
BENCHMARK_CAPTURE(cabinet_steps, holding_melting, CabinetKind::frozen_below, -1.0, true, 2.0);
BENCHMARK_CAPTURE(cabinet_steps, holding_single, CabinetKind::single, -12.0, true, 2.0);
BENCHMARK_CAPTURE(cabinet_steps, freezer_holding, CabinetKind::freezer, -18.0, true, 2.0);
BENCHMARK_CAPTURE(cabinet_steps, off_frozen, CabinetKind::frozen_below, -12.0, false, 4.0);
BENCHMARK_CAPTURE(cabinet_steps, pull_down, CabinetKind::frozen_below, -12.0, true, 2.5);
BENCHMARK_CAPTURE(battery_step, discharge, 3.0, 0.0, 80.0);
BENCHMARK_CAPTURE(battery_step, peukert, 12.0, 0.0, 80.0);
BENCHMARK_CAPTURE(battery_step, taper, 1.0, 25.0, 85.0);

}  // namespace
}  // namespace drystage::models
