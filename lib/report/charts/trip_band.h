#pragma once

#include <vector>

#include "answers/base/plan_run.h"
#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/charts/across.h"
#include "report/charts/day_axis.h"
#include "report/charts/supply_stops.h"
#include "report/charts/trip_line.h"

namespace drystage::report {

/// The trip as a band over some of its days, under their numbers and dates: driving in black, the
/// names of places below, and above what is taken on where.
drawing::Block trip_band(const drawing::Typesetter& typesetter, const answers::PlanRun& planned,
                         const TripLine& line, const std::vector<SupplyStop>& stops,
                         const DayPiece& piece, const Across& across);

}  // namespace drystage::report
