#pragma once

#include "engine/damage.h"
#include "plan/plan.h"

namespace drystage::engine {

/// Where a thing of the plan lies in the vehicle that carries it now; in another than its own
/// nobody has said where.
template <class Thing>
plan::Spot spot_in(const Thing& thing, int vehicle) {
  return thing.vehicle == vehicle ? thing.spot : plan::Spot{};
}

/// The same of what may be in a cabinet, and lies where that does.
template <class Thing>
plan::Spot spot_of(const plan::Plan& plan, const Damage& damage, const Thing& thing) {
  const int vehicle = carrier(plan, damage, thing.vehicle);
  if (thing.cabinet < 0) return spot_in(thing, vehicle);
  return spot_in(plan.cold[static_cast<std::size_t>(thing.cabinet)], vehicle);
}

/// Where food that is bought goes: to the first dry food of that vehicle.
plan::Spot spot_of_bought(const plan::Plan& plan, int vehicle);

}  // namespace drystage::engine
