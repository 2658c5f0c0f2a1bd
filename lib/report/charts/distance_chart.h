#pragma once

#include <vector>

#include "answers/base/levels.h"
#include "answers/base/plan_run.h"
#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/charts/trip_line.h"
#include "units/format.h"

namespace drystage::report {

/// Drinking water and each vehicle's fuel over the way driven: places stand above as upright lines,
/// and what is used while nobody drives falls straight down. Nothing where nobody ever drives.
std::vector<drawing::Block> distance_chart(const drawing::Typesetter& typesetter,
                                           const answers::PlanRun& planned, const TripLine& line,
                                           const answers::Levels& levels, units::System system);

}  // namespace drystage::report
