#pragma once

#include <string>
#include <utility>
#include <vector>

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/charts/across.h"
#include "report/charts/flags.h"

namespace drystage::report {

/// How a reserve stands somewhere across, in the units to show.
struct StripPoint {
  double x = 0;
  double level = 0;
  double margin = 0;
};

/// A small chart of one reserve, to stand below others.
struct LevelStrip {
  std::string title;
  bool above = true;  ///< more is better of it
  bool has_margin = true;
  std::pair<double, double> range{};  ///< numbers at foot and top
  double height_pt = 0;               ///< of the frame
  std::vector<StripPoint> points{};   ///< from left to right

  /// Words over a place across, with a pole down to a level.
  struct Flag {
    double x = 0;
    double level = 0;
    std::string words;
    drawing::Font font = body_font;
  };
  std::vector<Flag> flags{};
  std::vector<std::string> notes{};  ///< what cannot be seen in it
};

/// The strip as a block as wide as the picture. What lies beyond the margin is hatched: below it,
/// or above it where less is better.
drawing::Block level_strip(const drawing::Typesetter& typesetter, const LevelStrip& strip,
                           const Across& across);

}  // namespace drystage::report
