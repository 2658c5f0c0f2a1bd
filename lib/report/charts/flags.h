#pragma once

#include <string>
#include <vector>

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/text/type.h"

namespace drystage::report {

/// Words on a pole over a chart.
struct Flag {
  double at_pt = 0;    ///< where the pole stands across
  double fall_pt = 0;  ///< how far below the flags it reaches
  std::string words;
  drawing::Font font = body_font;
};

/// Flags between two edges, on as many lines as they need. No words meet, and they stand on no pole
/// where that can be helped. The block's height is that of the words; poles reach below it.
drawing::Block flags(const drawing::Typesetter& typesetter, const std::vector<Flag>& all,
                     double from_pt, double to_pt);

/// A name and what it stands under, from edge to edge.
struct NameUnder {
  double from_pt = 0;
  double to_pt = 0;
  std::string words;
};

/// Names, each as near the middle of its own as two edges allow, on a few rows. Where there is not
/// room for all, those of the widest go first, and the rest are left out.
drawing::Block name_rows(const drawing::Typesetter& typesetter, std::vector<NameUnder> names,
                         double from_pt, double to_pt);

}  // namespace drystage::report
