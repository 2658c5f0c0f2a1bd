#pragma once

#include "plan/keys/declaration.h"
#include "plan/word_lists.h"

namespace drystage::plan::keys {

// Of a consumable, which is weighed, measured or counted.
inline constexpr Value consumable_store = amount({Kind::mass, "kg", 0.01, 600, 0.0001, 100'000},
                                                 {Kind::volume, "L", 0.01, 600, 0.0001, 100'000},
                                                 {{}, own_word, 1, 10'000, 0.001, 1'000'000});
inline constexpr Range consumable_mass{Kind::mass, "kg", 0.001, 600, 0, 100'000, or_zero};
inline constexpr Range consumable_volume{Kind::volume, "L", 0.001, 600, 0, 100'000, or_zero};
inline constexpr Range consumable_count{{}, own_word, 0.01, 10'000, 0, 1'000'000, or_zero};
inline constexpr Value consumable_amount =
    amount(consumable_mass, consumable_volume, consumable_count);
inline constexpr Value consumable_use = amount({Kind::mass, "kg", 0.0001, 50, 0, 10'000, or_zero},
                                               {Kind::volume, "L", 0.0001, 50, 0, 10'000, or_zero},
                                               {{}, own_word, 0.001, 500, 0, 100'000, or_zero});
inline constexpr Value consumable_dose =
    amount({Kind::mass, "kg", 0.0001, 50, 0, 10'000}, {Kind::volume, "L", 0.0001, 50, 0, 10'000},
           {{}, own_word, 0.001, 500, 0, 100'000});
inline constexpr Range keeping{Kind::temperature, "°C", -30, 45, -60, 60};

/// Water, fuel and food.
inline constexpr auto stores = std::to_array<Declaration>({
    // What water containers and fuel tanks have in common.
    {"vessel.name", a(Sort::name), required, "its name, unique"},
    {"vessel.holds", amount(holds), required, "what it holds"},
    {"vessel.filled", amount({Kind::volume, "L", 0.1, 600, 0, 100'000, or_zero}), required,
     "what is in it at the start"},
    {"vessel.empty_mass", amount(can_mass), "0 kg", "of the can itself, if it is one"},
    {"vessel.at", amount({Kind::length, "m", -5, 12, -20, 20}), "not known",
     "how far behind the front axle; not used yet, and a warning says so"},
    {"vessel.shape", map_of("shape"), "none", "of the inside, to read a dipstick by"},
    {"vessel.dip", a(Sort::dip), "none", "dip marks of your own", "{5 cm: 9 L, 10 cm: 20 L}"},

    {"shape.box", map_of(), "one of these", "a box"},
    {"shape.lying_cylinder", map_of(), "one of these", "a cylinder that lies"},
    {"shape.standing_cylinder", map_of(), "one of these", "a cylinder that stands"},
    {"shape.box.length", amount(inside), required, "inside"},
    {"shape.box.width", amount(inside), required, "inside"},
    {"shape.box.height", amount(inside), required, "inside"},
    {"shape.lying_cylinder.diameter", amount(inside), required, "inside"},
    {"shape.lying_cylinder.length", amount(inside), required, "inside"},
    {"shape.standing_cylinder.diameter", amount(inside), required, "inside"},
    {"shape.standing_cylinder.height", amount(inside), required, "inside"},
    {"dip.depth.*", amount({Kind::length, "cm", 0.5, 250, 0, 1000, or_zero}), "",
     "how far the stick is wet"},
    {"dip.*", amount({Kind::volume, "L", 0.05, 600, 0, 100'000, or_zero}), "",
     "what is in it then"},

    {"water.containers", list_of(map_of()), "none", "in the order of use"},
    {"water.utility_use", by_name(short_map_of("water.utility_use", "water.utility_use.*")), "none",
     "what is used each day, by a name of your own"},
    {"water.containers.for", word(texts_of<use_words>), "drinking", "what it is used for"},
    {"water.containers.quality", word(texts_of<quality_words>), "potable",
     "of the water that is in it"},
    {"water.containers.opened", word(texts_of<opened_words>), "in order",
     "when it is used: a sealed spare is opened last"},
    {"water.containers.in", name_of("vehicle"), "the first", "what carries it"},
    {"water.utility_use.*", amount({Kind::volume_per_day, "L/day", 0.05, 50, 0, 1000, or_zero}), "",
     "for each person"},
    {"water.utility_use.volume", amount({Kind::volume, "L", 0.05, 100, 0, 1000, or_zero}), required,
     "each time"},
    {"water.utility_use.every", amount({Kind::time_h, "days", 0.25, 30, 0.01, 3660}), "1 day",
     "how often"},
    {"water.utility_use.for", word(texts_of<whom_words>), "person",
     "whether each person takes it, or the party as a whole"},
    {"water.utility_use.potable", a(Sort::yes_no), "by the name", "brackish water will not do"},

    {"vehicles.name", a(Sort::name), required, "its name, unique"},
    {"vehicles.fuel", word(texts_of<fuel_words>), required, "what it burns"},
    {"vehicles.mass", map_of(), required, "its own masses", "{empty: 2480 kg, limit: 3500 kg}"},
    {"vehicles.tanks", list_of(map_of()), required, "tanks and cans, in the order of use",
     "[{name: tank, holds: 80 L, filled: 80 L}]"},
    // Cd times frontal area: 0.47 (a boxy vehicle with things on its roof, ours) times 3.4 m2
    // (1.95 m by 2.15 m, of which 79 to 84 % count: Wong, Theory of Ground Vehicles, memory).
    {"vehicles.drag_area", amount({Kind::area, "m2", 0.3, 12, 0.05, 50}), "1.6 m2",
     "drag coefficient times frontal area"},
    {"vehicles.engine_efficiency", amount({Kind::fraction, "%", 12, 50, 1, 60}), "the usual one",
     "of the engine; 85 % of it comes to the wheels"},
    // 0.61 (petrol) and 0.64 (diesel) for two litres, 1.5 (petrol) for 4.6 (US DOE, Vehicle
    // Technologies Fact #861): about 0.3 for each litre, and such vehicles have two to three.
    {"vehicles.idle", amount({Kind::fuel_rate, "L/h", 0.05, 6, 0, 50, or_zero}), "0.8 L/h",
     "use per engine-hour besides the work"},
    {"vehicles.trailer", map_of(), "none", "what it tows"},
    {"vehicles.observed", list_of(map_of()), "none", "what you measured"},
    {"vehicles.mass.empty", amount({Kind::mass, "kg", 80, 12'000, 10, 60'000}), required,
     "without people, fuel, water and food"},
    {"vehicles.mass.gear", amount({Kind::mass, "kg", 1, 4000, 0, 60'000, or_zero}), "0 kg",
     "what is loaded and does not change"},
    {"vehicles.mass.limit", amount({Kind::mass, "kg", 150, 20'000, 20, 100'000}), "no limit",
     "the most it may weigh loaded"},
    {"vehicles.tanks.unusable", amount({Kind::volume, "L", 0.05, 50, 0, 10'000, or_zero}), "0 L",
     "what stays in it for ever"},
    {"vehicles.trailer.mass", amount({Kind::mass, "kg", 15, 4000, 1, 60'000}), required, "loaded"},
    // A low box behind a tall vehicle: a third of the vehicle's own (ours). A caravan adds more.
    {"vehicles.trailer.drag_area", amount({Kind::area, "m2", 0.05, 10, 0, 50, or_zero}), "0.5 m2",
     "what it adds to the vehicle's"},
    {"vehicles.observed.surface", word(texts_of<surface_words>), required, "on which ground",
     "sealed"},
    {"vehicles.observed.uses", amount({Kind::fuel_use, "L/100km", 2.5, 60, 0.1, 500}), required,
     "what was used"},
    {"vehicles.observed.speed", amount(speed), "not known", "at which speed"},
    {"vehicles.observed.mass", amount({Kind::mass, "kg", 80, 20'000, 10, 100'000}), "not known",
     "of all that moved, with the trailer if there was one"},
    {"vehicles.observed.with_trailer", a(Sort::yes_no), "no", "the trailer was behind"},

    {"food.item", a(Sort::name), required, "its name, unique"},
    {"food.kept", word(texts_of<kept_words>), required, "how it is kept"},
    {"food.meals", amount({{}, "meals", 0.5, 10'000, 0.001, 1'000'000}), "from `energy`",
     "how many meals for one person"},
    // From the leanest leaves to pure fat, 37 MJ/kg.
    {"food.energy", amount({Kind::energy_per_mass, "MJ/kg", 0.3, 38, 0.01, 100}), "none",
     "what is in it; does instead of `meals`"},
    {"food.mass", amount({Kind::mass, "kg", 0.02, 300, 0, 100'000, or_zero}), "0 kg",
     "required unless dry with `meals`", "6 kg"},
    {"food.in", name_of("cabinet"), "the first that suits", "what is kept cold: its cabinet"},
    // Dry: flour, rice, dried fruit (common practice).
    {"food.water", amount(share), "70 %, dry 10 %", "water content"},
    {"food.from", amount({Kind::temperature, "°C", -30, 40, -60, 60}),
     "-18 °C, chilled that of the air",
     "what it goes in at: frozen at the start, chilled where it is bought on the way"},
    {"food.freezes_at", amount({Kind::temperature, "°C", -8, 0, -20, 0}), "-1 °C",
     "where it begins to freeze"},
    {"food.kind", word(texts_of<food_kind_words>), "not said", "what it is: a word below"},
    {"food.keeps", map_of(), "by its `kind`", "its shelf life"},
    {"food.keeps.for", amount({Kind::time_h, "days", 0.25, 1500, 0.01, 36'600}), required,
     "how long it keeps"},
    {"food.keeps.at", amount({Kind::temperature, "°C", -25, 35, -60, 60}), "4 °C",
     "... at this temperature"},
    {"food.potentially_hazardous", a(Sort::yes_no), "by `kind`; else yes, dry no",
     "the clock runs above 5 °C"},
    {"food.carried_by", name_of("vehicle"), "the first", "what carries it if it is in no cabinet"},

    {"consumables.name", a(Sort::name), required, "its name, unique"},
    {"consumables.unit", a(Sort::text), required,
     "what it is measured in: kg, L, or a word of your own for what is counted", "kg"},
    {"consumables.unit_mass", amount({Kind::mass, "kg", 0.001, 100, 0, 10'000, or_zero}), "0 kg",
     "what one unit weighs; not said of what is in kg"},
    {"consumables.matters", word(texts_of<matters_words>), "comfort",
     "`life`: life or the way home depends on it"},
    {"consumables.margin",
     amount(margin_days, {Kind::distance, "km", 10, 2000, 0, 20'000, or_zero}, margin_share,
            consumable_mass, consumable_volume, consumable_count),
     "nothing", "what must be left at the low point of every day"},
    {"consumables.stores", list_of(map_of()), required, "what it is in, in the order of use",
     "[{name: box, holds: 20, filled: 20}]"},
    {"consumables.use", map_of(), "what a generator burns", "what uses it up; what is said adds up",
     "{per_meal: 50 g}"},
    {"consumables.fills", a(Sort::yes_no), "no",
     "its stores fill with use: a toilet cassette, a bin. Room in them is what runs out"},
    {"consumables.keeps", map_of(), "however warm", "how warm it may be"},
    {"consumables.keeps.from", amount(keeping), "no limit", "not colder than this"},
    {"consumables.keeps.to", amount(keeping), required, "not warmer than this"},
    {"consumables.keeps.out_of_it", amount({Kind::time_h, "h", 0.25, 2000, 0, 36'600, or_zero}),
     required, "so long in all outside these it may be; then it is lost"},
    {"consumables.keeps.never_above", amount(keeping), "no limit",
     "any warmer, and it is lost at once"},
    {"consumables.stores.name", a(Sort::name), required, "its name, unique"},
    {"consumables.stores.holds", consumable_store, required, "what it holds"},
    {"consumables.stores.filled", consumable_amount, required, "what is in it at the start"},
    {"consumables.stores.empty_mass", amount(can_mass), "0 kg", "of the bottle, can or box itself"},
    {"consumables.stores.in", name_of("vehicle"), "the first", "what carries it"},
    {"consumables.stores.cabinet", name_of("cabinet"), "none: as warm as the air",
     "where it is kept cold"},
    {"consumables.use.per_person_day", consumable_use, "0", "each person, each day"},
    {"consumables.use.per_meal", consumable_use, "0", "each meal of one person"},
    {"consumables.use.per_day", consumable_use, "0", "each day, whoever is there"},
    {"consumables.use.per_100km", many(Many::one_or_by_surface, consumable_use), "0",
     "each 100 km driven"},
    {"consumables.use.per_engine_hour", consumable_use, "0", "each hour driven"},
    {"consumables.use.doses", map_of(), "none", "so much at times of the day"},
    {"consumables.use.doses.amount", consumable_dose, required, "each time"},
    {"consumables.use.doses.at", many(Many::one_or_list, a(Sort::clock)), "08:00", "when"},
    {"consumables.use.doses.every", amount({Kind::time_h, "days", 1, 60, 1, 3660}), "1 day",
     "on the first day of the trip, and again after so many days"},
    {"consumables.use.in_cold", map_of(), "none", "by the cold outside: to heat"},
    {"consumables.use.in_cold.below", amount(air), required, "where it begins"},
    {"consumables.use.in_cold.per_degree_day", consumable_dose, required,
     "each day, for each degree that it is colder"},
    {"consumables.use.in_heat", map_of(), "none", "by the heat outside: a dog's water"},
    {"consumables.use.in_heat.above", amount(air), required, "where it begins"},
    {"consumables.use.in_heat.per_degree_day", consumable_dose, required,
     "each day, for each degree that it is hotter"},
});

}  // namespace drystage::plan::keys
