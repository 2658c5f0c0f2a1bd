#pragma once

#include <functional>
#include <limits>
#include <string>

#include "answers/base/plan_run.h"

namespace drystage::answers {

/// A change to a plan, small enough to be made in the driveway.
struct Change {
  engine::ChangeName name;
  double size = 0;  ///< by which changes are ranked: about the mass added, kg (see changes.cc)
};

/// A change that can be made to a plan. It can be made to the plan that it is offered for, and to
/// any that has come of that plan by such changes: it counts drives and stays, not items.
struct Option {
  Change change;
  std::function<void(plan::Plan&)> apply;
  bool moves_time = false;  ///< the timeline must be laid anew
  bool moves_days = false;  ///< and what comes after falls on other days
  double adds = std::numeric_limits<double>::infinity();  ///< see engine::Remedy
  // See engine::Remedy too.
  std::string kind{};
  int steps = 0;
  std::function<Option(int steps)> of_steps{};
  /// What it is called on the calendar of a plan in which it has been made, where that names a day.
  std::function<engine::ChangeName(const PlanRun&)> name_in{};
};

}  // namespace drystage::answers
