#pragma once

namespace drystage::models {

inline constexpr double gravity_m_s2 = 9.80665;  ///< standard gravity (ISO 80000-3)

/// Lower heating values, US DOE Alternative Fuels Data Center: diesel 128 488 Btu/US gal; petrol
/// the lower end of 112 114-116 090 Btu/US gal, so that need is not understated.
inline constexpr double diesel_mj_l = 35.8;
inline constexpr double petrol_mj_l = 31.2;

/// How steep hills are where nobody says it. Hills of 5 % on average, evenly spread from flat to 10
/// %, give back on the way down as much as even ones of 6 %: what is steeper goes into the brakes
/// (ours; the sum is in the test). For comparison, the steepest that AASHTO's Green Book has for
/// rolling country at 80 km/h: 5 % on main rural roads, 7 % on lesser ones (memory).
inline constexpr double usual_steepness = 0.06;

/// What holds a vehicle back on a level stretch. `rolling` is the rolling-resistance coefficient,
/// `drag_area_m2` the drag coefficient times frontal area. The wind blows against the vehicle.
struct Stretch {
  double rolling = 0.015;
  double drag_area_m2 = 1.6;
  double air_density_kg_m3 = 1.225;
  double speed_m_s = 20;
  double headwind_m_s = 0;  ///< >= 0
};

/// Air drag, N: rho CdA (v + headwind)^2 / 2.
double drag_n(const Stretch& stretch);

/// Resistance on the level, N: m g Crr + drag. mass_kg >= 0.
double resistance_n(const Stretch& stretch, double mass_kg);

/// Ups and downs of a piece of road: all the metres up and all the metres down, both >= 0, and how
/// steep they are (> 0; 0.06 is 6 %).
struct Hills {
  double climb_m = 0;
  double descent_m = 0;
  double steepness = usual_steepness;
};

/// How steep the hills must be: as said, or steeper where they would not fit into `distance_km` >
/// 0.
double fitting_steepness(const Hills& hills, double distance_km);

/// Fuel for a piece of road as a function of the vehicle's mass at the time:
///   litres(m) = fixed + per_kg m - min(descent_per_kg m, coast_fixed + coast_per_kg m)
/// The last term is what descents give back: never more than what rolling and air drag would have
/// asked for on the way down, since the rest goes into the brakes.
struct FuelDemand {
  double fixed_l = 0;
  double per_kg_l = 0;
  double descent_per_kg_l = 0;
  double coast_fixed_l = 0;
  double coast_per_kg_l = 0;
};

/// Litres at `mass_kg` >= 0; never below 0.
double litres(const FuelDemand& demand, double mass_kg);

/// Two pieces of road one after the other. (The descent limit is taken over the sum.)
FuelDemand operator+(const FuelDemand& a, const FuelDemand& b);
FuelDemand operator*(const FuelDemand& demand, double share);

/// How a vehicle turns fuel into work at the wheels.
struct Drivetrain {
  double heating_mj_l = diesel_mj_l;
  double efficiency = 0.24;  ///< work at the wheels over heat of the fuel, 0..1
  double idle_l_h = 0;       ///< use per engine-hour on top of that
};

/// Demand of `distance_km` > 0 over a stretch with hills in it. Work at the wheels = resistance x
/// distance + m g climb - what the descents give back. They give it back on the distance that they
/// take, descent / steepness.
FuelDemand fuel_demand(const Stretch& stretch, const Drivetrain& drivetrain, double distance_km,
                       const Hills& hills);

/// What the user measured on the level, and what is unlike it now.
struct OwnUse {
  double uses_l_km = 0;
  double mass_kg = 0;       ///< at which it was measured; 0: not known
  double more_n = 0;        ///< resistance that was not there: of a headwind, of a trailer
  double more_rolling = 0;  ///< the same as a coefficient: of tyres at another pressure
};

/// The same where the user's own consumption on the level, L/km, replaces the model. It has idling
/// in it. With a mass it changes with mass by the rolling term; without, it is used as it stands.
FuelDemand observed_demand(const Stretch& stretch, const Drivetrain& drivetrain, const OwnUse& own,
                           double distance_km, const Hills& hills);

/// The efficiency at which the model gives `observed_l_km` on this stretch at `mass_kg`. Returns 0
/// when idling alone would use more than was observed.
double calibrated_efficiency(const Stretch& stretch, const Drivetrain& drivetrain,
                             double observed_l_km, double mass_kg);

/// The rolling coefficient at which the model gives `observed_l_km` on this stretch at `mass_kg` >
/// 0; what the stretch says of rolling is not asked. Below 0 where idling and drag alone would use
/// more.
double calibrated_rolling(const Stretch& stretch, const Drivetrain& drivetrain,
                          double observed_l_km, double mass_kg);

}  // namespace drystage::models
