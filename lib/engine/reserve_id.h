#pragma once

#include <string_view>

namespace drystage::engine {

/// The families of what can run out.
enum class Family {
  drinking_water,
  utility_water,
  fuel,  ///< of each vehicle
  food,
  cold,        ///< in each cabinet
  battery,     ///< the charge of each bank
  consumable,  ///< each of the plan's
  tyres,       ///< spare wheels and repairs of each vehicle
  other        ///< whatever a family of its own brings
};

/// One reserve among all of a plan.
struct ReserveId {
  Family family = Family::other;
  int of = -1;  ///< which of the plan's vehicles, cabinets, banks or consumables; -1 where there is
                ///< one alone
  bool operator==(const ReserveId&) const = default;
};

/// As in JSON and in `margins:`: "drinking_water", "fuel". Of `other` each has its own.
std::string_view family_name(Family family);

}  // namespace drystage::engine
