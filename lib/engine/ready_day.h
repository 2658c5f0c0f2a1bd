#pragma once

#include <memory>
#include <vector>

#include "models/heat_strain_table.h"
#include "models/radiation.h"
#include "models/solar_heat.h"

namespace drystage::engine {

/// Sweat in the winds of a day's places, ready to be asked for any warmth and sun: where it is
/// sheltered, and in the open the least and the most wind that there may be.
struct ReadyAir {
  models::SweatInAir sheltered;
  models::SweatInAir open_least;
  models::SweatInAir open_most;
};

/// What of a day's weather does not change with how warm or how bright it is, worked out
/// beforehand. Trips that differ in these alone then take a small part of the time, and the figures
/// are the same but for rounding.
struct ReadyDay {
  struct Hour {
    models::SunStretch light;
    models::SunOnBody sun_on_body;
    double below_max = 0;  ///< part of the day's range by which it is below the maximum
  };
  std::vector<Hour> hours;  ///< by clock hour
  std::shared_ptr<const ReadyAir> air;
};

}  // namespace drystage::engine
