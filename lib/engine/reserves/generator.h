#pragma once

#include <vector>

#include "engine/calendar.h"
#include "engine/damage.h"

namespace drystage::engine::reserves {

/// A generator: the fuel family runs it, the power family takes what it gives.
struct Generator {
  int charger = 0;  ///< index into the plan's chargers
  int bank = 0;
  int vehicle = 0;  ///< whose tanks feed it
  double power_w = 0;
  double uses_l_h = 0;
  double from_h = 0;            ///< clock hour at which it is started each day ...
  double to_h = 0;              ///< ... and stopped; past 24 for after midnight
  bool rests_on_mains = false;  ///< does not run where that is
};

/// Those that still work. They rest on mains while a charger that takes it works too.
std::vector<Generator> generators(const plan::Plan& plan, const Damage& damage);

/// Hours of a step in which a generator is running when it has fuel: none on the move.
double running_h(const Generator& generator, const Calendar& calendar, const TimeStep& step);

}  // namespace drystage::engine::reserves
