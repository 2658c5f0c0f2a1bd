#pragma once

#include "report/run/report.h"
#include "report/text/data.h"

namespace drystage::report {

/// What `run_json` writes, for answers that say the same and more.
Json run_data(const RunAnswer& answer);

}  // namespace drystage::report
