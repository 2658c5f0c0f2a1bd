#pragma once

#include <optional>
#include <string>

#include "plan/loading.h"
#include "plan/mark.h"

namespace drystage::plan {

enum class Kept { frozen, chilled, dry };

/// What it is, as far as it decides how long it keeps in the cold (models/shelf_life.h).
enum class FoodKind {
  raw_mince,
  poultry,
  fish,
  raw_meat,
  cooked,
  bacon,
  dairy,
  eggs,
  hard_cheese,
  vegetables,
  vacuum_packed,
};

/// Shelf life at a stated temperature. For frozen goods it counts from the thaw.
struct Keeps {
  double life_days = 0;
  double at_c = 0;
};

/// Share of water in food that is kept so, where the plan does not say it.
double usual_water(Kept kept);

struct FoodItem {
  std::string name;
  Kept kept = Kept::dry;
  int cabinet = -1;  ///< index into Plan::cold; -1: not in one (dry)
  double mass_kg = 0;
  double meals = 0;  ///< 0 when `energy_kj_kg` gives it
  std::optional<double> energy_kj_kg{};
  double water_fraction = 0;
  double starts_at_c = 0;  ///< frozen goods only
  double freezing_c = 0;
  std::optional<double> bought_at_c{};  ///< chilled goods at a resupply; none: as warm as the air
  std::optional<FoodKind> kind{};
  std::optional<Keeps> keeps{};
  bool potentially_hazardous = true;  ///< the 2-hour/4-hour clock applies above 5 °C
  int vehicle = 0;
  Spot spot{};  ///< of what is in no cabinet
  Mark mark{};
};

}  // namespace drystage::plan
