#pragma once

#include "plan/itinerary.h"
#include "plan/vehicle.h"

namespace drystage::engine {

/// What a surface is like to drive on.
struct SurfaceFigures {
  double rolling;     ///< rolling-resistance coefficient, with tyres at road pressure
  double speed_km_h;  ///< usual speed, where the plan gives none (common practice)
  /// Usual punctures of a vehicle of four wheels in 1000 km, where the plan gives none.
  double punctures_1000_km;
};

/// The figures for a surface. Rolling resistance is for all-terrain tyres and, where handbooks give
/// a range, on its upper side for hard ground:
/// - sealed 0.015: concrete (Gillespie, Fundamentals of Vehicle Dynamics, memory), and the upper
///   end of new asphalt (Engineering ToolBox 0.010-0.015); road tyres on asphalt 0.013 (Wong,
///   Theory of Ground Vehicles; Bosch Automotive Handbook; memory), all-terrain ones more (ours);
/// - worn sealed 0.020: worn asphalt (Carvill, Mechanical Engineer's Data Handbook);
/// - packed gravel 0.022: rolled gravel 0.020 (Wong and Bosch, memory; Engineering ToolBox), and as
///   much more for all-terrain tyres as on sealed road;
/// - gravel 0.028: between rolled 0.020 and loose 0.040 (their geometric mean);
/// - loose gravel 0.040: Carvill;
/// - track 0.050: unpaved road (Wong and Bosch, memory);
/// - rock 0.060: a rocky track, more than a smooth one (ours; no table that we know has it);
/// - sand 0.10, soft sand 0.16: sand 0.1 to 0.2 (Carvill), its lower end and above its middle. On
///   soft ground nothing beats an observation of one's own.
///
/// Punctures: common practice, from memory, and no more than an order of magnitude. On sealed road
/// one in some 50,000 km; on bad gravel and tracks one in one to three thousand; on sharp rock one
/// in some hundred; on sand, which is soft, few. Load, speed, age of the tyres and pressure change
/// them several times over: a figure of one's own beats them.
SurfaceFigures surface_figures(plan::Surface surface);

/// Speed on one part of a leg, km/h: the part's own, else the trip's for that surface, else the
/// usual one.
double speed_km_h(const plan::SurfacePart& part, const plan::Driving& driving);

/// Ground that the wheels do not sink into: sealed to gravel.
bool is_hard(plan::Surface surface);

/// What of `sealed` every surface has: the tyre's own loss. The rest is the ground's.
double tyre_rolling();

/// The coefficient with tyres as said. At road pressure it is that of surface_figures. With tyres
/// let down to about half of that:
/// - on hard ground the tyre takes 0.006 more: the difference between 2.5 and 1.25 bar at 70 km/h
///   in c = 0.005 + (0.01 + 0.0095 (v/100)^2) / p (Engineering ToolBox, rolling resistance);
/// - on sand the same, and what the ground takes is halved. By Bekker's pressure and sinkage it
///   goes with contact pressure^(1/n) over contact length: from 3.0 to 1.75 bar (the carcass bears
///   0.5) in dry sand, n = 1.1 (Wong, memory), it falls to 0.36; half is the cautious side (ours);
/// - on loose gravel and tracks one makes up for the other (ours).
/// Tyres as usual are let down on sand and nowhere else (common practice).
double rolling(plan::Surface surface, plan::Tyres tyres);

}  // namespace drystage::engine
