#pragma once

#include <memory>
#include <optional>

#include "answers/base/learned.h"
#include "answers/base/verdict.h"
#include "engine/engine.h"
#include "plan/plan.h"

namespace drystage::answers {

/// Which rates of use the days to come are calculated with.
enum class Rates { learned, as_planned };

/// A plan that has been run, with all that came of it.
struct PlanRun {
  plan::Plan plan;
  engine::Course course;
  engine::Record record;
  Verdict verdict;
  Learned learned{};  ///< from the plan's readings
  Rates rates = Rates::learned;
};

/// Compiles and runs a plan on a timeline that is free of problems. What is the same as in the
/// course `like` is shared with it, and what was learned is taken over. `more_margin_days` go on
/// every margin that takes days.
PlanRun run_plan(plan::Plan plan, std::shared_ptr<const engine::Timeline> timeline,
                 const engine::Course* like = nullptr, double more_margin_days = 0,
                 Rates rates = Rates::learned);

/// The same course with every unconfirmed supply shut. Nothing when the plan leans on none.
std::optional<Verdict> without_unconfirmed(const PlanRun& planned);

}  // namespace drystage::answers
