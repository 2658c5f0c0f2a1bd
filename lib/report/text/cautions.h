#pragma once

#include <string_view>

namespace drystage::report {

/// What every printed answer ends with.
inline constexpr std::string_view cautions =
    "A planning aid, no more. It replaces neither local rules on carrying fuel, vehicle mass and "
    "electrical work, nor licensed practice, nor medical advice. Tell someone where you go and "
    "when to raise the alarm.";

}  // namespace drystage::report
