#pragma once

#include "plan/keys/declaration.h"
#include "plan/keys/stores.h"
#include "plan/word_lists.h"

namespace drystage::plan::keys {

inline constexpr Range stuck_for{Kind::time_h, "days", 0.04, 30, 0.01, 30};
inline constexpr Range hotter{Kind::temperature_difference, "°C", 0.5, 15, 0.01, 20};
inline constexpr Range hot_days{Kind::time_h, "days", 1, 60, 1, 60};
constexpr Value offers(std::string_view path, std::string_view size) {
  return many(Many::list_by_name, short_map_of(path, size));
}

/// What may go wrong, and what may be loaded instead. How hard mishaps strike is ours
/// (docs/models.md).
inline constexpr auto answers = std::to_array<Declaration>({
    {"mishaps.stuck", map_of(), "as below", "nothing moves for some time", "{for: 3 days}"},
    {"mishaps.heat_wave", map_of(), "as below", "a hot and clear week",
     "{hotter: 6 °C, for: 5 days}"},
    {"mishaps.soft_going", map_of(), "as below", "unsealed parts take more fuel and time",
     "{more_fuel: 40 %, slower: 30 %}"},
    {"mishaps.shut", map_of(), "as below", "a leg is shut", "{found_after: 50 %}"},
    {"mishaps.battery", map_of(), "as below", "a bank has lost part of its capacity",
     "{left: 50 %}"},
    {"mishaps.leave_out", many(Many::one_or_list, word(texts_of<mishap_words>)), "none",
     "kinds that are not to be tried"},
    {"mishaps.own", list_of(map_of()), "none", "mishaps of your own"},
    {"mishaps.stuck.for", amount(stuck_for), "2 days", "how long nothing moves"},
    {"mishaps.heat_wave.hotter", amount(hotter), "1.5 × `spread` above the normals",
     "above the plan's weather"},
    {"mishaps.heat_wave.for", amount(hot_days), "7 days", "whole days"},
    {"mishaps.soft_going.more_fuel", amount({Kind::fraction, "%", 1, 200, 0, 300, or_zero}), "50 %",
     "fuel on top, on unsealed parts"},
    {"mishaps.soft_going.slower", amount({Kind::fraction, "%", 1, 90, 0, 90, or_zero}), "30 %",
     "speed lost there"},
    {"mishaps.shut.found_after", amount(share), "0 %",
     "share of a leg driven before it is found shut"},
    {"mishaps.battery.left", amount({Kind::fraction, "%", 5, 100, 0.1, 100}), "50 %",
     "share of a bank's capacity that is left"},
    {"mishaps.own.name", a(Sort::name), required, "its name, unique"},
    {"mishaps.own.loses", many(Many::one_or_list, name_of("container, tank or store")), "none",
     "water containers, tanks, cans and stores, with contents"},
    {"mishaps.own.stops", many(Many::one_or_list, name_of("cabinet")), "none",
     "cabinets whose compressor stops; not an ice box"},
    {"mishaps.own.without", many(Many::one_or_list, name_of("charger")), "none",
     "chargers that are gone"},
    {"mishaps.own.stuck", amount(stuck_for), "0 h", "how long nothing moves"},
    {"mishaps.own.hotter", amount(hotter), "0 °C", "above the plan's weather; with `for`"},
    {"mishaps.own.for", amount(hot_days), "none", "how many days, whole; with `hotter`", "5 days"},
    {"mishaps.own.people", amount({{}, "", 1, 8, 1, 20}), "0", "more to care for"},
    {"mishaps.own.on_day", amount({{}, "", 1, 3660, 1, 3660}), "any day",
     "it strikes on this day alone, counted from 1"},

    {"size.containers", map_of(), "as they are", "water containers",
     "{drinking: [20 L], utility: [20 L]}"},
    {"size.fuel_cans", offers("size.fuel_cans", "size.tanks.holds"), "as they are",
     "cans for fuel, by the vehicle's name", "{VEHICLE: [20 L, 10 L]}"},
    {"size.tanks", offers("size.tanks", "size.tanks.holds"), "as they are",
     "one water container or fuel tank in other sizes, by its name", "{NAME: [60 L, 80 L]}"},
    {"size.batteries", offers("size.batteries", "size.batteries.capacity"), "as they are",
     "a battery in other sizes, by its name", "{NAME: [75 Ah, 100 Ah]}"},
    {"size.panels", offers("size.panels", "size.panels.solar"), "as they are",
     "a solar panel in other sizes, by its name; `0 W` is none", "{NAME: [0 W, 100 W]}"},
    {"size.cabinets", offers("size.cabinets", "size.cabinets.volume"), "as they are",
     "a cabinet in other sizes, by its name", "{NAME: [35 L, 50 L]}"},
    {"size.food", by_name(short_map_of("size.food", "size.food.per_day")), "as it is",
     "dry food by the day, by an item's name", "{NAME: {per_day: 6 meals}}"},
    {"size.consumables", offers("size.consumables", "size.consumables.holds"), "as they are",
     "stores of a consumable, by its name", "{NAME: [2 kg, 5 kg]}"},
    {"size.spare_wheels", by_name(amount({{}, "", 1, 6, 0, 60, or_zero})), "as they are",
     "so many spare wheels at the most, by the vehicle's name", "{VEHICLE: 3}"},
    {"size.limits", map_of(), "none", "what the whole may weigh, take up and cost"},
    {"size.keep",
     many(Many::one_or_list,
          name_of("container, tank, battery, solar panel, cabinet, food or store")),
     "nothing", "what stays as it is"},
    {"size.containers.drinking", list_of(short_map_of("size.containers.*", "size.tanks.holds")),
     "as they are", "for drinking water"},
    {"size.containers.utility", list_of(short_map_of("size.containers.*", "size.tanks.holds")),
     "as they are", "for utility water"},
    {"size.tanks.holds", amount(holds), required, "what one holds"},
    {"size.tanks.empty_mass", amount(can_mass), "the usual one", "of one, empty"},
    // More of one size, and below more days, than anybody loads.
    {"size.fuel_cans.most", amount({{}, "", 1, 1000, 1, 1000}), "40", "so many at the most"},
    {"size.containers.*.in", name_of("vehicle"), "see below", "what carries it"},
    {"size.batteries.capacity", amount({Kind::charge, "Ah", 2, 1500, 0.1, 100'000}), required,
     "rated, when new"},
    {"size.batteries.kind", word(texts_of<battery_words>), "as it is", "how it is built"},
    {"size.panels.solar", amount({Kind::power, "W", 3, 3000, 0, 100'000, or_zero}), required,
     "its rating"},
    {"size.cabinets.volume", amount({Kind::volume, "L", 3, 600, 0.5, 10'000}), required, "inside"},
    {"size.cabinets.rated",
     amount({Kind::power, "W", 2, 500, 0.1, 10'000}, {Kind::current, "A", 0.1, 40, 0.01, 1000}),
     "by the size", "mean draw, at its rating"},
    {"size.food.per_day", amount({{}, "meals", 0.5, 100, 0.001, 1'000'000}), required,
     "meals in a day's worth", "6 meals"},
    {"size.food.most", amount({Kind::time_h, "days", 1, 400, 1, 3660}), "60 days",
     "so many days at the most, whole"},
    {"size.consumables.holds", consumable_store, required, "what one holds"},
    {"size.consumables.empty_mass", amount(can_mass), "that of the plan's of that size, else 0 kg",
     "of one, empty"},
    {"size.consumables.most", amount({{}, "", 1, 1000, 1, 1000}), "12", "so many at the most"},
    // What offers have in common.
    {"weight.mass", amount({Kind::mass, "kg", 0.01, 600, 0, 10'000, or_zero}), "the usual one",
     "of one, or of a day's worth"},
    {"offer.cost", amount({{}, "", 0, 1'000'000, 0, 1'000'000}), "0",
     "of one, or of a day's worth, in your money"},
    {"bulk.space", amount({Kind::volume, "L", 0.1, 2000, 0, 1'000'000, or_zero}), "the usual one",
     "outside volume of one, or of a day's worth"},
    {"size.limits.mass",
     many(Many::one_or_by_name, amount({Kind::mass, "kg", 150, 20'000, 20, 100'000})), "no limit",
     "the most a vehicle may weigh loaded, by its name"},
    {"size.limits.space", amount({Kind::volume, "L", 1, 20'000, 0, 1'000'000, or_zero}), "no limit",
     "outside volume of all that is chosen"},
    {"size.limits.budget", amount({{}, "", 0, 1'000'000, 0, 1'000'000}), "no limit",
     "cost of all that is chosen"},
});

}  // namespace drystage::plan::keys
