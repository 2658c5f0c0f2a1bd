#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/margin.h"
#include "plan/mark.h"
#include "units/kind.h"

namespace drystage::plan {

/// What one part of a consumable is in: a bottle, a can, a box.
struct ConsumableStore {
  std::string name;
  double holds = 0;   ///< in the consumable's unit
  double filled = 0;  ///< the same
  double empty_kg = 0;
  int vehicle = 0;
  Mark mark{};
};

/// What uses it up, each in the consumable's unit. They add up.
struct ConsumableUse {
  double per_person_day = 0;
  double per_meal = 0;  ///< of one person
  double per_day = 0;
  double per_km = 0;
  double per_engine_h = 0;  ///< while driving
};

/// Whatever else can run out: cooking gas, engine oil, medicine. Nothing else depends on it, and it
/// depends on nothing but time, meals and the road.
struct Consumable {
  std::string name;
  std::optional<units::Kind> kind{};  ///< mass or volume; none: it is counted
  std::string unit;                   ///< kg, L, or of what is counted a word: "doses"
  double unit_kg = 0;                 ///< what one unit weighs
  bool life_supporting = false;
  std::vector<ConsumableStore> stores;  ///< in the order of use
  ConsumableUse use;
  Margin margin;
  Mark mark{};
};

/// A store of one of the plan's consumables.
struct ConsumableStoreReference {
  int consumable = 0;  ///< index into Plan::consumables
  int store = 0;       ///< index into its stores
  bool operator==(const ConsumableStoreReference&) const = default;
};

}  // namespace drystage::plan
