#pragma once

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/answer.h"
#include "units/format.h"

namespace drystage::report {

/// The evenings of a trip. Above each stands what is met on its day, in the order of time: what is
/// taken on, where the way back ends or opens, with how much a place must be left, and what happens
/// by the plan. Then its row: facts of the day, and boxes of the reserves. In columns under a head
/// that is repeated where they have room, else each in a block of its own. What stands last above a
/// row stays with it; the other lines name their day and may be on the page before.
void write_day_rows(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                    const CardAnswer& answer, units::System system);

}  // namespace drystage::report
