#pragma once

#include <string>

#include "answers/base/plan_run.h"
#include "report/text/options.h"

namespace drystage::report {

/// A line for each reserve, of all days side by side: for each day's low point a block character,
/// U+2581 to U+2588, which says in which eighth it lies between empty and full; then the first
/// day's figure and the worst of all. Of what is kept cold it is the day's warmest, between the
/// coldest day and the warmest. Under a day below its margin stands "!". Where there are more days
/// than columns, each block is the worst of several. Never wider than 80 columns; a long name has a
/// line of its own.
std::string sparklines(const answers::PlanRun& planned, const TextOptions& options);

}  // namespace drystage::report
