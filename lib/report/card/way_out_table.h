#pragma once

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/answer.h"
#include "units/format.h"

namespace drystage::report {

/// "The way out, evening by evening": for each evening after a day, and each reserve that life
/// depends on, what it takes to go on as planned, to go on at once and to turn back, rounded up,
/// and where these lead. The rows of an evening stay together. On narrow paper each way has a line
/// of its own. Nothing where nothing is driven.
void write_way_out(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                   const CardAnswer& answer, units::System system);

}  // namespace drystage::report
