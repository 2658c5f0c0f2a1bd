#pragma once

#include <vector>

#include "drawing/axis.h"
#include "drawing/page.h"
#include "report/charts/stretch.h"

namespace drystage::report {

/// What charts below each other share: one axis across the picture, names and numbers to its left.
struct Across {
  drawing::Scale scale{};
  std::vector<Stretch> nights{};  ///< shaded lightly
  std::vector<double> lines{};    ///< faint, from top to foot

  [[nodiscard]] double width_pt() const { return scale.to_pt - scale.from_pt; }
  [[nodiscard]] bool has(double number) const { return number >= scale.from && number <= scale.to; }
};

/// From one number to another over the width of the picture; over a share of it where the last of
/// several pieces is shorter.
Across across(double from, double to, double share = 1);

/// The widest that such an axis can be.
double across_pt();

/// The nights from one height down to another.
std::vector<drawing::Mark> night_marks(const Across& across, double top_pt, double foot_pt);

}  // namespace drystage::report
