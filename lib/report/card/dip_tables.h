#pragma once

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/answer.h"
#include "units/format.h"

namespace drystage::report {

/// For every tank and container that has a shape or marks of its own: what a depth on the dipstick
/// comes to. Where units are not metric, a table to convert by as well. Nothing where there is
/// neither.
void write_dip_tables(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                      const CardAnswer& answer, units::System system);

}  // namespace drystage::report
