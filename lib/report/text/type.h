#pragma once

#include "drawing/page.h"

namespace drystage::report {

// The type that the card and the charts are set in.

inline constexpr drawing::Font body_font{.size_pt = 9};
inline constexpr drawing::Font strong_font{.size_pt = 9, .bold = true};
inline constexpr drawing::Font heading_font{.size_pt = 11, .bold = true};
inline constexpr drawing::Font part_font{.size_pt = 12, .bold = true};
inline constexpr drawing::Font title_font{.size_pt = 16, .bold = true};

}  // namespace drystage::report
