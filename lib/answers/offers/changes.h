#pragma once

#include <vector>

#include "answers/offers/option.h"

namespace drystage::answers {

/// What could help a reserve (an index into the course's), smallest first. `lacking` is about how
/// much it lacks, in its own unit: containers and cans are offered up to that and one over.
std::vector<Option> options_for(const PlanRun& planned, int reserve, double lacking);

}  // namespace drystage::answers
