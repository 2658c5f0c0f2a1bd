#pragma once

#include <string>
#include <vector>

#include "drawing/flow.h"
#include "drawing/typesetter.h"

namespace drystage::report {

/// A sign or a piece of line, and what it means.
struct KeyItem {
  std::vector<drawing::Mark> sample{};  ///< in a box of that width by the height of a line
  std::string words;
  double sample_pt = 26;  ///< how wide the box is
};

/// How high a line of a key is.
double key_line_pt(const drawing::Typesetter& typesetter);

/// A piece of a line as it stands in a chart, for a key.
KeyItem line_item(const drawing::Typesetter& typesetter, const drawing::Stroke& stroke,
                  std::string words);

/// How wide all items are side by side.
double key_width(const drawing::Typesetter& typesetter, const std::vector<KeyItem>& items);

/// The items side by side, on as many lines as they need; the words of one wider than a line are
/// broken.
drawing::Block key(const drawing::Typesetter& typesetter, const std::vector<KeyItem>& items,
                   double width_pt);

}  // namespace drystage::report
