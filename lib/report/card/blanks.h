#pragma once

#include <string>
#include <vector>

#include "drawing/flow.h"
#include "drawing/typesetter.h"

namespace drystage::report {

/// Room to write in by hand: no less than 8 mm high.
inline constexpr double writing_height_pt = 8.5 * drawing::points_per_mm;

/// Something to be filled in: what it is, and as many lines to write on.
struct Blank {
  std::string words;
  int lines = 1;
};

/// Blanks below each other, or two side by side where there is room; a block for each row.
std::vector<drawing::Block> blank_blocks(const drawing::Typesetter& typesetter,
                                         const std::vector<Blank>& blanks, double width_pt);

/// A name with blanks beside it (below it, where there is no room), each with its words small at
/// its beginning.
drawing::Block named_blanks(const drawing::Typesetter& typesetter, const std::string& name,
                            const std::vector<std::string>& words, double width_pt);

}  // namespace drystage::report
