#pragma once

#include <cstddef>

#include "report/card/advice.h"

namespace drystage::report {

/// What to do when a battery is low: in which order its loads are switched off, what must go on,
/// and what charges it. `reserve` is an index into the course's reserves, and one of a battery.
Advice battery_advice(const AdvisedTrip& trip, std::size_t reserve);

}  // namespace drystage::report
