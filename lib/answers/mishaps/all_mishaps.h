#pragma once

#include <vector>

#include "answers/mishaps/mishap.h"

namespace drystage::answers {

/// Every single failure that a plan can suffer, and the user's own.
std::vector<Mishap> mishaps_of(const LaidTrip& laid);

}  // namespace drystage::answers
