#pragma once

#include "drawing/page.h"
#include "report/size/report.h"
#include "units/format.h"

namespace drystage::report {

/// What more and less safety weighs, or costs, as a picture: a point for each number of days by
/// which margins are moved, at the mass of the least set, with what the plan itself has as an
/// upright line; below it what each set takes more or less, and what was not found. Masses are
/// rounded up. Where no set was found it says so. One page, 190 mm wide.
drawing::Drawing trade_off_chart(const SizeAnswer& answer, units::System system);

}  // namespace drystage::report
