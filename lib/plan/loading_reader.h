#pragma once

#include "plan/fields.h"
#include "plan/plan.h"

namespace drystage::plan {

/// Parts of a vehicle that say what rests where. Each takes the keys of the map that it is given.
void read_chassis(Fields& fields, Vehicle& made);  ///< lengths, wheels, bays and gear
void read_limits(Fields& mass, LoadLimits& made);
void read_coupling(Fields& trailer, const Vehicle& vehicle, Trailer& made);

}  // namespace drystage::plan
