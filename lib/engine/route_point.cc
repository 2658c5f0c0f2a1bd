#include "engine/route_point.h"

#include "units/index.h"

namespace drystage::engine {
namespace {

double between(double a, double b, double share) { return a + (b - a) * share; }

/// Longitude on the shorter way round.
double longitude_between(double a, double b, double share) {
  double turn = b - a;
  if (turn > 180) turn -= 360;
  if (turn < -180) turn += 360;
  return a + turn * share;
}

}  // namespace

int place_at(const RoutePoint& spot) {
  if (spot.share <= 0) return spot.from;
  return spot.share >= 1 ? spot.to : -1;
}

Position position(const plan::Plan& plan, const RoutePoint& spot) {
  const plan::Place& a = plan.places[at(spot.from)];
  const plan::Place& b = plan.places[at(spot.to)];
  return {.latitude_deg = between(a.latitude_deg, b.latitude_deg, spot.share),
          .longitude_deg = longitude_between(a.longitude_deg, b.longitude_deg, spot.share),
          .elevation_m = between(a.elevation_m, b.elevation_m, spot.share)};
}

int climate_at(const plan::Plan& plan, const RoutePoint& spot) {
  const int nearer = spot.share < 0.5 ? spot.from : spot.to;
  return plan.places[at(nearer)].climate;
}

std::string route_point_name(const plan::Plan& plan, const RoutePoint& spot) {
  const int place = place_at(spot);
  if (place >= 0) return plan.places[at(place)].name;
  return "bush before " + plan.places[at(spot.to)].name;
}

}  // namespace drystage::engine
