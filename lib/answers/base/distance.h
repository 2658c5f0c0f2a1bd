#pragma once

#include "answers/base/plan_run.h"

namespace drystage::answers {

/// What a reserve lacks at its tightest, and what was wanted when it had run dry (or was replaced),
/// in its unit.
double lacking(const ReserveOutlook& outlook);

/// How far a plan is from holding: the sum over reserves of what each lacks, as a share of its
/// size, and over loads of the share of the trip for which each is off at its end. Changes that do
/// not help the reserve they are meant for are seen by this.
double distance(const PlanRun& planned);

}  // namespace drystage::answers
