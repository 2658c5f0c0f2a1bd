#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/gauge.h"
#include "plan/mark.h"

namespace drystage::plan {

enum class FuelKind { diesel, petrol };

/// What the wheels roll on, from the rolling-resistance tables of docs/models.md.
enum class Surface {
  sealed,
  worn_sealed,
  packed_gravel,
  gravel,
  loose_gravel,
  track,
  sand,
  soft_sand
};
inline constexpr int surface_count = 8;

/// A fuel tank or can. The unusable remainder stays in it for ever.
struct Tank {
  std::string name;
  double holds_l = 0;
  double filled_l = 0;
  double unusable_l = 0;
  double empty_kg = 0;  ///< a can's own mass; a fitted tank's is part of the vehicle
  std::optional<double> position_m{};
  Gauge gauge{};
  bool lost = false;  ///< broken, with nothing in it: said by answers alone
  Mark mark{};
};

/// Consumption the user measured. The first one with a speed and a mass calibrates the model, which
/// then gives that figure at that speed and mass; any other is used on its surface as it stands.
struct ObservedUse {
  Surface surface = Surface::sealed;
  double uses_l_km = 0;
  std::optional<double> speed_km_h;
  std::optional<double> mass_kg;
  Mark mark{};
};

struct Vehicle {
  std::string name;
  FuelKind fuel = FuelKind::diesel;
  double empty_kg = 0;             ///< on the road, without people, fuel, water and food
  double gear_kg = 0;              ///< everything else that is loaded and does not change
  std::optional<double> limit_kg;  ///< legal or rated loaded mass
  std::vector<Tank> tanks;         ///< in order of use
  double drag_area_m2 = 1.4;       ///< Cd times frontal area
  double engine_efficiency = 0;    ///< 0: the usual one for the fuel (docs/models.md)
  double idle_l_h = 0;             ///< use per engine-hour on top of the work at the wheels
  std::vector<ObservedUse> observed;
  bool lost = false;  ///< left behind: said by answers alone
  Mark mark{};
};

}  // namespace drystage::plan
