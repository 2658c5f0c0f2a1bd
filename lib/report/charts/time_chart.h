#pragma once

#include <vector>

#include "answers/base/levels.h"
#include "answers/base/plan_run.h"
#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/charts/trip_line.h"
#include "units/format.h"

namespace drystage::report {

/// Every reserve over one time line: a key, the trip as a band, and below it a strip for each
/// reserve, those that life depends on first and taller. A long trip is cut into pieces.
std::vector<drawing::Block> time_chart(const drawing::Typesetter& typesetter,
                                       const answers::PlanRun& planned, const TripLine& line,
                                       const answers::Levels& levels, units::System system);

}  // namespace drystage::report
