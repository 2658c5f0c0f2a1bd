#pragma once

namespace drystage {

inline constexpr double day_h = 24;  ///< hours in a day

}  // namespace drystage
