#include "start/first_plan.h"

#include <fmt/core.h>

#include <algorithm>

#include "engine/timeline.h"
#include "plan/read.h"
#include "start/write_plan.h"
#include "units/result.h"

namespace drystage::start {
namespace {

std::string line_of(const plan::Diagnostic& found) {
  return units::Problem{found.what, found.expected, found.hint}.line();
}

}  // namespace

FirstPlan first_plan(const Answers& answers, const Kit& kit) {
  FirstPlan made{.problems = contradictions(answers)};
  if (!made.problems.empty()) return made;
  const int wanted_days = static_cast<int>(answers.at("days").number);
  int nights = wanted_days - 1;
  // A long drive takes nights of its own.
  while (true) {
    made.text = write_plan(answers, nights, kit);
    const plan::ReadPlan reading = plan::read_text(made.text, {}, kit.plan_file);
    std::vector<plan::Diagnostic> found = reading.diagnostics;
    int days = 0;
    if (reading.plan) {
      const engine::Timeline timeline = engine::lay_timeline(*reading.plan);
      found = timeline.problems;
      days = static_cast<int>(timeline.days.size());
    }
    for (const plan::Diagnostic& one : found) {
      if (one.severity == plan::Severity::error) made.problems.push_back(line_of(one));
    }
    if (!made.problems.empty() || days <= wanted_days) break;
    if (nights == 0) {
      made.problems.push_back(
          fmt::format("days: the drives alone take {} days; expected {} or more", days, days));
      break;
    }
    nights = std::max(0, nights - (days - wanted_days));
  }
  if (!made.problems.empty()) made.text.clear();
  return made;
}

}  // namespace drystage::start
