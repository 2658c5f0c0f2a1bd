#pragma once

#include <string>

#include "report/run/report.h"

namespace drystage::report {

/// One row per day: date, from, to, distance, hours, maximum temperature, and for each reserve what
/// is left at the day's low point and how long that lasts. A day below the margin is marked by a
/// sign, and by colour too. Columns are as wide as what stands in them. Where not all reserves fit
/// in 80 columns the first to fail and drinking water are shown, then others that fail, then those
/// that life depends on, then those nearest to their margin; a line says which were left out. Asked
/// for all, they follow in further tables; wide, all stand in one. `also_hidden` is named with
/// those that were left out.
std::string day_table(const answers::PlanRun& planned, const TextOptions& options,
                      const std::string& also_hidden = {});

}  // namespace drystage::report
