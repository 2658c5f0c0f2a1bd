// One trip run again and again: with the ledgers of every day kept, or the least of each reserve
// alone; and with something that differs in every run.
#include <benchmark/benchmark.h>

#include <memory>
#include <stdexcept>
#include <string>

#include "engine/engine.h"
#include "plan/read.h"

namespace drystage {
namespace many_runs_bench {
namespace {

using engine::Factors;
using engine::Keep;

engine::Course course_of(const std::string& name) {
  const plan::ReadPlan reading = plan::read_file(DRYSTAGE_SCENARIOS "/" + name + ".yaml");
  if (!reading.plan) throw std::runtime_error("the bench's plan cannot be read");
  return engine::compile(
      *reading.plan, std::make_shared<const engine::Timeline>(engine::lay_timeline(*reading.plan)));
}

void run_again(benchmark::State& bench, const std::string& name, Keep keep,
               const Factors& factors) {
  const engine::Course course = course_of(name);
  engine::Record record = engine::blank_record(course, keep);
  for (auto _ : bench) {
    engine::wipe(record);
    engine::Engine::run(course, record, factors);
    benchmark::DoNotOptimize(record);
  }
}

const Factors as_planned{};
const Factors otherwise{.drinking = 1.1,
                        .utility_water = 1.1,
                        .meals = 1.1,
                        .loads = 1.1,
                        .panels = 0.9,
                        .fuel = {1.1, 1.1, 1.1, 1.1, 1.1, 1.1, 1.1, 1.1}};

BENCHMARK_CAPTURE(run_again, crossing_ledgers, "desert-crossing", Keep::ledgers, as_planned)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(run_again, crossing_least, "desert-crossing", Keep::least, as_planned)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(run_again, crossing_least_otherwise, "desert-crossing", Keep::least, otherwise)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(run_again, loop_ledgers, "long-loop", Keep::ledgers, as_planned)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(run_again, loop_least, "long-loop", Keep::least, as_planned)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(run_again, loop_least_otherwise, "long-loop", Keep::least, otherwise)
    ->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace many_runs_bench
}  // namespace drystage
