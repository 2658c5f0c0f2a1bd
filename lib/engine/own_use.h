#pragma once

#include <array>
#include <optional>

#include "models/road_load.h"
#include "plan/vehicle.h"

namespace drystage::engine {

/// What a vehicle's own figures say of the model. Nothing in it depends on the order in which they
/// are written.
struct RoadModel {
  models::Drivetrain train;
  /// Rolling coefficients by surface, with tyres as usual.
  std::array<double, plan::surface_count> rolling{};
  /// The surface whose figure set the efficiency; the model gives that figure there.
  std::optional<plan::Surface> set_by{};
};

/// The model of a vehicle.
///
/// Efficiency: from the hardest ground, sealed to gravel, that has a figure with a speed and a
/// mass. Where no figure has both, the one of the hardest ground, at the usual speed and at the
/// mass with gear but without people, fuel and water, may lower it, and never raises it.
/// Else the vehicle's stated one, else the usual one for its fuel. Never above 0.40, or what the
/// figure asks for by itself: then less idling is taken.
///
/// Rolling: an observation on soft ground tells how many times the usual the ground takes there. A
/// neighbour on soft ground that has no figure takes as many times its own, the logarithm of that
/// factor in proportion to the logarithm of what the ground usually takes; it is 1 on gravel, and
/// beyond the softest observed it stays. A figure without speed or mass raises what softer ground
/// takes and never lowers it. Last, each surface without a figure is held between those with one
/// that are harder and softer, so that softer ground never takes less; soft ground never lowers
/// hard ground.
RoadModel road_model(const plan::Vehicle& vehicle);

/// The figure for a surface that stands as it is, if there is one: not the one that set the
/// efficiency.
const plan::ObservedUse* standing_figure(const plan::Vehicle& vehicle, const RoadModel& model,
                                         plan::Surface surface);

/// The road of an observation, in the air that observations are taken to be made in (20 °C at 500
/// m, ours), at its speed or the usual one.
models::Stretch stretch_of(const plan::Vehicle& vehicle, const plan::ObservedUse& use);

/// What the vehicle weighed when it was observed, kg, with what it towed: as said, else with gear
/// but without people, fuel and water (less than the truth, so that more is asked for).
double observed_kg(const plan::Vehicle& vehicle, const plan::ObservedUse& use);

/// Work at the wheels over the heat of all the fuel, idling included, that an observation means.
double implied_efficiency(const plan::Vehicle& vehicle, const plan::ObservedUse& use);

}  // namespace drystage::engine
