#pragma once

// For the sources of this folder alone: SVG as a piece of another document.

#include <string>
#include <string_view>

#include "drawing/page.h"

namespace drystage::drawing {

/// An `svg` element with the pages of a drawing one below the other. Its ids begin with `prefix`,
/// which keeps those of several in one document apart.
std::string svg_element(const Drawing& drawing, std::string_view prefix);

/// Text as it may stand in XML and HTML, between tags or in a quoted attribute. What XML cannot
/// hold at all (control characters) becomes U+FFFD.
std::string escaped(std::string_view text);

}  // namespace drystage::drawing
