#pragma once

#include <vector>

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/advice.h"
#include "report/card/answer.h"
#include "units/format.h"

namespace drystage::report {

/// What to do when a reading is below *must have*: first what holds for every reserve, then for
/// each that the plan needs anything of; vehicles together, and cabinets. What the plan can say is
/// said by it: where supplies are sure, which loads go first, what to eat first, how much all
/// together drink in a day. The rest is common practice (docs/models.md), on the cautious side;
/// local advice comes before it.
std::vector<Advice> first_steps(const CardAnswer& answer, units::System system);

/// The same with a table of the places that supply anything, in the order of the trip.
void write_first_steps(drawing::Flow& flow, const drawing::Typesetter& typesetter,
                       const CardAnswer& answer, units::System system);

}  // namespace drystage::report
