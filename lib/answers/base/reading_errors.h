#pragma once

#include "engine/reserve_id.h"
#include "plan/plan.h"

namespace drystage::answers {

// Standard errors of what people read (models/reading_error.h).

/// Of one vessel, L: by stick, or judged by eye. Full and empty ones are counted, and so exact.
double vessel_error_l(const plan::Found& found, const plan::Gauge& gauge, double holds_l);

/// Of a reserve of water, fuel or food, as far as the reading has it, in its unit. Said as one
/// figure it is a sum of vessels of which the largest is partly full.
double reading_error(const plan::Plan& plan, const plan::Reading& reading,
                     engine::ReserveId reserve);

}  // namespace drystage::answers
