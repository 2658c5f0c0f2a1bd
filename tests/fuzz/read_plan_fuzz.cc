// Any bytes may be given as a plan: what is wrong comes back as diagnostics, and what is right can
// be laid out and run. Build with clang and -DDRYSTAGE_FUZZ=ON; start it from the scenarios:
//   build/fuzz/tests/read_plan_fuzz CORPUS scenarios tests/wrong

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>

#include "answers/base/plan_run.h"
#include "plan/read.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace drystage;
  const plan::ReadPlan reading =
      plan::read_text(std::string(reinterpret_cast<const char*>(data), size));
  if (!reading.plan) return 0;
  auto timeline = std::make_shared<const engine::Timeline>(engine::lay_timeline(*reading.plan));
  if (timeline->problems.empty()) answers::run_plan(*reading.plan, std::move(timeline));
  return 0;
}
