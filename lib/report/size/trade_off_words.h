#pragma once

#include <string>
#include <string_view>

#include "report/size/report.h"
#include "units/format.h"

namespace drystage::report {

/// By how much the margins are moved: "+2 days", "-1 day", "as planned".
std::string trade_off_margins(const answers::TradeOff& row);

/// What a row's set takes more or less than the set for the plan's own margins, in a few words for
/// each thing: "drinking water +20 L, camp battery 75 Ah agm"; or why there is none: "not on
/// offer". A set must have been found for the plan's own margins.
std::string trade_off_set(const answers::TradeOff& row, const SizeAnswer& answer,
                          units::System system);

/// Which margins are moved, and which are not.
std::string trade_off_scope(const plan::Plan& plan);

}  // namespace drystage::report
