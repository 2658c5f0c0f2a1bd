#pragma once

#include <vector>

#include "answers/base/plan_run.h"
#include "drawing/plot.h"

namespace drystage::report {

/// Days of a trip that stand in one chart: from `first` (0-based), so many.
struct DayPiece {
  int first = 0;
  int count = 0;

  [[nodiscard]] bool has(int day) const { return day >= first && day < first + count; }
};

/// A trip in pieces of days, as few and as even as a width for each day at the least allows. All
/// but the last have as many days.
std::vector<DayPiece> day_pieces(int days, double width_pt, double least_day_pt);

/// The lines of a plot whose numbers across are hours since the trip's first midnight: strong ones
/// at midnight, and as many finer ones between as can be told apart.
void day_lines(drawing::Plot& plot, const DayPiece& piece, const drawing::Stroke& midnight,
               const drawing::Stroke& finer);

/// Under a plot, between the block's left edge and its right one: number, weekday and date of as
/// many days as there is room for, hours where days are wide. Answers how high that is.
double day_labels(drawing::Plot& plot, const drawing::Typesetter& typesetter,
                  const answers::PlanRun& planned, const DayPiece& piece, double top_pt,
                  double block_pt);

}  // namespace drystage::report
