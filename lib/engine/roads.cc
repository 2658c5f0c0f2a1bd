#include "engine/roads.h"

#include <algorithm>
#include <array>

namespace drystage::engine {
namespace {

constexpr double km_h_per_m_s = 3.6;

// Work at the wheels over the heat of the fuel, over a day's mixed driving of a heavy light-duty
// vehicle (common practice; a user's own observation replaces it).
constexpr double diesel_efficiency = 0.25;
constexpr double petrol_efficiency = 0.21;

// Air in which an observation is taken to have been made: 20 °C at 500 m.
constexpr double observed_density_kg_m3 = 1.134;

/// The observation that sets the efficiency. One that idling alone would use up cannot.
const plan::ObservedUse* calibrating(const plan::Vehicle& vehicle) {
  const auto it = std::ranges::find_if(vehicle.observed, [&](const plan::ObservedUse& use) {
    return use.speed_km_h && use.mass_kg && use.uses_l_km * *use.speed_km_h > vehicle.idle_l_h;
  });
  return it == vehicle.observed.end() ? nullptr : &*it;
}

}  // namespace

SurfaceFigures surface_figures(plan::Surface surface) {
  static constexpr std::array<SurfaceFigures, plan::surface_count> figures{{
      {.rolling = 0.013, .speed_km_h = 85},  // sealed
      {.rolling = 0.02, .speed_km_h = 75},   // worn sealed
      {.rolling = 0.012, .speed_km_h = 70},  // packed gravel
      {.rolling = 0.025, .speed_km_h = 55},  // gravel
      {.rolling = 0.04, .speed_km_h = 45},   // loose gravel
      {.rolling = 0.05, .speed_km_h = 30},   // track
      {.rolling = 0.10, .speed_km_h = 25},   // sand
      {.rolling = 0.14, .speed_km_h = 20},   // soft sand
  }};
  return figures.at(static_cast<std::size_t>(surface));
}

double speed_km_h(const plan::SurfacePart& part, const plan::Driving& driving) {
  const auto own = driving.speed_km_h.at(static_cast<std::size_t>(part.surface));
  return part.speed_km_h.value_or(own.value_or(surface_figures(part.surface).speed_km_h));
}

models::Drivetrain drivetrain(const plan::Vehicle& vehicle) {
  const bool diesel = vehicle.fuel == plan::FuelKind::diesel;
  models::Drivetrain train{
      .heating_mj_l = diesel ? models::diesel_mj_l : models::petrol_mj_l,
      .efficiency = vehicle.engine_efficiency > 0 ? vehicle.engine_efficiency
                    : diesel                      ? diesel_efficiency
                                                  : petrol_efficiency,
      .idle_l_h = vehicle.idle_l_h,
  };
  if (const plan::ObservedUse* use = calibrating(vehicle)) {
    const models::Stretch stretch{.rolling = surface_figures(use->surface).rolling,
                                  .drag_area_m2 = vehicle.drag_area_m2,
                                  .air_density_kg_m3 = observed_density_kg_m3,
                                  .speed_m_s = *use->speed_km_h / km_h_per_m_s};
    const double efficiency =
        models::calibrated_efficiency(stretch, train, use->uses_l_km, *use->mass_kg);
    if (efficiency > 0) train.efficiency = efficiency;
  }
  return train;
}

models::FuelDemand fuel_demand(const plan::Vehicle& vehicle, const models::Drivetrain& train,
                               plan::Surface surface, double speed_km_h, double distance_km,
                               double climb_m, double descent_m, double air_density_kg_m3) {
  const models::Stretch stretch{.rolling = surface_figures(surface).rolling,
                                .drag_area_m2 = vehicle.drag_area_m2,
                                .air_density_kg_m3 = air_density_kg_m3,
                                .speed_m_s = speed_km_h / km_h_per_m_s};
  const plan::ObservedUse* base = calibrating(vehicle);
  const auto own = std::ranges::find_if(vehicle.observed, [&](const plan::ObservedUse& use) {
    return use.surface == surface && &use != base;
  });
  if (own != vehicle.observed.end()) {
    return models::observed_demand(stretch, train, own->uses_l_km, own->mass_kg.value_or(0),
                                   distance_km, climb_m, descent_m);
  }
  return models::fuel_demand(stretch, train, distance_km, climb_m, descent_m);
}

}  // namespace drystage::engine
