#pragma once

#include "models/cabinet_types.h"

namespace drystage::models {

/// The commonest step by far, by the shortest way: a thermostat that holds its set point from the
/// first to the last moment, over a slab that stays frozen, stays melting, stays thawed or is not
/// there. Moves `state` and fills `flows` just as step_cabinet does, which tries this first; does
/// nothing and answers false where anything else is going on.
[[nodiscard]] bool step_holding(const CabinetParams& params, CabinetState& state, double ambient_c,
                                double dt_h, CabinetFlows& flows);

}  // namespace drystage::models
