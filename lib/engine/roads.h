#pragma once

#include "models/road_load.h"
#include "plan/plan.h"

namespace drystage::engine {

/// What a surface is like to drive on.
struct SurfaceFigures {
  double rolling;     ///< rolling-resistance coefficient
  double speed_km_h;  ///< usual speed, where the plan gives none (common practice)
};

/// The figures for a surface. Rolling resistance: Carvill, Mechanical Engineer's Data Handbook
/// (asphalt new 0.01, worn 0.02; gravel rolled 0.01, loose 0.04; medium-hard soil 0.08; sand
/// 0.1-0.2) and Moyer, in Marks' Standard Handbook (packed gravel 0.012). A track is taken between
/// loose gravel and soil; sand at the lower end and soft sand at the lower middle, for tyres let
/// down, as is common practice there. Nothing beats an observation of one's own on soft ground.
SurfaceFigures surface_figures(plan::Surface surface);

/// Speed on one part of a leg, km/h: the part's own, else the trip's for that surface, else the
/// usual one.
double speed_km_h(const plan::SurfacePart& part, const plan::Driving& driving);

/// How this vehicle turns fuel into work: calibrated by its first observation that has a speed and
/// a mass, else by its stated efficiency, else by the usual one for its fuel.
models::Drivetrain drivetrain(const plan::Vehicle& vehicle);

/// Fuel for `distance_km` of one surface at a speed, with climb and descent in it, in air of a
/// density: the user's own figure for the surface where there is one, else the model.
models::FuelDemand fuel_demand(const plan::Vehicle& vehicle, const models::Drivetrain& drivetrain,
                               plan::Surface surface, double speed_km_h, double distance_km,
                               double climb_m, double descent_m, double air_density_kg_m3);

}  // namespace drystage::engine
