#pragma once

#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "drawing/axis.h"
#include "drawing/page.h"
#include "drawing/plot.h"
#include "report/charts/trip_line.h"

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

/// Days from 0, in order, as words that count from 1: "day 3", "days 3 to 5, 8 and 9". Empty for
/// none.
std::string day_list(const std::vector<int>& days);

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

/// Some days of a trip, and the axis on which they stand, in hours since its first midnight.
struct DaysAcross {
  DayPiece piece;
  Across across;
};

/// All days of a trip, in pieces of days that are 4 mm wide or more: lines at midnight, and the
/// nights. A day is as wide in the last piece, which may have fewer, as in the others.
std::vector<DaysAcross> across_days(const answers::PlanRun& planned, const TripLine& line);

}  // namespace drystage::report
