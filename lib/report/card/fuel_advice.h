#pragma once

#include "report/card/advice.h"

namespace drystage::report {

/// What to do when fuel is low, for all vehicles together.
Advice fuel_advice(const AdvisedTrip& trip);

}  // namespace drystage::report
