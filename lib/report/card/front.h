#pragma once

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/answer.h"

namespace drystage::report {

/// The front of the card: what trip it is, whether it holds, the margins, how to use the sheet, and
/// a row with boxes to write in for each evening (see write_day_rows); last the cautions.
void write_front(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                 const CardAnswer& answer, units::System system);

}  // namespace drystage::report
