#pragma once

namespace drystage {

inline constexpr double day_h = 24;           ///< hours in a day
inline constexpr double minute_h = 1.0 / 60;  ///< hours in a minute

}  // namespace drystage
