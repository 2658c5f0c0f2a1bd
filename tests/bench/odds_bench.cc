// Trips that differ, drawn and run; beside the plan's own run and what it takes to fill in weather.
#include <benchmark/benchmark.h>

#include <memory>
#include <stdexcept>
#include <string>

#include "answers/odds/odds.h"
#include "answers/odds/trip_runner.h"
#include "plan/read.h"

namespace drystage {
namespace odds_bench {
namespace {

answers::PlanRun planned(const std::string& name) {
  const plan::ReadPlan reading = plan::read_file(DRYSTAGE_SCENARIOS "/" + name + ".yaml");
  if (!reading.plan) throw std::runtime_error("the bench's plan cannot be read");
  return answers::run_plan(
      *reading.plan, std::make_shared<const engine::Timeline>(engine::lay_timeline(*reading.plan)));
}

enum class What { all, without_events };

/// One trip after another, on one thread.
void trips(benchmark::State& bench, const std::string& name, What what) {
  answers::PlanRun run = planned(name);
  if (what == What::without_events) {
    using plan::Source;
    run.plan.uncertainty.left_out = {Source::delays,      Source::supplies, Source::containers,
                                     Source::compressors, Source::chargers, Source::punctures,
                                     Source::illness};
  }
  const answers::TripGround ground(run);
  const answers::TripDraws draws(run, 1);
  answers::TripRunner runner(ground);
  std::uint64_t trip = 0;
  for (auto _ : bench) benchmark::DoNotOptimize(runner.run(draws.draw(trip++)));
}
BENCHMARK_CAPTURE(trips, crossing, "desert-crossing-mended", What::all)
    ->Unit(benchmark::kMicrosecond)
    ->Iterations(4000);
BENCHMARK_CAPTURE(trips, crossing_without_events, "desert-crossing-mended", What::without_events)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(trips, loop_without_events, "long-loop", What::without_events)
    ->Unit(benchmark::kMicrosecond);

void draw(benchmark::State& bench, const std::string& name) {
  const answers::PlanRun run = planned(name);
  const answers::TripDraws draws(run, 1);
  std::uint64_t trip = 0;
  for (auto _ : bench) benchmark::DoNotOptimize(draws.draw(trip++));
}
BENCHMARK_CAPTURE(draw, crossing, "desert-crossing-mended")->Unit(benchmark::kMicrosecond);

/// The weather of a trip, and all that goes by it.
void weather(benchmark::State& bench, const std::string& name) {
  const answers::PlanRun run = planned(name);
  const answers::TripGround ground(run);
  const answers::TripDraws draws(run, 1);
  engine::ChangingCourse course(ground.laid().plan, ground.laid().course, ground.days());
  std::uint64_t trip = 0;
  for (auto _ : bench) {
    const answers::TripDraw drawn = draws.draw(trip++ % 100);
    benchmark::DoNotOptimize(course.draw(drawn.weather, drawn.batteries, {}, engine::Keep::days));
  }
}
BENCHMARK_CAPTURE(weather, crossing, "desert-crossing-mended")->Unit(benchmark::kMicrosecond);

/// What comes before the first trip.
void ground(benchmark::State& bench, const std::string& name) {
  const answers::PlanRun run = planned(name);
  for (auto _ : bench) benchmark::DoNotOptimize(answers::TripGround(run));
}
BENCHMARK_CAPTURE(ground, crossing, "desert-crossing-mended")->Unit(benchmark::kMillisecond);

/// The whole answer but for what makes trips differ and what would help, on all threads.
void ten_thousand(benchmark::State& bench, const std::string& name) {
  const answers::PlanRun run = planned(name);
  for (auto _ : bench) {
    benchmark::DoNotOptimize(
        answers::odds_of(run, {.trips = 10'000, .drivers = false, .helps = false}));
  }
}
BENCHMARK_CAPTURE(ten_thousand, crossing, "desert-crossing-mended")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

}  // namespace
}  // namespace odds_bench
}  // namespace drystage
