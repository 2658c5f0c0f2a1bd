#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "plan/margin.h"
#include "plan/mark.h"
#include "plan/vehicle.h"
#include "units/kind.h"

namespace drystage::plan {

/// What one part of a consumable is in: a bottle, a can, a box.
struct ConsumableStore {
  std::string name;
  double holds = 0;   ///< in the consumable's unit
  double filled = 0;  ///< the same
  double empty_kg = 0;
  int vehicle = 0;
  Spot spot{};       ///< of what is in no cabinet
  int cabinet = -1;  ///< where it is kept cold; -1: it is as warm as the air
  Mark mark{};
};

/// So much at times of the day.
struct Doses {
  double amount = 0;           ///< each time
  std::vector<double> at_h{};  ///< local clock, in order
  int every_days = 1;          ///< on the first day of the trip, and every so many days

  [[nodiscard]] double per_day() const {
    return amount * static_cast<double>(at_h.size()) / every_days;
  }
};

/// What goes by the air outside: so much for a day on which it is one degree beyond a temperature.
struct DegreeUse {
  double base_c = 0;
  double per_degree_day = 0;
};

/// What uses it up, each in the consumable's unit. They add up.
struct ConsumableUse {
  double per_person_day = 0;
  double per_meal = 0;  ///< of one person
  double per_day = 0;
  std::array<double, surface_count> per_km{};  ///< by Surface
  double per_engine_h = 0;                     ///< while driving
  Doses doses{};
  DegreeUse in_cold{};  ///< below its temperature
  DegreeUse in_heat{};  ///< above its temperature

  [[nodiscard]] bool goes_by_the_day() const {
    return per_person_day + per_meal + per_day + doses.amount + in_cold.per_degree_day +
               in_heat.per_degree_day >
           0;
  }
  [[nodiscard]] bool goes_by_the_road() const {
    return per_engine_h > 0 || std::ranges::any_of(per_km, [](double one) { return one > 0; });
  }
};

/// How warm something may be, and for how long it may be warmer or colder before it is lost.
struct KeepingRange {
  std::optional<double> from_c{};
  double to_c = 0;
  double out_of_it_h = 0;               ///< in all
  std::optional<double> never_above_c;  ///< warmer than this it is lost at once
};

/// Whatever else can run out: cooking gas, engine oil, medicine. It depends on time, meals, the
/// road and the air, on the cabinet that keeps it cold, and on the generator that burns it.
struct Consumable {
  std::string name;
  std::optional<units::Kind> kind{};  ///< mass or volume; none: it is counted
  std::string unit;                   ///< kg, L, or of what is counted a word: "doses"
  double unit_kg = 0;                 ///< what one unit weighs
  bool life_supporting = false;
  bool fills = false;  ///< its stores fill with use: what counts is the room that is left
  std::optional<KeepingRange> keeps{};
  std::vector<ConsumableStore> stores;  ///< in the order of use
  ConsumableUse use;
  bool says_use = true;  ///< else a generator burns it
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
