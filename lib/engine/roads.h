#pragma once

#include "engine/calendar.h"
#include "engine/own_use.h"
#include "models/road_load.h"
#include "plan/plan.h"

namespace drystage::engine {

/// Fuel for a piece of road in air of a density: by the user's own figure for the surface where
/// there is one, else by the model. `model` is the vehicle's. The demand is to be asked at the mass
/// of the vehicle and what it tows; `towing`: its trailer, if it has one, is behind it. Without
/// what the ground takes more than usual (RoadPiece::fuel_factor).
models::FuelDemand fuel_demand(const plan::Vehicle& vehicle, const RoadModel& model,
                               const RoadPiece& piece, double air_density_kg_m3,
                               bool towing = true);

/// The same in the standard atmosphere, whatever the weather.
models::FuelDemand standard_fuel_demand(const plan::Vehicle& vehicle, const RoadModel& model,
                                        const RoadPiece& piece, bool towing = true);

}  // namespace drystage::engine
