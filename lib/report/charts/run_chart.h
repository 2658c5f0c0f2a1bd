#pragma once

#include "drawing/page.h"
#include "report/run/report.h"
#include "units/format.h"

namespace drystage::report {

/// What `drystage run` says of a plan as a picture: the trip, the verdict, what decides on each
/// day, how each reserve goes through the days, and how fuel and drinking water go along the way.
/// One page, 190 mm wide and as long as it needs.
drawing::Drawing run_chart(const RunAnswer& answer, units::System system);

}  // namespace drystage::report
