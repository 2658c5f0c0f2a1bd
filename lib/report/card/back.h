#pragma once

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/answer.h"
#include "units/format.h"

namespace drystage::report {

/// The back of the card: what to do first when a reading is too low, charts of every reserve, the
/// packing list, and tables to read tanks by.
void write_back(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                const CardAnswer& answer, units::System system);

}  // namespace drystage::report
