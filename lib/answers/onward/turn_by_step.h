#pragma once

#include <vector>

#include "answers/onward/stretches.h"

namespace drystage::answers {

/// Tries every step of the stretches: the way back from its beginning and, where that is another,
/// from its last minute; and the way on to the next supply.
void try_each_step(const WayOn& way, std::vector<Span>& spans);

}  // namespace drystage::answers
