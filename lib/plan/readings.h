#pragma once

#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "plan/mark.h"
#include "plan/mishaps.h"

namespace drystage::plan {

/// An evening's reading counts from this clock hour, or from when the day's drive is over if that
/// is later: people read their tanks in camp. Common practice.
inline constexpr double evening_h = 20;

/// What its reader says of a reading that says no more than when it was.
inline constexpr std::string_view nothing_found = "a reading in which nothing is found";

/// Where the party was: at a place of the plan, or under way to it.
struct Whereabouts {
  int place = 0;                     ///< index into Plan::places
  std::optional<double> after_km{};  ///< driven so far of the drive that ends there; none: at it
  bool operator==(const Whereabouts&) const = default;
};

/// What a vessel was found to hold: an amount, or how far a dipstick was wet.
struct Found {
  double amount = 0;                ///< L, or the unit of a consumable
  std::optional<double> depth_m{};  ///< then the amount is not said
  bool operator==(const Found&) const = default;
};

struct FuelFound {
  int vehicle = 0;
  double usable_l = 0;  ///< in all its tanks and cans, without what cannot be used
  bool operator==(const FuelFound&) const = default;
};
struct ContainerFound {
  int container = 0;
  Found found{};
  bool operator==(const ContainerFound&) const = default;
};
struct TankFound {
  TankReference tank{};
  Found found{};  ///< with what cannot be used
  bool operator==(const TankFound&) const = default;
};
struct ConsumableFound {
  int consumable = 0;
  double amount = 0;
  bool operator==(const ConsumableFound&) const = default;
};
/// What is left against punctures: one of the two at the least.
struct TyresFound {
  int vehicle = 0;
  std::optional<int> spare_wheels{};  ///< that can be driven on
  std::optional<int> repairs{};
  bool operator==(const TyresFound&) const = default;
};
/// One of the three is given.
struct BankFound {
  int bank = 0;
  std::optional<double> share{};      ///< of its rated capacity, 0..1
  std::optional<double> charge_ah{};  ///< left in it
  std::optional<double> resting_v{};  ///< lead-acid, at rest for some hours
  bool operator==(const BankFound&) const = default;
};
struct CabinetFound {
  int cabinet = 0;
  double chilled_c = 0;  ///< of two parts the one that is not frozen
  bool operator==(const CabinetFound&) const = default;
};

/// What was found at one moment of the trip. Of what it does not name nothing is known: that goes
/// on as calculated.
struct Reading {
  int day = 0;                  ///< of the trip, from 0
  bool in_the_evening = false;  ///< then `hour` is `evening_h`
  double hour = evening_h;      ///< local clock, 0..24
  std::optional<Whereabouts> at{};
  std::optional<double> drinking_l{};  ///< in all drinking containers
  std::optional<double> utility_l{};
  std::optional<double> meals{};
  std::vector<FuelFound> fuel{};
  std::vector<ContainerFound> containers{};  ///< none that drinking_l or utility_l counts too
  std::vector<TankFound> tanks{};            ///< none of a vehicle that `fuel` has
  std::vector<ConsumableFound> consumables{};
  std::vector<BankFound> banks{};
  std::vector<CabinetFound> cabinets{};
  std::vector<TyresFound> tyres{};  ///< in the order of the vehicles
  Mark mark{};

  /// By which readings are in order. There are no two of one moment in a plan.
  [[nodiscard]] std::pair<int, double> moment() const { return {day, hour}; }
  bool operator==(const Reading&) const = default;
};

}  // namespace drystage::plan
