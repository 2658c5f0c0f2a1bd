#pragma once

#include <string>
#include <string_view>

namespace drystage::report {

/// Text filled with blanks to exactly `width` columns of a terminal (1 or more), or cut to it; what
/// is cut ends in "~".
std::string left(std::string_view text, int width);

/// The same, with blanks before it.
std::string right(std::string_view text, int width);

/// A place's name in so many columns; of a camp in the bush "bush", where the name of the place
/// ahead does not fit.
std::string place_cell(const std::string& name, bool in_bush, int width);

/// Prose broken at blanks so that no line passes `width` columns; lines after the first begin with
/// `indent` blanks. A word longer than the line stands alone.
std::string wrap(std::string_view text, int width, int indent = 0);

/// A label with prose beside it: as `wrap`, with the lines after the first set under the prose, and
/// a line end after the last.
std::string wrap_after(std::string_view label, std::string_view text, int width);

}  // namespace drystage::report
