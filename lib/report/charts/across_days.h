#pragma once

#include <vector>

#include "answers/base/plan_run.h"
#include "report/charts/across.h"
#include "report/charts/day_axis.h"
#include "report/charts/trip_line.h"

namespace drystage::report {

/// Some days of a trip, and the axis on which they stand, in hours since its first midnight.
struct DaysAcross {
  DayPiece piece;
  Across across;
};

/// All days of a trip, in pieces of days that are 4 mm wide or more: lines at midnight, and the
/// nights. A day is as wide in the last piece, which may have fewer, as in the others.
std::vector<DaysAcross> across_days(const answers::PlanRun& planned, const TripLine& line);

}  // namespace drystage::report
