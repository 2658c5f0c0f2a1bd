#pragma once

#include <string>
#include <vector>

#include "report/needs/report.h"

namespace drystage::report {

/// The order in which the reserves of the needs are shown: those that life depends on first.
/// Indices into Needs::reserves.
std::vector<int> needs_order(const NeedsAnswer& answer);

/// One row per morning: date, where the day begins, and for each reserve what must be on board,
/// what the plan has and what is to spare. As many reserves side by side as fit in 80 columns, the
/// others in further tables below; wide, all in one. A legend stands at the end.
std::string needs_table(const NeedsAnswer& answer, const TextOptions& options);

}  // namespace drystage::report
