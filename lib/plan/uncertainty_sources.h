#pragma once

#include <array>
#include <string_view>

namespace drystage::plan {

/// Where the default of a key of `uncertainty` is from.
struct UncertaintySource {
  std::string_view path;    ///< of the key: "uncertainty.heat.year"
  std::string_view source;  ///< what was read or measured; or that it is common practice, or ours
};

/// One row for each key of `uncertainty` that has an amount, in the order of their declarations.
inline constexpr auto uncertainty_sources = std::to_array<UncertaintySource>({
    {"uncertainty.heat.year",
     "year to year, a month's mean differs by 1 to 1.5 K (memory of climate summaries)"},
    {"uncertainty.heat.persistence",
     "0.57 to 0.87 by month at a desert station (NREL TMY3 722780, measured here)"},
    {"uncertainty.sun.day",
     "Bendt, Collares-Pereira and Rabl (1981); 0.09 to 0.27 by month at the same station"},
    {"uncertainty.sun.persistence",
     "-0.04 to 0.57 by month at the same station, 0.35 in the middle"},
    {"uncertainty.sun.with_heat", "-0.46 to 0.64 by month at the same station, 0.3 in the middle"},
    {"uncertainty.drinking.person",
     "Pahnke, Trinity and Coyle (2006); docs/models.md, \"Before anything was read\""},
    {"uncertainty.drinking.day", "Smith, Bello and Price (2021): some 0.15 L/h in like weather"},
    {"uncertainty.work.trip", "common practice"},
    {"uncertainty.utility.trip", "common practice"},
    {"uncertainty.meals.trip", "common practice"},
    {"uncertainty.consumables.trip", "common practice"},
    {"uncertainty.fuel.trip",
     "common practice: within about a third; docs/models.md, \"Before anything was read\""},
    {"uncertainty.fuel.leg",
     "fills of one car differ by 8 % (a published log), less what is due to filling"},
    {"uncertainty.distance.usual", "common practice: 0 to 15 %"},
    {"uncertainty.distance.high", "common practice: 0 to 15 %"},
    {"uncertainty.headwind.leg", "common practice: a wind of 4 to 5 m/s from any side"},
    {"uncertainty.loads.trip", "common practice"},
    {"uncertainty.cabinets.usual",
     "common practice: 1.0 to 1.6 times, with warm goods, dust and poor air"},
    {"uncertainty.cabinets.trip",
     "common practice: 1.0 to 1.6 times, with warm goods, dust and poor air"},
    {"uncertainty.lids.trip", "common practice"},
    {"uncertainty.panels.usual", "common practice"},
    {"uncertainty.panels.trip", "common practice"},
    {"uncertainty.batteries.usual", "common practice: 0.7 to 1.0"},
    {"uncertainty.batteries.trip", "common practice: 0.7 to 1.0"},
    {"uncertainty.fills.vessel", "common practice: 2 to 3 %"},
    {"uncertainty.spoilage.trip", "common practice"},
    {"uncertainty.delays.day", "common practice"},
    {"uncertainty.delays.soft_leg", "common practice"},
    {"uncertainty.delays.length", "common practice"},
    {"uncertainty.supplies.confirmed", "common practice"},
    {"uncertainty.supplies.unconfirmed", "common practice"},
    {"uncertainty.containers.day", "ours"},
    {"uncertainty.compressors.day", "common practice: a failure in some years of use"},
    {"uncertainty.chargers.day", "common practice: a failure in some years of use"},
    {"uncertainty.punctures.usual", "docs/models.md, \"Punctures\""},
    {"uncertainty.illness.day", "common practice"},
});

}  // namespace drystage::plan
