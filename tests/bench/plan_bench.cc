#include <benchmark/benchmark.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "engine/timeline.h"
#include "plan/read.h"

namespace drystage {
namespace {

std::string text_of(const char* scenario) {
  std::ifstream file(std::filesystem::path(DRYSTAGE_SCENARIOS) / scenario, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void read_a_plan(benchmark::State& bench) {
  const std::string text = text_of("desert-crossing.yaml");
  for (auto _ : bench) benchmark::DoNotOptimize(plan::read_text(text));
  bench.SetBytesProcessed(static_cast<std::int64_t>(bench.iterations()) *
                          static_cast<std::int64_t>(text.size()));
}

void lay_a_timeline(benchmark::State& bench) {
  const plan::ReadPlan reading = plan::read_text(text_of("desert-crossing.yaml"));
  for (auto _ : bench) benchmark::DoNotOptimize(engine::lay_timeline(*reading.plan));
}

BENCHMARK(read_a_plan)->Unit(benchmark::kMicrosecond);
BENCHMARK(lay_a_timeline)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace drystage
