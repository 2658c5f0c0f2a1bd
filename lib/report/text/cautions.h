#pragma once

#include <string_view>

namespace drystage::report {

/// What an answer on the screen ends with. `drystage help cautions` and the card say more.
inline constexpr std::string_view short_cautions =
    "A planning aid. Local rules, licensed practice and medical advice come first.";

/// What whoever relies on an answer must know.
inline constexpr std::string_view cautions =
    "A planning aid, no more. It replaces neither local rules on carrying fuel, vehicle mass and "
    "electrical work, nor licensed practice, nor medical advice. Tell someone where you go and "
    "when to raise the alarm.";

}  // namespace drystage::report
