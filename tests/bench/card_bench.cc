// The sheet to carry, of plans that are shipped: drawing it, and all of it from the plan to a file.
#include <benchmark/benchmark.h>

#include <memory>
#include <stdexcept>
#include <string>

#include "answers/base/levels.h"
#include "answers/onward/needs.h"
#include "answers/onward/turn_back.h"
#include "drawing/formats.h"
#include "plan/read.h"
#include "report/card/card.h"

namespace drystage {
namespace {

plan::Plan plan_of(const std::string& name) {
  plan::ReadPlan reading = plan::read_file(DRYSTAGE_TEST_DATA "/../scenarios/" + name + ".yaml");
  if (!reading.plan) throw std::runtime_error("the bench's plan cannot be read");
  return std::move(*reading.plan);
}

report::CardAnswer answer_of(const plan::Plan& plan) {
  report::CardAnswer answer;
  answer.needs.planned =
      answers::run_plan(plan, std::make_shared<const engine::Timeline>(engine::lay_timeline(plan)));
  answer.needs.needs = answers::morning_needs(answer.needs.planned);
  answer.needs.turn_back = answers::turn_back_points(answer.needs.planned);
  answer.without_unconfirmed = answers::without_unconfirmed(answer.needs.planned);
  answer.levels = answers::levels(answer.needs.planned);
  return answer;
}

void card_drawn(benchmark::State& bench, const std::string& name) {
  const report::CardAnswer answer = answer_of(plan_of(name));
  for (auto _ : bench) {
    benchmark::DoNotOptimize(report::card(answer, drawing::a4, units::System::metric));
  }
}

void card_as_pdf(benchmark::State& bench, const std::string& name) {
  const drawing::Drawing drawing =
      report::card(answer_of(plan_of(name)), drawing::a4, units::System::metric);
  for (auto _ : bench) benchmark::DoNotOptimize(drawing::as_pdf(drawing));
}

void card_from_plan_to_pdf(benchmark::State& bench, const std::string& name) {
  for (auto _ : bench) {
    const report::CardAnswer answer = answer_of(plan_of(name));
    benchmark::DoNotOptimize(
        drawing::as_pdf(report::card(answer, drawing::a4, units::System::metric)));
  }
}

BENCHMARK_CAPTURE(card_drawn, fourteen_days, "desert-crossing")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(card_drawn, thirty_days, "long-loop")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(card_as_pdf, fourteen_days, "desert-crossing")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(card_from_plan_to_pdf, fourteen_days, "desert-crossing")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(card_from_plan_to_pdf, thirty_days, "long-loop")
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

}  // namespace
}  // namespace drystage
