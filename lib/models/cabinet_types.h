#pragma once

#include "models/compressor.h"
#include "models/food_properties.h"

namespace drystage::models {

/// What kind of cabinet it is. All are the same two nodes, a chilled one (contents, liner and air
/// at one temperature) and a slab of frozen goods, with heat leaking in through the walls to both
/// and passing between them through a barrier.
enum class CabinetKind {
  /// One compartment; whatever slab the state holds is left out of account.
  single,
  /// Frozen goods below a barrier in a cabinet whose thermostat is in the chilled part. While the
  /// compressor is to be had, the evaporator in the walls takes up the heat coming through the
  /// slab's share of the wall: the slab gains only through the barrier, and the compressor carries
  /// the whole wall leak. Without it, the slab's share of the wall leaks into the slab.
  /// A freezer is this too: set point -18 °C, food as the slab, a barrier of good contact.
  frozen_below,
  /// The slab has a thermostat of its own at `frozen_set_point_c`, served by the same compressor
  /// in whatever time the chilled part leaves over. With no slab in it, it is not kept cold.
  freezer,
  /// No compressor: the slab is ice (`ice_thermal()`, whatever `slab` says), and what melts is
  /// drained off at 0 °C. Give it frozen; meltwater standing in it at the start is drained at once.
  ice_box,
};

/// What does not change as a cabinet is used. Conductances in W/K, 0 or more (less counts as 0).
struct CabinetParams {
  CabinetKind kind = CabinetKind::single;
  double leak_w_per_k = 0.0;        ///< Through all the walls, see rated_leak_w_per_k.
  double lid_w_per_k = 0.0;         ///< Into the chilled part besides: see lid.h.
  double slab_share = 0.3;          ///< Share of that which falls on the slab, 0 to 1.
  double barrier_w_per_k = 0.0;     ///< Between the chilled part and the slab.
  double set_point_c = 4.0;         ///< Chilled thermostat.
  double frozen_set_point_c = -18;  ///< Slab thermostat, kind freezer only.
  Compressor compressor;
  FoodThermal slab;  ///< What the slab is made of.
};

/// What does change. The caller may add and take contents between steps.
struct CabinetState {
  double chilled_c = 4.0;
  double chilled_kj_per_k = 0.0;  ///< Heat capacity of the chilled node; under 0.1 counts as 0.1.
  double slab_kg = 0.0;           ///< Under 1e-10 kg counts as none.
  double slab_kj_kg = 0.0;        ///< Specific enthalpy, as food_enthalpy_kj_kg.
};

/// What passed during a step.
struct CabinetFlows {
  double leak_in_kj = 0.0;       ///< Heat in through walls and lid (negative: out).
  double pumped_kj = 0.0;        ///< Heat the compressor took out.
  double electric_wh = 0.0;      ///< What that took.
  double compressor_on_h = 0.0;  ///< Hours the compressor ran.
  double melted_kg = 0.0;        ///< Meltwater drained from an ice box.
  double max_chilled_c = 0.0;    ///< Warmest the chilled node was.
  double hours_above_5c = 0.0;   ///< Hours the chilled node was above 5 °C ...
  double hours_above_32c = 0.0;  ///< ... and above 32 °C.
  double hour_thawed = -1.0;     ///< Hours into the step when the last of the slab thawed, or -1.
};

}  // namespace drystage::models
