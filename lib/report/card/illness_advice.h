#pragma once

#include <vector>

#include "report/card/advice.h"

namespace drystage::report {

/// Signs of illness that the weather and the height of a trip can bring, and what to do first: heat
/// illness, illness from cold, altitude illness; each only where the trip asks for it, by
/// `TripWeather` and by the highest place where a night is spent. Common practice, as public health
/// services teach it (docs/models.md names them); medical advice comes before it.
std::vector<Advice> illness_advice(const AdvisedTrip& trip);

}  // namespace drystage::report
