#include "models/road_load.h"

#include <algorithm>

namespace drystage::models {
namespace {

constexpr double m_per_km = 1000;
constexpr double j_per_mj = 1e6;
constexpr double km_h_per_m_s = 3.6;

/// Litres of fuel per joule at the wheels.
double litres_per_j(const Drivetrain& d) { return 1 / (d.efficiency * d.heating_mj_l * j_per_mj); }

/// Idling, L/km.
double idle_l_km(const Stretch& s, const Drivetrain& d) {
  return d.idle_l_h / (s.speed_m_s * km_h_per_m_s);
}

/// Adds hills to a demand that is right on the level.
void add_grade(FuelDemand& demand, const Stretch& s, const Drivetrain& d, double distance_km,
               const Hills& hills) {
  const double l_j = litres_per_j(d);
  demand.per_kg_l += gravity_m_s2 * hills.climb_m * l_j;
  if (hills.descent_m <= 0) return;
  const double down_m = hills.descent_m / fitting_steepness(hills, distance_km);
  demand.descent_per_kg_l = gravity_m_s2 * hills.descent_m * l_j;
  demand.coast_fixed_l = drag_n(s) * down_m * l_j;
  demand.coast_per_kg_l = s.rolling * gravity_m_s2 * down_m * l_j;
}

}  // namespace

double drag_n(const Stretch& s) {
  const double air_m_s = s.speed_m_s + s.headwind_m_s;
  return 0.5 * s.air_density_kg_m3 * s.drag_area_m2 * air_m_s * air_m_s;
}

double resistance_n(const Stretch& s, double mass_kg) {
  return s.rolling * mass_kg * gravity_m_s2 + drag_n(s);
}

double fitting_steepness(const Hills& hills, double distance_km) {
  return std::max(hills.steepness, (hills.climb_m + hills.descent_m) / (distance_km * m_per_km));
}

double litres(const FuelDemand& d, double mass_kg) {
  const double back =
      std::min(d.descent_per_kg_l * mass_kg, d.coast_fixed_l + d.coast_per_kg_l * mass_kg);
  return std::max(0.0, d.fixed_l + d.per_kg_l * mass_kg - back);
}

FuelDemand operator+(const FuelDemand& a, const FuelDemand& b) {
  return {.fixed_l = a.fixed_l + b.fixed_l,
          .per_kg_l = a.per_kg_l + b.per_kg_l,
          .descent_per_kg_l = a.descent_per_kg_l + b.descent_per_kg_l,
          .coast_fixed_l = a.coast_fixed_l + b.coast_fixed_l,
          .coast_per_kg_l = a.coast_per_kg_l + b.coast_per_kg_l};
}

FuelDemand operator*(const FuelDemand& d, double share) {
  return {.fixed_l = d.fixed_l * share,
          .per_kg_l = d.per_kg_l * share,
          .descent_per_kg_l = d.descent_per_kg_l * share,
          .coast_fixed_l = d.coast_fixed_l * share,
          .coast_per_kg_l = d.coast_per_kg_l * share};
}

FuelDemand fuel_demand(const Stretch& s, const Drivetrain& d, double distance_km,
                       const Hills& hills) {
  const double l_j = litres_per_j(d);
  const double distance_m = distance_km * m_per_km;
  FuelDemand demand;
  demand.fixed_l = drag_n(s) * distance_m * l_j + idle_l_km(s, d) * distance_km;
  demand.per_kg_l = s.rolling * gravity_m_s2 * distance_m * l_j;
  add_grade(demand, s, d, distance_km, hills);
  return demand;
}

FuelDemand observed_demand(const Stretch& s, const Drivetrain& d, const OwnUse& own,
                           double distance_km, const Hills& hills) {
  const double l_n = distance_km * m_per_km * litres_per_j(d);
  FuelDemand demand;
  demand.fixed_l = own.uses_l_km * distance_km + own.more_n * l_n;
  demand.per_kg_l = own.more_rolling * gravity_m_s2 * l_n;
  if (own.mass_kg > 0) {
    const double by_mass_l = s.rolling * gravity_m_s2 * l_n;
    demand.per_kg_l += by_mass_l;
    demand.fixed_l -= by_mass_l * own.mass_kg;
  }
  add_grade(demand, s, d, distance_km, hills);
  return demand;
}

double calibrated_efficiency(const Stretch& s, const Drivetrain& d, double observed_l_km,
                             double mass_kg) {
  const double work_l_km = observed_l_km - idle_l_km(s, d);
  if (work_l_km <= 0) return 0;
  return resistance_n(s, mass_kg) * m_per_km / (work_l_km * d.heating_mj_l * j_per_mj);
}

double calibrated_rolling(const Stretch& s, const Drivetrain& d, double observed_l_km,
                          double mass_kg) {
  const double work_l_km = observed_l_km - idle_l_km(s, d);
  const double held_n = work_l_km * d.efficiency * d.heating_mj_l * j_per_mj / m_per_km;
  return (held_n - drag_n(s)) / (mass_kg * gravity_m_s2);
}

}  // namespace drystage::models
