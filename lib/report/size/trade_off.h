#pragma once

#include <string>

#include "report/size/report.h"

namespace drystage::report {

/// What more and less safety weighs, or costs: a row for each number of days that margins are
/// moved by, with the least set, its difference to the row before, a bar of what it has more than
/// the least row, and what it takes more or less than the set for the plan's own margins. Empty
/// where it was not asked for.
std::string size_trade_off(const SizeAnswer& answer, const TextOptions& options);

}  // namespace drystage::report
