#pragma once

#include "plan/itinerary.h"

namespace drystage::plan {

/// A drive the other way, on the road that was come, which ends where it began: `from`.
Drive reversed(const Drive& drive, int from);

/// From the end of a drive to its beginning, by the road that is meant for it (`back`), else by the
/// one that was come.
Drive way_back(const Drive& drive, int from);

}  // namespace drystage::plan
