// Uses an installed drystage as any program would: reads a plan, runs it and asks for the verdict.
#include <cstdio>
#include <memory>

#include "answers/base/plan_run.h"
#include "plan/read.h"

int main(int argc, char** argv) {
  using namespace drystage;
  if (argc != 2) {
    std::fputs("usage: consumer PLAN.yaml\n", stderr);
    return 2;
  }
  const plan::ReadPlan reading = plan::read_file(argv[1]);
  if (!reading.plan) {
    std::fputs("the installed library cannot read that plan\n", stderr);
    return 1;
  }
  auto timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(*reading.plan));
  const answers::PlanRun planned = answers::run_plan(*reading.plan, std::move(timeline));
  std::printf("%s: %s\n", planned.plan.trip.title.c_str(),
              planned.verdict.holds ? "holds" : "does not hold");
  return planned.verdict.holds ? 0 : 1;
}
