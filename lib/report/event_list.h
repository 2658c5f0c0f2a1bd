#pragma once

#include <string>

#include "answers/trial.h"
#include "units/format.h"

namespace drystage::report {

/// The events of a run, one to a line with date and hour, within 80 columns. What comes again the
/// same day, or day after day, is told once, with how often or until when. Empty when there is
/// none.
std::string event_list(const answers::Trial& trial, units::System system);

}  // namespace drystage::report
