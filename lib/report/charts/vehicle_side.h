#pragma once

#include "answers/base/plan_run.h"
#include "answers/weigh/weighing.h"
#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "units/format.h"

namespace drystage::report {

/// A vehicle from the side, its front to the left: a plain outline, and what lies where as squares
/// whose area is their mass, at its most. Below the ground what rests on each axle and on the ball,
/// most and least, with the limits. Black and white. Empty where its axles are not known.
drawing::Block vehicle_side(const drawing::Typesetter& typesetter, const answers::PlanRun& planned,
                            const answers::Weighing& weighing, std::size_t vehicle, double width_pt,
                            units::System system);

}  // namespace drystage::report
