#pragma once

#include <string>
#include <vector>

namespace drystage::report {

/// Days from 0, in order, as words that count from 1: "day 3", "days 3 to 5, 8 and 9". Empty for
/// none.
std::string day_list(const std::vector<int>& days);

}  // namespace drystage::report
