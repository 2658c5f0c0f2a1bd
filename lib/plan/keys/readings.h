#pragma once

#include "plan/keys/declaration.h"
#include "plan/keys/stores.h"

namespace drystage::plan::keys {

inline constexpr Range found_volume{Kind::volume, "L", 0.1, 2000, 0, 100'000, or_zero};
inline constexpr Range day_of_trip{{}, "", 1, 3660, 1, 3660};
/// In one vessel: an amount, or how far a dipstick was wet.
inline constexpr Value found_in_vessel =
    amount(found_volume, {Kind::length, "cm", 0.5, 250, 0, 1000, or_zero});

/// What is found on the way.
inline constexpr auto readings = std::to_array<Declaration>({
    {"readings.evening", amount(day_of_trip), "or `day`, `hour`",
     "in the evening of this day of the trip, counted from 1", "6"},
    {"readings.day", amount(day_of_trip), "or `evening`",
     "on this day of the trip, counted from 1; with `hour`", "6"},
    {"readings.hour", a(Sort::clock), "or `evening`", "at this time of that day", "\"15:30\""},
    {"readings.at", name_of("place"), "as calculated", "where you were"},
    {"readings.towards", name_of("place"), "as calculated",
     "where the drive ends that you were on; with `after`", "the name of a place"},
    {"readings.after", amount({Kind::distance, "km", 0.5, 3000, 0, 20'000, or_zero}),
     "as calculated", "driven so far of that drive"},
    {"readings.drinking", amount(found_volume), "as calculated",
     "in all drinking containers together"},
    {"readings.utility", amount(found_volume), "as calculated",
     "in all utility containers together"},
    {"readings.fuel", many(Many::one_or_by_name, amount(found_volume)), "as calculated",
     "in all tanks and cans, without what cannot be used; of several vehicles by name"},
    {"readings.containers", by_name(found_in_vessel), "as calculated",
     "in a water container, or how deep", "{NAME: 12 L}"},
    {"readings.tanks", by_name(found_in_vessel), "as calculated",
     "in a tank or can, with what cannot be used, or how deep", "{NAME: 23 cm}"},
    {"readings.batteries",
     by_name(amount(share, {Kind::charge, "Ah", 0.5, 1500, 0, 100'000, or_zero},
                    {Kind::voltage, "V", 5.5, 70, 1, 1000})),
     "as calculated", "share of its rated capacity, charge left, or lead-acid volts at rest",
     "{NAME: 80 %}"},
    {"readings.cabinets", by_name(amount({Kind::temperature, "°C", -30, 45, -60, 60})),
     "as calculated", "inside, of two parts in the one that is not frozen", "{NAME: 4 °C}"},
    {"readings.meals", amount({{}, "meals", 0.5, 10'000, 0, 1'000'000, or_zero}), "as calculated",
     "how many meals for one person are left"},
    {"readings.spare_wheels", many(Many::one_or_by_name, amount({{}, "", 1, 6, 0, 60, or_zero})),
     "as calculated", "that can still be driven on; of several vehicles by name", "1"},
    {"readings.repairs", many(Many::one_or_by_name, amount({{}, "", 1, 20, 0, 200, or_zero})),
     "as calculated", "holes that can still be mended; of several vehicles by name", "4"},
    {"readings.consumables", by_name(consumable_amount), "as calculated",
     "of each, in all its stores together; of what fills, the room left", "{NAME: 5 kg}"},
});

}  // namespace drystage::plan::keys
