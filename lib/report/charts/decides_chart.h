#pragma once

#include <vector>

#include "answers/base/plan_run.h"
#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/charts/trip_line.h"

namespace drystage::report {

/// Which reserve is nearest to its margin, day by day: a row for each reserve, a box for each day,
/// the darker the less room there is (nearness.h). "!" is beyond the margin, "!!" runs out, and the
/// box of the reserve that decides has a thick frame. The days stand where those of the time chart
/// do.
std::vector<drawing::Block> decides_chart(const drawing::Typesetter& typesetter,
                                          const answers::PlanRun& planned, const TripLine& line);

}  // namespace drystage::report
