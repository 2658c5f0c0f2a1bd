#pragma once

#include <string>

#include "plan/plan.h"

namespace drystage::engine {

/// A point of the route: a share of the way along a leg, which may lead back to where it began. At
/// a place it is 0 of the way from there.
struct RoutePoint {
  int from = 0;      ///< place
  int to = 0;        ///< place
  double share = 0;  ///< 0..1 of the way
};

/// The place where a point is; -1 in the bush between two.
int place_at(const RoutePoint& spot);

/// Latitude, longitude and elevation of a point, on the straight line between its places.
struct Position {
  double latitude_deg = 0;
  double longitude_deg = 0;
  double elevation_m = 0;
};
Position position(const plan::Plan& plan, const RoutePoint& spot);

/// The climate in force at a point: of the nearer of its two places.
int climate_at(const plan::Plan& plan, const RoutePoint& spot);

/// What to call a point: the place's name, or "bush before NAME" on the way there.
std::string route_point_name(const plan::Plan& plan, const RoutePoint& spot);

}  // namespace drystage::engine
