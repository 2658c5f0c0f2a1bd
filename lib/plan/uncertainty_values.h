#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "plan/uncertainty.h"

namespace drystage::plan {

/// The amount of a key of `uncertainty`, in the unit of its kind.
struct UncertaintyValue {
  std::string_view path;
  std::optional<double> (*of)(const Uncertainty&);  ///< nothing: it depends on the thing
};

/// One row for each key of `uncertainty` that has an amount.
inline constexpr auto uncertainty_values = std::to_array<UncertaintyValue>({
    {"uncertainty.heat.year", [](const Uncertainty& u) { return std::optional(u.heat.year_k); }},
    {"uncertainty.heat.persistence",
     [](const Uncertainty& u) { return std::optional(u.heat.persistence); }},
    {"uncertainty.sun.day", [](const Uncertainty& u) { return u.sun.day; }},
    {"uncertainty.sun.persistence",
     [](const Uncertainty& u) { return std::optional(u.sun.persistence); }},
    {"uncertainty.sun.with_heat",
     [](const Uncertainty& u) { return std::optional(u.sun.with_heat); }},
    {"uncertainty.drinking.person", [](const Uncertainty& u) { return u.drinking.person; }},
    {"uncertainty.drinking.day",
     [](const Uncertainty& u) { return std::optional(u.drinking.day); }},
    {"uncertainty.work.trip", [](const Uncertainty& u) { return std::optional(u.work_trip); }},
    {"uncertainty.utility.trip",
     [](const Uncertainty& u) { return std::optional(u.utility_trip); }},
    {"uncertainty.meals.trip", [](const Uncertainty& u) { return std::optional(u.meals_trip); }},
    {"uncertainty.consumables.trip",
     [](const Uncertainty& u) { return std::optional(u.consumables_trip); }},
    {"uncertainty.fuel.trip", [](const Uncertainty& u) { return u.fuel.trip; }},
    {"uncertainty.fuel.leg", [](const Uncertainty& u) { return std::optional(u.fuel.leg); }},
    {"uncertainty.distance.usual",
     [](const Uncertainty& u) { return std::optional(u.distance.usual); }},
    {"uncertainty.distance.high",
     [](const Uncertainty& u) { return std::optional(u.distance.high); }},
    {"uncertainty.headwind.leg",
     [](const Uncertainty& u) { return std::optional(u.headwind_leg_m_s); }},
    {"uncertainty.loads.trip", [](const Uncertainty& u) { return std::optional(u.loads_trip); }},
    {"uncertainty.cabinets.usual",
     [](const Uncertainty& u) { return std::optional(u.cabinets.usual); }},
    {"uncertainty.cabinets.trip",
     [](const Uncertainty& u) { return std::optional(u.cabinets.trip); }},
    {"uncertainty.lids.trip", [](const Uncertainty& u) { return std::optional(u.lids_trip); }},
    {"uncertainty.panels.usual",
     [](const Uncertainty& u) { return std::optional(u.panels.usual); }},
    {"uncertainty.panels.trip", [](const Uncertainty& u) { return std::optional(u.panels.trip); }},
    {"uncertainty.batteries.usual",
     [](const Uncertainty& u) { return std::optional(u.batteries.usual); }},
    {"uncertainty.batteries.trip",
     [](const Uncertainty& u) { return std::optional(u.batteries.trip); }},
    {"uncertainty.fills.vessel",
     [](const Uncertainty& u) { return std::optional(u.fills_vessel); }},
    {"uncertainty.spoilage.trip",
     [](const Uncertainty& u) { return std::optional(u.spoilage_trip); }},
    {"uncertainty.delays.day", [](const Uncertainty& u) { return std::optional(u.delays.day); }},
    {"uncertainty.delays.soft_leg",
     [](const Uncertainty& u) { return std::optional(u.delays.soft_leg); }},
    {"uncertainty.delays.length",
     [](const Uncertainty& u) { return std::optional(u.delays.length_h); }},
    {"uncertainty.supplies.confirmed",
     [](const Uncertainty& u) { return std::optional(u.supplies.confirmed); }},
    {"uncertainty.supplies.unconfirmed",
     [](const Uncertainty& u) { return std::optional(u.supplies.unconfirmed); }},
    {"uncertainty.containers.day",
     [](const Uncertainty& u) { return std::optional(u.containers_day); }},
    {"uncertainty.compressors.day",
     [](const Uncertainty& u) { return std::optional(u.compressors_day); }},
    {"uncertainty.chargers.day",
     [](const Uncertainty& u) { return std::optional(u.chargers_day); }},
    {"uncertainty.punctures.usual",
     [](const Uncertainty& u) { return std::optional(u.punctures); }},
    {"uncertainty.illness.day", [](const Uncertainty& u) { return std::optional(u.illness_day); }},
});

}  // namespace drystage::plan
