#pragma once

#include <string>

namespace drystage::testing {

/// Where two JSON texts differ: a line for each value that is only in one, or not the same. Numbers
/// are the same within a billionth, because the last digits are the processor's and the compiler's.
/// Empty if there is no difference. Throws on text that is not JSON.
std::string json_difference(const std::string& expected, const std::string& got);

/// The JSON of a run without what the reserves do each day, which is what its CSV says.
std::string without_days_of_reserves(const std::string& run_json);

}  // namespace drystage::testing
