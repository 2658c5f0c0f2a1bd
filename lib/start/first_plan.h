#pragma once

#include <string>
#include <vector>

#include "start/answers.h"

namespace drystage::start {

/// A plan that `check` finds right, or why the answers do not go together.
struct FirstPlan {
  std::string text{};
  std::vector<std::string> problems{};  ///< none where there is a text
};

/// Writes the plan of the answers. The stay is as long as makes the whole trip last the days that
/// were asked for.
FirstPlan first_plan(const Answers& answers, const Kit& kit = {});

}  // namespace drystage::start
