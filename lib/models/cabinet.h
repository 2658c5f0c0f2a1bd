#pragma once

#include "models/cabinet_types.h"

namespace drystage::models {

/// Heat content in kJ of both nodes, counted from contents and thawed food at 0 °C.
/// Over any step, its change is leak_in_kj - pumped_kj.
[[nodiscard]] double cabinet_enthalpy_kj(const CabinetParams& params, const CabinetState& state);

/// Moves `state` on by `dt_h` hours (0 or less: nothing happens) in surroundings at `ambient_c`.
///
/// Method: closed form. Inside each regime (compressor off, holding the set point, or running
/// without a pause; slab frozen, melting or thawed) the two nodes are a linear system with constant
/// coefficients, solved by exponentials; the moments at which one regime gives way to the next are
/// found on the closed form. So the result does not depend on how a stretch of constant
/// surroundings is cut into steps.
/// - The thermostat is taken without its hysteresis: at the set point the compressor carries
///   exactly the heat that comes in, if it can.
/// - Capacity and coefficient of performance are those at the set point also while the inside is
///   warmer, which understates a little how fast a warm cabinet is pulled down.
/// - Of two compartments to be cooled, the chilled one is served first.
CabinetFlows step_cabinet(const CabinetParams& params, CabinetState& state, double ambient_c,
                          double dt_h, bool compressor_available);

/// Hours the chilled node stays at or below `limit_c` from `state` with the compressor stopped and
/// the surroundings at `ambient_c`: 0 if it is above already, infinite if it has not got there in
/// ten years.
[[nodiscard]] double hold_over_h(const CabinetParams& params, const CabinetState& state,
                                 double ambient_c, double limit_c);

/// Long-run duty and mean electrical power with the thermostats held in surroundings at
/// `ambient_c`: in kind frozen_below with the slab come to the temperature of the chilled part, in
/// kind freezer with each part at its own set point (the chilled one below it, if the barrier alone
/// cools it so far). An ice box, or a cabinet without a compressor, draws nothing and holds only if
/// no heat comes in.
[[nodiscard]] SteadyDuty steady_cabinet(const CabinetParams& params, double ambient_c);

}  // namespace drystage::models
