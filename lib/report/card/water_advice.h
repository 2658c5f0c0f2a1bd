#pragma once

#include "report/card/advice.h"

namespace drystage::report {

/// What to do when drinking water is low: how much all drink in a day, what of the other water may
/// be drunk, when to raise the alarm.
Advice drinking_water_advice(const AdvisedTrip& trip);

/// What to do when utility water is low: what it goes for, most first.
Advice utility_water_advice(const AdvisedTrip& trip);

}  // namespace drystage::report
