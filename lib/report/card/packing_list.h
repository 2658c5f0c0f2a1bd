#pragma once

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/answer.h"
#include "units/format.h"

namespace drystage::report {

/// What to load, vehicle by vehicle, with a box to tick before each thing: containers, tanks and
/// cans, food, ice, batteries and cabinets, each with what is in it and its mass, as it is when
/// setting out; and what each vehicle then weighs, beside its limit. Masses are rounded up. Things
/// whose mass is in the vehicle's are not listed, but for tanks and ice boxes.
void write_packing_list(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                        const CardAnswer& answer, units::System system);

}  // namespace drystage::report
