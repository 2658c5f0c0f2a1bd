// The engine on one plan that has everything, over trips of so many days.
#include <benchmark/benchmark.h>
#include <fmt/core.h>

#include <memory>
#include <stdexcept>
#include <string>

#include "answers/offers/mend.h"
#include "engine/engine.h"
#include "plan/read.h"

namespace drystage {
namespace {

/// What keeps the food cold.
struct Cold {
  const char* cabinet;
  const char* meat;  ///< how the meat is kept
};

constexpr Cold chest{.cabinet =
                         "set_point: 2 °C, rated: {draw: 0.9 A, ambient: 32 °C, inside: 4 °C}, "
                         "frozen_below: {barrier: 0.35 W/K}",
                     .meat = "frozen"};
constexpr Cold fridge_freezer{
    .cabinet =
        "set_point: 4 °C, rated: {draw: 2 A, ambient: 32 °C, inside: 4 °C}, "
        "freezer: {set_point: -12 °C, barrier: 0.25 W/K, walls: 35 %}",
    .meat = "frozen"};
constexpr Cold ice_box{.cabinet = "ice: 40 kg, heat_leak: 0.5 W/K",
                       .meat = "chilled, keeps: {for: 8 days, at: 4 °C}"};

/// Three people, two pools of water, a truck, a cabinet with meat, a battery with three ways to
/// charge it, food of three kinds; two days of driving at each end of a long stay.
std::string trip_of(std::int64_t days, const Cold& cold) {
  std::string months;
  for (const char* month :
       {"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"}) {
    months += fmt::format(
        "{}: {{max: 31 °C, min: 14 °C, humidity: 25 %, wind: 3 m/s, sun: 5.5 kWh/m2/day}}, ",
        month);
  }
  return fmt::format(R"(
drystage: 1
trip: {{title: A bench, start: 2027-02-08, time_zone: "+01:00"}}
margins: {{drinking_water: 3 days, fuel: 150 km, food: 2 days, battery: 50 %, cold: 5 °C}}
people:
  - {{name: Ada, mass: 62 kg, height: 168 cm, age: 34, sex: female}}
  - {{name: Ben, mass: 84 kg, height: 181 cm, age: 51, sex: male}}
  - {{name: Cem, mass: 77 kg, height: 175 cm, age: 29, sex: male}}
activities:
  survey: {{moderate: 5 h, high: 1 h, in_sun: 70 %}}
water:
  containers:
    - {{name: tank, holds: 90 L, filled: 90 L, for: utility}}
    - {{name: can 1, holds: 20 L, filled: 20 L}}
    - {{name: can 2, holds: 20 L, filled: 20 L}}
    - {{name: can 3, holds: 20 L, filled: 20 L}}
    - {{name: spare, holds: 10 L, filled: 10 L, opened: last}}
  utility_use: {{cooking: 2 L/day, dishes: 1.2 L/day, shower: {{volume: 5 L, every: 4 days}}}}
vehicles:
  - name: truck
    fuel: diesel
    mass: {{empty: 2480 kg}}
    tanks:
      - {{name: main, holds: 80 L, filled: 78 L, unusable: 4 L}}
      - {{name: jerry 1, holds: 20 L, filled: 19 L}}
      - {{name: jerry 2, holds: 20 L, filled: 19 L}}
cold:
  - {{name: chest, volume: 45 L, {}, stands_in: {{above_ambient: 6 °C, while: driving}}}}
food:
  - {{item: lamb, kept: {}, mass: 6 kg, meals: 24}}
  - {{item: vegetables, kept: chilled, mass: 9 kg, meals: 30, keeps: {{for: 10 days, at: 4 °C}}}}
  - {{item: dry stores, kept: dry, mass: 14 kg, meals: 60}}
power:
  batteries: [{{name: camp battery, kind: agm, capacity: 100 Ah}}]
  charging:
    - {{name: DC-DC, current: 20 A, while: driving}}
    - {{name: panel, solar: 160 W}}
  loads:
    - {{name: lights, draw: 14 W, after_dark: 3 h/day}}
    - {{name: survey batteries, energy: 80 Wh/day}}
climate: {{basin: {{{}}}}}
places:
  Oru: {{at: {{latitude: 27.1°, longitude: 5.2°, elevation: 980 m}}, climate: basin}}
  Sennu: {{at: {{latitude: 26.2°, longitude: 6°, elevation: 610 m}}, climate: basin}}
itinerary:
  - {{at: Oru}}
  - drive: {{to: Sennu, distance: 240 km, surfaces: {{sealed: 90 km, gravel: 150 km}}}}
  - stay: {{nights: {}, activity: survey}}
  - drive: {{to: Oru, distance: 240 km, surfaces: {{sealed: 90 km, gravel: 150 km}}}}
)",
                     cold.cabinet, cold.meat, months, days - 1);
}

plan::Plan plan_of(std::int64_t days, const Cold& cold = chest) {
  plan::ReadPlan reading = plan::read_text(trip_of(days, cold));
  if (!reading.plan) throw std::runtime_error("the bench's plan cannot be read");
  return std::move(*reading.plan);
}

std::shared_ptr<const engine::Timeline> timeline_of(const plan::Plan& plan) {
  return std::make_shared<const engine::Timeline>(engine::lay_timeline(plan));
}

void lay_days(benchmark::State& bench) {
  const plan::Plan plan = plan_of(bench.range(0));
  for (auto _ : bench) benchmark::DoNotOptimize(engine::lay_timeline(plan));
  bench.SetComplexityN(bench.range(0));
}

void compile_days(benchmark::State& bench) {
  const plan::Plan plan = plan_of(bench.range(0));
  const auto timeline = timeline_of(plan);
  for (auto _ : bench) benchmark::DoNotOptimize(engine::compile(plan, timeline));
  bench.SetComplexityN(bench.range(0));
}

void run_days(benchmark::State& bench, const Cold& cold) {
  const plan::Plan plan = plan_of(bench.range(0), cold);
  const engine::Course course = engine::compile(plan, timeline_of(plan));
  engine::Record record = engine::blank_record(course);
  for (auto _ : bench) {
    engine::wipe(record);
    engine::Engine::run(course, record);
    benchmark::DoNotOptimize(record);
  }
  bench.SetComplexityN(bench.range(0));
}

void mend_days(benchmark::State& bench) {
  const plan::Plan plan = plan_of(bench.range(0));
  const answers::PlanRun planned = answers::run_plan(plan, timeline_of(plan));
  for (auto _ : bench) benchmark::DoNotOptimize(answers::smallest_mend(planned));
}

BENCHMARK(lay_days)
    ->Arg(14)
    ->Arg(30)
    ->Arg(90)
    ->Arg(365)
    ->Unit(benchmark::kMicrosecond)
    ->Complexity();
BENCHMARK(compile_days)
    ->Arg(14)
    ->Arg(30)
    ->Arg(90)
    ->Arg(365)
    ->Unit(benchmark::kMicrosecond)
    ->Complexity();
BENCHMARK_CAPTURE(run_days, chest, chest)
    ->Arg(14)
    ->Arg(30)
    ->Arg(90)
    ->Arg(365)
    ->Unit(benchmark::kMicrosecond)
    ->Complexity();
BENCHMARK_CAPTURE(run_days, fridge_freezer, fridge_freezer)->Arg(14)->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(run_days, ice_box, ice_box)->Arg(14)->Unit(benchmark::kMicrosecond);
BENCHMARK(mend_days)->Arg(14)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace drystage
