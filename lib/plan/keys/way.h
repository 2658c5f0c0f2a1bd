#pragma once

#include "plan/keys/declaration.h"
#include "plan/keys/stores.h"
#include "plan/word_lists.h"

namespace drystage::plan::keys {

inline constexpr Range road_length{Kind::distance, "km", 0.5, 3000, 0.001, 20'000};
inline constexpr Range taken{Kind::volume, "L", 0.5, 2000, 0.01, 100'000};
constexpr Value axis(Sort sort, double most) {
  return words_or(sort, {}, {Kind::angle, "°", -most, most, -most, most});
}
constexpr Value take(const Range& range) {
  return words_or(Sort::take, texts_of<take_words>, range);
}

inline constexpr Value left_things =
    many(Many::one_or_list, name_of("vehicle, trailer, container, can or store"));

/// Places, and the way between them.
inline constexpr auto way = std::to_array<Declaration>({
    {"places.at", map_of(), required, "where it is",
     "{latitude: 27.1°, longitude: 5.2°, elevation: 980 m}"},
    {"places.climate", name_of("climate"), required, "one of the regions under `climate`",
     "the name of a climate"},
    {"places.supplies", map_of(), "nothing", "what can be had there"},
    {"places.at.latitude", axis(Sort::latitude, 90), required,
     "`27.1°`, `27.1 N`, `27°06' N`; south `-20.5°` or `20.5 S`", "27.1° N"},
    {"places.at.longitude", axis(Sort::longitude, 180), required,
     "`5.2°`, `5.2 E`, `5°12' E`; west `-5.2°` or `5.2 W`", "27.1° E"},
    {"places.at.elevation", amount({Kind::elevation, "m", -450, 6000, -450, 9000}), required,
     "above the sea"},

    {"places.supplies.drinking_water", map_of("supply.water"), "none", "to drink"},
    {"places.supplies.utility_water", map_of("supply.water"), "none", "for all else"},
    {"places.supplies.diesel", map_of("supply.fuel"), "none", "fuel"},
    {"places.supplies.petrol", map_of("supply.fuel"), "none", "fuel"},
    {"places.supplies.food", map_of("supply.food"), "none", "meals"},
    {"places.supplies.ice", map_of("supply.ice"), "none", "for ice boxes"},
    {"places.supplies.mains", map_of("supply"), "none", "for chargers with `mains`"},
    {"places.supplies.tyres", map_of("supply"), "none", "where punctures are mended for good"},
    {"places.supplies.consumables", by_name(map_of("supply.consumable")), "none",
     "what can be had of the plan's consumables, by name", "{NAME: {most: 5 kg}}"},
    {"supply.water.quality", word(texts_of<quality_words>), "potable", "of utility water"},
    {"supply.fuel.most", amount({Kind::volume, "L", 1, 100'000, 0, 1'000'000, or_zero}), "no limit",
     "on one visit"},
    {"supply.food.most", amount({{}, "meals", 1, 10'000, 0, 1'000'000, or_zero}), "no limit",
     "on one visit"},
    {"supply.ice.most", amount({Kind::mass, "kg", 0.5, 1000, 0, 1'000'000, or_zero}), "no limit",
     "on one visit"},
    {"supply.consumable.most", consumable_amount, "no limit", "on one visit"},
    {"supply.open", list_of(word(weekdays)), "every day", "weekdays, such as `[mon, tue]`"},
    {"supply.open_dates", list_of(a(Sort::date, "dates")), "all the year",
     "dates, or `{from: ..., to: ...}`"},
    {"supply.shut", list_of(a(Sort::date, "dates")), "never", "the same, for when it is shut"},
    {"supply.confirmed", a(Sort::yes_no), "yes", "somebody has said that it is there"},
    {"dates.from", a(Sort::date), required, "the first day", "2027-02-10"},
    {"dates.to", a(Sort::date), required, "the last day", "2027-02-12"},

    {"itinerary.at", name_of("place"), "one of these", "where you are"},
    {"itinerary.drive", map_of(), "one of these", "to another place"},
    {"itinerary.stay", map_of(), "one of these", "for some nights"},
    {"itinerary.side_trip", map_of(), "one of these", "to another place and back by the same road"},
    {"itinerary.resupply", map_of(), "one of these", "what is taken"},

    {"itinerary.drive.to", name_of("place"), required, "where it ends", "the name of a place"},
    {"itinerary.drive.distance", amount({Kind::distance, "km", 0.5, 3000, 0, 20'000, or_zero}),
     required, "by road"},
    {"itinerary.drive.activity", name_of("activity"), "`on_the_road`", "what the day is like"},
    {"itinerary.drive.leaves", left_things, "nothing",
     "what stays where it begins, until you are there again", "[trailer, can 3]"},
    {"itinerary.drive.back", map_of(), "the way that was come",
     "the road home from there, if it is another one"},
    {"itinerary.drive.back.distance", amount(road_length), required, "by road, more than 0"},
    {"roads.from", name_of("place"), required, "where it begins", "the name of a place"},
    {"roads.to", name_of("place"), required, "where it ends", "the name of another place"},
    {"roads.distance", amount(road_length), required, "by road, more than 0"},
    {"roads.one_way", a(Sort::yes_no), "no", "nobody can drive it from `to` to `from`"},
    // What a drive, its way back and a road have in common.
    {"road.surfaces", a(Sort::surfaces), required, "what the road is like, see below",
     "{sealed: 90 km, gravel: 150 km}"},
    {"road.speed", amount(speed), "by surface", "on all parts that have none of their own"},
    {"road.climb", amount({Kind::elevation, "m", 1, 25'000, 0, 100'000, or_zero}),
     "from the elevations", "all the metres up together"},
    {"road.descent", amount({Kind::elevation, "m", 1, 25'000, 0, 100'000, or_zero}),
     "from the elevations", "all the metres down together"},
    {"road.steepness", amount({Kind::fraction, "%", 1, 35, 0.1, 50}), "6 %",
     "of its climbs and descents"},
    {"road.headwind", amount({Kind::wind, "m/s", 0.3, 25, 0, 40, or_zero}), "0 m/s",
     "wind against you, all the way"},
    {"road.tyres", word(texts_of<tyre_words>), "lowered on sand alone", "all the way"},
    {"road.surfaces.surface", word(texts_of<surface_words>), required, "what it is like there",
     "gravel"},
    {"road.surfaces.distance", amount({Kind::distance, "km", 0.2, 3000, 0, 20'000, or_zero}),
     required, "how long that part is"},
    {"road.surfaces.speed", amount(speed), "that of the drive", "on this part"},

    {"itinerary.side_trip.to", name_of("place"), required, "how far it goes",
     "the name of a place"},
    {"itinerary.side_trip.distance", amount(road_length), required, "one way, by road"},
    {"itinerary.side_trip.nights", amount({{}, "nights", 0, 60, 0, 3660}), "0",
     "spent there before you drive back", "1"},
    {"itinerary.side_trip.activity", name_of("activity"), "`camp`", "what the days there are like"},
    {"itinerary.side_trip.leaves", left_things, "nothing",
     "what stays where it begins, until you are back", "[trailer, can 3]"},

    {"itinerary.stay.nights", amount({{}, "nights", 1, 400, 1, 3660}), required, "1 or more", "3"},
    {"itinerary.stay.activity", name_of("activity"), "`camp`", "what the days are like"},

    {"itinerary.resupply.drinking_water", take(taken), "none", "into drinking containers"},
    {"itinerary.resupply.utility_water", take(taken), "none", "into utility containers"},
    {"itinerary.resupply.diesel", many(Many::one_or_by_name, take(taken)), "none",
     "for all, or by vehicle"},
    {"itinerary.resupply.petrol", many(Many::one_or_by_name, take(taken)), "none",
     "for all, or by vehicle"},
    {"itinerary.resupply.food", take({{}, "meals", 0.5, 1000, 0.001, 1'000'000}), "none",
     "for all"},
    {"itinerary.resupply.ice", take({Kind::mass, "kg", 0.3, 200, 0.01, 10'000}), "none",
     "into ice boxes"},
    {"itinerary.resupply.consumables",
     by_name({Sort::take, consumable_store.ranges_or_none, 3, texts_of<consumable_take_words>}),
     "none", "by name", "{NAME: fill}"},
    {"itinerary.resupply.takes", amount(hours), "0 h", "how long the stop lasts"},
    {"itinerary.resupply.cleaned", a(Sort::yes_no), "no",
     "empty water containers are washed first"},
});

}  // namespace drystage::plan::keys
