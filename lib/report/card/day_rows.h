#pragma once

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/needs_report.h"
#include "units/format.h"

namespace drystage::report {

/// The evenings of a trip with all that belongs to each: facts of the day, boxes of the reserves
/// that life hangs on, what is taken on, and where the way back ends or opens. In columns under a
/// head that is repeated where they have room, else each in a block of its own. What belongs to an
/// evening stays on one page as long as it fits one.
void write_day_rows(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                    const NeedsAnswer& answer, units::System system);

}  // namespace drystage::report
