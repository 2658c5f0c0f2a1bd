#pragma once

#include <vector>

namespace drystage::answers {

/// Every single failure that a plan can suffer, and the user's own.
std::vector<Mishap> mishaps_of(const Voyage& voyage);

}  // namespace drystage::answers
