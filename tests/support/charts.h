#pragma once

#include <vector>

#include "answers/base/plan_run.h"
#include "answers/onward/needs.h"
#include "drawing/axis.h"
#include "drawing/flow.h"
#include "drawing/page.h"
#include "drawing/typesetter.h"
#include "support/random_plan.h"

namespace drystage::support {

/// The lines of a stroke: same weight, dash and shade.
std::vector<std::vector<drawing::Point>> lines_of(const std::vector<drawing::Mark>& marks,
                                                  const drawing::Stroke& stroke);

/// A chart of a reserve as a reader reads it: by the numbers and the days that stand beside it.
struct ReadChart {
  drawing::Rect frame;
  drawing::Scale hours;   ///< since the trip's first midnight
  drawing::Scale levels;  ///< in the units shown

  [[nodiscard]] drawing::Point point(double hour, double level) const {
    return {.x = hours.at_pt(hour), .y = levels.at_pt(level)};
  }
};

/// Throws where a chart has no frame, or not two numbers.
drawing::Rect frame_of(const drawing::Block& block);
ReadChart read_chart(const drawing::Typesetter& typesetter, const drawing::Block& block);

/// The same of a chart without days below it, whose frame ends at these numbers: hours or another
/// measure.
ReadChart read_strip(const drawing::Typesetter& typesetter, const drawing::Block& block,
                     double from, double to);

/// How far a point is from the nearest of some lines.
double distance(drawing::Point point, const std::vector<std::vector<drawing::Point>>& lines);

/// Needs of any kind: little, much, more than can be held, endless, to the same moment or another.
answers::Needs random_needs(const answers::PlanRun& planned, const Pick& pick);

}  // namespace drystage::support
