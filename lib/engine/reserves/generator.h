#pragma once

#include <vector>

#include "engine/calendar.h"
#include "plan/plan.h"

namespace drystage::engine::reserves {

/// A generator: the fuel family runs it, the power family takes what it gives.
struct Generator {
  int charger = 0;  ///< index into the plan's chargers
  int bank = 0;
  int vehicle = 0;  ///< whose tanks feed it
  double power_w = 0;
  double uses_l_h = 0;
  double from_h = 0;  ///< clock hour at which it is started each day ...
  double to_h = 0;    ///< ... and stopped; past 24 for after midnight
};

std::vector<Generator> generators(const plan::Plan& plan);

/// Hours of a step in which a generator is running when it has fuel: none on the move, nor where
/// the mains is.
double running_h(const Generator& generator, const Calendar& calendar, const TimeStep& step);

}  // namespace drystage::engine::reserves
