#include "engine/surfaces.h"

#include <array>

namespace drystage::engine {
namespace {

using plan::Surface;
using plan::Tyres;

bool is_sand(Surface surface) { return surface == Surface::sand || surface == Surface::soft_sand; }

}  // namespace

SurfaceFigures surface_figures(Surface surface) {
  static constexpr std::array<SurfaceFigures, plan::surface_count> figures{{
      {.rolling = 0.015, .speed_km_h = 85, .punctures_1000_km = 0.02},  // sealed
      {.rolling = 0.020, .speed_km_h = 75, .punctures_1000_km = 0.05},  // worn sealed
      {.rolling = 0.022, .speed_km_h = 70, .punctures_1000_km = 0.15},  // packed gravel
      {.rolling = 0.028, .speed_km_h = 55, .punctures_1000_km = 0.4},   // gravel
      {.rolling = 0.040, .speed_km_h = 45, .punctures_1000_km = 0.6},   // loose gravel
      {.rolling = 0.050, .speed_km_h = 30, .punctures_1000_km = 0.8},   // track
      {.rolling = 0.060, .speed_km_h = 15, .punctures_1000_km = 2},     // rock
      {.rolling = 0.10, .speed_km_h = 25, .punctures_1000_km = 0.2},    // sand
      {.rolling = 0.16, .speed_km_h = 20, .punctures_1000_km = 0.2},    // soft sand
  }};
  return figures.at(static_cast<std::size_t>(surface));
}

double speed_km_h(const plan::SurfacePart& part, const plan::Driving& driving) {
  const auto own = driving.speed_km_h.at(static_cast<std::size_t>(part.surface));
  return part.speed_km_h.value_or(own.value_or(surface_figures(part.surface).speed_km_h));
}

bool is_hard(Surface surface) { return surface <= Surface::gravel; }

double tyre_rolling() { return surface_figures(Surface::sealed).rolling; }

double rolling(Surface surface, Tyres tyres) {
  constexpr double more_let_down = 0.006;
  constexpr double ground_let_down = 0.5;
  const double at_road_pressure = surface_figures(surface).rolling;
  if (tyres == Tyres::road_pressure) return at_road_pressure;
  if (is_sand(surface)) {
    return tyre_rolling() + more_let_down + ground_let_down * (at_road_pressure - tyre_rolling());
  }
  const bool let_down = tyres == Tyres::lowered && is_hard(surface);
  return at_road_pressure + (let_down ? more_let_down : 0);
}

}  // namespace drystage::engine
