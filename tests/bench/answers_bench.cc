// The answers that run the engine many times over, on plans that are shipped.
#include <benchmark/benchmark.h>

#include <memory>
#include <stdexcept>
#include <string>

#include "answers/mishaps/mishaps.h"
#include "answers/onward/needs.h"
#include "answers/onward/turn_back.h"
#include "answers/size/size.h"
#include "plan/read.h"

namespace drystage {
namespace {

answers::PlanRun run_of(const std::string& name) {
  plan::ReadPlan reading = plan::read_file(DRYSTAGE_TEST_DATA "/../scenarios/" + name + ".yaml");
  if (!reading.plan) throw std::runtime_error("the bench's plan cannot be read");
  return answers::run_plan(
      *reading.plan, std::make_shared<const engine::Timeline>(engine::lay_timeline(*reading.plan)));
}

void needs_of_mornings(benchmark::State& bench, const std::string& name) {
  const answers::PlanRun planned = run_of(name);
  for (auto _ : bench) benchmark::DoNotOptimize(answers::morning_needs(planned));
}

void last_places_to_turn_back(benchmark::State& bench, const std::string& name) {
  const answers::PlanRun planned = run_of(name);
  for (auto _ : bench) benchmark::DoNotOptimize(answers::turn_back_points(planned));
}

void single_mishaps(benchmark::State& bench, const std::string& name) {
  const answers::PlanRun planned = run_of(name);
  std::size_t runs = 0;
  for (auto _ : bench) {
    const answers::Sweep sweep = answers::sweep_mishaps(planned, {});
    runs = sweep.findings.size();
    benchmark::DoNotOptimize(sweep);
  }
  bench.counters["runs"] = static_cast<double>(runs);
}

void pairs_of_mishaps(benchmark::State& bench, const std::string& name) {
  const answers::PlanRun planned = run_of(name);
  const answers::Sweep single = answers::sweep_mishaps(planned, {});
  std::size_t runs = 0;
  for (auto _ : bench) {
    const answers::PairSweep sweep = answers::sweep_pairs(planned, {}, single);
    runs = sweep.runs;
    benchmark::DoNotOptimize(sweep);
  }
  bench.counters["runs"] = static_cast<double>(runs);
}

/// With the usual things free: cans of fuel, containers of drinking and of utility water, days of
/// food, battery and panel.
void least_set(benchmark::State& bench, const std::string& name,
               const answers::SizeOptions& options) {
  const answers::PlanRun planned = run_of(name);
  std::size_t runs = 0;
  for (auto _ : bench) {
    const answers::Sizing sizing = answers::size_plan(planned, options);
    runs = sizing.runs;
    benchmark::DoNotOptimize(sizing);
  }
  bench.counters["runs"] = static_cast<double>(runs);
}

void least_sets_by_margin(benchmark::State& bench, const std::string& name,
                          const answers::SizeOptions& options) {
  const answers::PlanRun planned = run_of(name);
  const answers::Sizing own = answers::size_plan(planned, options);
  for (auto _ : bench) benchmark::DoNotOptimize(answers::trade_off(planned, options, own));
}

const answers::SizeOptions any_mishap{.survive = std::vector<plan::MishapKind>{}};

// On several threads: what counts is the time on the wall.
BENCHMARK_CAPTURE(needs_of_mornings, crossing, "desert-crossing-mended")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(last_places_to_turn_back, crossing, "desert-crossing-mended")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(single_mishaps, crossing, "desert-crossing-mended")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(pairs_of_mishaps, crossing, "desert-crossing-mended")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(single_mishaps, loop, "long-loop")->Unit(benchmark::kMillisecond)->UseRealTime();

BENCHMARK_CAPTURE(least_set, crossing, "desert-crossing", answers::SizeOptions{})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(least_set, crossing_surviving, "desert-crossing", any_mishap)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(least_set, loop, "long-loop", answers::SizeOptions{})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(least_set, coast_surviving, "coast-road", any_mishap)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(least_sets_by_margin, crossing, "desert-crossing", answers::SizeOptions{})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(least_sets_by_margin, coast_surviving, "coast-road", any_mishap)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

}  // namespace
}  // namespace drystage
