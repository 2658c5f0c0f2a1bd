#pragma once

#include "report/card/advice.h"

namespace drystage::report {

/// What to do when food is low: what to eat first, by what spoils first.
Advice food_advice(const AdvisedTrip& trip);

/// What to do when it is too warm in a cabinet, for all cabinets together: when their food is to be
/// eaten and thrown away, and what lies in each.
Advice cold_advice(const AdvisedTrip& trip);

}  // namespace drystage::report
