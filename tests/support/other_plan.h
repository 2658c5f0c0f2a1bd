#pragma once

#include <limits>
#include <string>

#include "answers/base/plan_run.h"

namespace drystage::support {

/// A shipped scenario, read; throws when it is not right.
plan::Plan scenario_plan(const std::string& name);

/// How mishaps strike a plan that says nothing of them.
plan::Mishaps usual_mishaps();

/// A plan that was run, with what `drystage mishaps` has people do beyond it written out: orders of
/// nothing at every place where something confirmed could be had that it leaves, and every amount
/// "to next" as it came out. Run, it comes to the same.
plan::Plan with_every_stop(const answers::PlanRun& planned);

/// Runs a plan from its start that differs from one of `with_every_stop`, which has been run. Where
/// that takes an amount on, people take it, and more where that brings them to what they had there
/// in `planned`: found by running it again for every stop. What a meal is stays as it was there.
/// `damage` is there from the start. Only the first stops may be those of `planned`: what comes
/// after so many stays as it is.
answers::PlanRun run_topped_up(const plan::Plan& changed, const answers::PlanRun& planned,
                               const engine::Damage& damage = {},
                               std::size_t common_stops = std::numeric_limits<std::size_t>::max());

/// Lays a plan out and runs it; throws when it cannot be laid out.
answers::PlanRun run_plan(const plan::Plan& plan);

}  // namespace drystage::support
