#pragma once

#include "drawing/page.h"
#include "drawing/paper.h"
#include "report/card/answer.h"
#include "units/format.h"

namespace drystage::report {

/// The sheet to carry: the front with a row for each day and boxes to write in, the back with
/// charts, packing list, dip tables and what to do when a reading is too low, and a page to leave
/// at home. Every figure that is shown is rounded so that nothing looks better than it is.
drawing::Drawing card(const CardAnswer& answer, const drawing::Paper& paper, units::System system);

}  // namespace drystage::report
