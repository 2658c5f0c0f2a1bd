#pragma once

#include <functional>
#include <limits>
#include <string>
#include <vector>

#include "answers/mend.h"

namespace drystage::answers {

/// A change that can be made to a plan.
struct Option {
  Change change;
  std::function<void(plan::Plan&)> apply;
  bool moves_time = false;                                ///< the timeline must be laid anew
  double adds = std::numeric_limits<double>::infinity();  ///< see engine::Remedy
};

/// What could help a reserve (an index into the course's), smallest first. `lacking` is about how
/// much it lacks, in its own unit: containers and cans are offered up to that and one over.
std::vector<Option> options_for(const Trial& trial, int reserve, double lacking);

}  // namespace drystage::answers
