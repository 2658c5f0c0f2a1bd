#pragma once

#include "engine/route_point.h"
#include "units/day.h"

namespace drystage::answers {

/// A time of the trip and where the party is then.
struct Moment {
  int day = 0;      ///< 0-based
  double hour = 0;  ///< local clock
  engine::RoutePoint at;
  double done_km = 0;   ///< of the leg under way; 0 at a place
  double to_go_km = 0;  ///< of the same leg; 0 at a place

  /// Hours since the midnight with which the trip begins.
  [[nodiscard]] double trip_h() const { return day_h * day + hour; }
};

}  // namespace drystage::answers
