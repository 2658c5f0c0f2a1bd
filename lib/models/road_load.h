#pragma once

namespace drystage::models {

inline constexpr double gravity_m_s2 = 9.80665;  ///< standard gravity (ISO 80000-3)

/// Lower heating values, US DOE Alternative Fuels Data Center: diesel 128 488 Btu/US gal; petrol
/// the lower end of 112 114-116 090 Btu/US gal, so that need is not understated.
inline constexpr double diesel_mj_l = 35.8;
inline constexpr double petrol_mj_l = 31.2;

/// Densities for the mass of fuel carried, kg/L (common practice: middle of the EN 590 and EN 228
/// ranges).
inline constexpr double diesel_kg_l = 0.835;
inline constexpr double petrol_kg_l = 0.745;

/// What holds a vehicle back on a level stretch. `rolling` is the rolling-resistance coefficient
/// (Carvill, Mechanical Engineer's Data Handbook; Moyer, in Marks' Standard Handbook for Mechanical
/// Engineers), `drag_area_m2` the drag coefficient times frontal area.
struct Stretch {
  double rolling = 0.015;
  double drag_area_m2 = 1.4;
  double air_density_kg_m3 = 1.225;
  double speed_m_s = 20;
};

/// Resistance on the level, N: m g Crr + rho CdA v^2 / 2. mass_kg >= 0.
double resistance_n(const Stretch& stretch, double mass_kg);

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
  double efficiency = 0.28;  ///< work at the wheels over heat of the fuel, 0..1
  double idle_l_h = 0;       ///< use per engine-hour on top of that
};

/// Demand of `distance_km` over a stretch, with `climb_m` up and `descent_m` down in it (both >=
/// 0). Work at the wheels = resistance x distance + m g climb - what the descents give back.
FuelDemand fuel_demand(const Stretch& stretch, const Drivetrain& drivetrain, double distance_km,
                       double climb_m, double descent_m);

/// The same where the user's own consumption on the level, L/km, replaces the model. With
/// `observed_mass_kg` > 0 it changes with mass by the rolling term; with 0 it is used as it stands.
FuelDemand observed_demand(const Stretch& stretch, const Drivetrain& drivetrain,
                           double observed_l_km, double observed_mass_kg, double distance_km,
                           double climb_m, double descent_m);

/// The efficiency at which the model gives `observed_l_km` on this stretch at `mass_kg`. Returns 0
/// when idling alone would use more than was observed.
double calibrated_efficiency(const Stretch& stretch, const Drivetrain& drivetrain,
                             double observed_l_km, double mass_kg);

}  // namespace drystage::models
