#include <gtest/gtest.h>

#include <ostream>

#include "plan_text.h"

namespace drystage::plan {
namespace {

// One change to the whole plan, and the one thing that must be said about it.
struct Slip {
  const char* piece;
  const char* replacement;
  const char* what;       // part of the message
  const char* hint = "";  // part of the hint
};

void PrintTo(const Slip& slip, std::ostream* out) { *out << slip.replacement; }

class WrongValue : public ::testing::TestWithParam<Slip> {};

TEST_P(WrongValue, IsTheOneErrorReported) {
  const Slip& slip = GetParam();
  const ReadPlan reading = read_text(whole_plan_with(slip.piece, slip.replacement));
  const Diagnostic error = only_error(reading);
  EXPECT_NE(error.what.find(slip.what), std::string::npos) << all_of(reading);
  EXPECT_NE(error.hint.find(slip.hint), std::string::npos) << all_of(reading);
  EXPECT_GT(error.mark.column, 0);
}

INSTANTIATE_TEST_SUITE_P(
    Top, WrongValue,
    ::testing::Values(
        Slip{"drystage: 1\n", "drystage: 2\n", "version"},
        Slip{"drystage: 1\n", "", "lacks \"drystage\""},
        Slip{"\nweather:", "\nwether:", "has no key \"wether\"", "\"weather\""},
        Slip{"  title: Salt pan survey, Oru to Kemet Wells and back\n", "", "lacks \"title\""},
        Slip{"start: 2027-02-08", "start: 2027-02-30", "2027-02-30 does not exist"},
        Slip{"start: 2027-02-08", "start: 2027-13-01", "no month 13"},
        Slip{"start: 2027-02-08", "start: 2027-02-29", "does not exist"},
        Slip{"start: 2027-02-08", "start: 8 Feb 2027", "not a date"},
        Slip{"start: 2027-02-08", "start: 1066-10-14", "out of range"},
        Slip{"\"+01:00\"", "Paris", "not an offset"},
        Slip{"\"+01:00\"", "\"+25:00\"", "not an offset"},
        Slip{"most_per_day: 7 h", "most_per_day: 25 h", "too high"},
        Slip{"most_per_day: 7 h", "most_per_day: 7", "no unit"},
        Slip{"daylight_only: no", "daylight_only: nope", "unknown word \"nope\"", "\"no\""},
        Slip{"\"07:30\"", "\"24:30\"", "not a time of day"},
        Slip{"speeds: {gravel:", "speeds: {gravle:", "no surface \"gravle\"", "\"gravel\""}));

INSTANTIATE_TEST_SUITE_P(
    Margins, WrongValue,
    ::testing::Values(Slip{"food: 6 meals", "food: 150 km", "food: 150 km is"},
                      Slip{"food: 6 meals", "food: 6", "no unit"},
                      Slip{"cold: 5 °C", "cold: 50 %", "cold: 50 % is"},
                      Slip{"utility_water: 15 L", "utility_water: 15 gal", "two sizes",
                           "15 US gal or 15 imp gal"},
                      Slip{"utility_water: 15 L", "utility_water: -15 L", "negative"},
                      Slip{"battery: 50 %", "battery: 150 %", "battery: 150 % is too high"},
                      Slip{"\"fuel:trailer rig\"", "\"fuel:trailer\"",
                           "no reserve \"fuel:trailer\""},
                      Slip{"  drinking_water: 3 days", "  drinkingwater: 3 days", "no reserve",
                           "drinking_water"}));

INSTANTIATE_TEST_SUITE_P(
    People, WrongValue,
    ::testing::Values(
        Slip{"mass: 62 kg", "mass: -62 kg", "negative"},
        Slip{"mass: 62 kg", "mass: 62", "no unit", "write 62 kg"},
        Slip{"mass: 62 kg", "weight: 62 kg, mass: 62 kg", "no key \"weight\""},
        Slip{"mass: 62 kg, ", "", "person \"Ines\" lacks \"mass\""},
        Slip{"height: 168 cm", "height: 168 m", "too high"},
        Slip{"height: 168 cm", "height: 62 kg", "is a mass"},
        Slip{"age: 34", "age: 340", "too high"}, Slip{"age: 34", "age: old", "age"},
        Slip{"sex: female", "sex: femal", "unknown word \"femal\"", "female"},
        Slip{"name: Ines", "name: Bela", "two people called \"Bela\""},
        Slip{"name: Ines", "name: \"\"", "name"},
        Slip{"rides_in: trailer rig", "rides_in: trailor rig", "no vehicle", "\"trailer rig\""},
        Slip{"meals: 3}", "meals: 3 L}", "more than a number"},
        Slip{"drinking: 5.5 L/day", "drinking: 5.5 L", "5.5 L is a volume"},
        Slip{"mass: 62 kg", "mass: 62 kg, mass: 63 kg", "\"mass\" is given twice"},
        Slip{"mass: 62 kg", "mass: [62 kg]", "list does not belong"},
        Slip{"mass: 62 kg", "mass:", "missing"},
        Slip{"low: 5 h, moderate: 2 h", "low: 20 h, moderate: 5 h", "25 h in a day"},
        Slip{"low: 5 h, moderate: 2 h", "low: 5 h, moderat: 2 h", "no key", "\"moderate\""},
        Slip{"in_sun: 70 %", "in_sun: 170 %", "too high"}));

INSTANTIATE_TEST_SUITE_P(
    Water, WrongValue,
    ::testing::Values(Slip{"holds: 90 L, filled: 90 L", "holds: 90 L, filled: 91 L",
                           "filled with 91 L but holds 90 L"},
                      Slip{"holds: 90 L, filled: 90 L", "holds: 90 L", "lacks \"filled\""},
                      Slip{"holds: 90 L, filled: 90 L", "holds: 0 L, filled: 0 L", "too low"},
                      Slip{"for: utility", "for: washing", "unknown word"},
                      Slip{"for: drinking, empty_mass",
                           "for: drinking, quality: brackish, empty_mass", "brackish"},
                      Slip{"opened: last", "opened: lats", "unknown word", "\"last\""},
                      Slip{"name: can 1", "name: body tank", "two containers"},
                      Slip{"cooking: 2 L/day", "cooking: 2 L", "2 L is a volume"},
                      Slip{"every: 4 days", "every: 0 days", "too low"},
                      Slip{"for: party", "for: partie", "unknown word", "\"party\""},
                      Slip{"potable: no", "potable: nope", "unknown word \"nope\"", "\"no\""},
                      Slip{"  utility_use:", "  utilty_use:", "no key", "\"utility_use\""}));

INSTANTIATE_TEST_SUITE_P(
    Vehicles, WrongValue,
    ::testing::Values(
        Slip{"fuel: diesel\n", "fuel: desel\n", "unknown word \"desel\"", "diesel"},
        Slip{"empty: 2480 kg", "empty: -2480 kg", "negative"},
        Slip{"limit: 3500 kg", "limit: 1500 kg", "less than the empty mass"},
        Slip{"unusable: 4 L", "unusable: 84 L", "84 L cannot be used"},
        Slip{"name: jerry 1", "name: main tank", "two tanks called"},
        Slip{"  - name: trailer rig\n",
             "  - {name: truck, fuel: diesel, mass: {empty: 2 t}, tanks: [{name: a, holds: 9 L, "
             "filled: 1 L}]}\n  - name: trailer rig\n",
             "two vehicles called \"truck\""},
        Slip{
            "tanks: [{name: tank, holds: 60 L, filled: 60 L, bay: floor, at: 2.3 m, height: 0.6 m, "
            "right: 0.2 m, shape: {lying_cylinder: {diameter: 32 cm, length: 75 cm}}}]",
            "tanks: []", "has no tank"},
        Slip{"uses: 24 L/100km", "uses: 24 mpg", "two sizes", "mpg (US)"},
        Slip{"{surface: soft sand, uses", "{surface: sealed, uses", "two figures"},
        Slip{"engine_efficiency: 34 %", "engine_efficiency: 134 %", "too high"},
        Slip{"steepness: 4 %", "steepness: 0 %", "too low"},
        Slip{"steepness: 4 %", "steepness: 4 m", "steepness"},
        Slip{"headwind: 3 m/s", "headwind: 41 m/s", "too high"},
        Slip{"tyres: lowered", "tyres: lowred", "unknown word \"lowred\"", "\"lowered\""},
        Slip{"trailer: {mass: 600 kg, ", "trailer: {", "mass"},
        Slip{"trailer: {mass: 600 kg, drag_area: 0.4 m2, ball: 55 kg, coupling: 1.5 m, drawbar: 3 "
             "m, "
             "limit: 750 kg, gear: [{name: firewood, mass: 20 kg, ahead: 0.5 m}]}",
             "idle: 1 L/h", "there is no trailer"},
        Slip{"idle: 1.2 L/h", "idle: 1.2 L/100km", "idle"}));

INSTANTIATE_TEST_SUITE_P(
    Cold, WrongValue,
    ::testing::Values(
        Slip{"{name: ice box,",
             "{name: chest, volume: 9 L, ice: 2 kg, heat_leak: 0.6 W/K}\n"
             "  - {name: ice box,",
             "two cabinets called \"chest\""},
        Slip{"    set_point: 2 °C\n", "", "cabinet \"chest\" lacks \"set_point\""},
        Slip{"on: camp battery\n", "on: camp batery\n", "no battery \"camp batery\"",
             "camp battery"},
        Slip{"heat_leak: 0.6 W/K", "set_point: 4 °C, heat_leak: 0.6 W/K", "does not belong",
             "ice box"},
        Slip{", heat_leak: 0.6 W/K", "", "lacks \"heat_leak\""},
        Slip{"running: 45 W", "running: 0.2 A", "less than the rated"},
        Slip{"draw: 15 W", "draw: 0 W", "draw: 0 W is too low"},
        Slip{"ambient: 32 °C, inside: 4 °C", "ambient: 4 °C, inside: 32 °C", "not colder"},
        Slip{"walls: 25 %", "walls: 125 %", "too high"},
        Slip{"6 °C, while: driving}", "6 °C, while: drving}", "unknown word", "\"driving\""},
        Slip{"freezer: {set_point: -15 °C}", "freezer: {set_point: -15 °C}\n    frozen_below: {}",
             "both"},
        Slip{"freezer: {set_point: -15 °C}", "freezer: {}", "lacks \"set_point\""},
        Slip{"ice: 8 kg", "ice: 80 kg", "do not fit"}));

INSTANTIATE_TEST_SUITE_P(
    Food, WrongValue,
    ::testing::Values(
        Slip{"kept: dry", "kept: dri", "unknown word", "\"dry\""},
        Slip{"item: fish", "item: lamb", "two items of food"},
        Slip{"in: freezer drawer", "in: freezer draw", "no cabinet", "\"freezer drawer\""},
        Slip{"in: freezer drawer", "in: ice box", "no frozen part"},
        Slip{"meals: 30, keeps", "keeps", "lacks \"meals\""},
        Slip{"mass: 1 kg, energy: 30 MJ/kg", "energy: 30 MJ/kg", "lacks \"mass\""},
        Slip{"meals: 60, mass: 14 kg", "meals: 60, mass: 14 kg, from: -18 °C", "does not belong",
             "frozen"},
        Slip{"meals: 60, mass: 14 kg", "meals: 60, mass: 14 kg, in: chest", "does not belong"},
        Slip{"in: freezer drawer", "in: freezer drawer, carried_by: truck", "does not belong"},
        Slip{"water: 73 %", "water: 173 %", "too high"}));

INSTANTIATE_TEST_SUITE_P(
    Power, WrongValue,
    ::testing::Values(
        Slip{"kind: agm", "kind: gel", "unknown word \"gel\""},
        Slip{"floor: 50 %, cut_off: 40 %", "floor: 30 %, cut_off: 40 %", "below its cut-off"},
        Slip{"filled: 90 Ah", "filled: 110 Ah", "more than it holds"},
        Slip{"filled: 80 %", "filled: 180 %", "filled: 180 % is too high"},
        Slip{"capacity: 50 Ah, ", "", "lacks \"capacity\""},
        Slip{"peukert: 1.15", "peukert: 11.5", "too high"},
        Slip{"solar: 160 W, tilt: 20°, facing: south", "solar: 160 W, tilt: 20°",
             "which way it faces"},
        Slip{"facing: south", "facing: sout", "unknown word", "\"south\""},
        Slip{"solar: 160 W", "solar: 160 W, current: 5 A", "must say what it is"},
        Slip{"mains: 10 A", "solr: 10 W", "must say what it is"},
        Slip{"mains: 10 A", "mains: 10 A, tilt: 5°", "no key \"tilt\""},
        Slip{"name: shore lead", "name: roof panel", "two chargers"},
        Slip{"starts: \"18:30\"", "from: truck", "another fuel"},
        Slip{"energy: 80 Wh/day", "energy: 80 Wh", "80 Wh is an energy"},
        Slip{"energy: 80 Wh/day", "energy: 80 Wh/day, draw: 3 W", "either \"draw\" or \"energy\""},
        Slip{"energy: 80 Wh/day", "energy: 80 Wh/day, hours: 3 h/day", "does not belong"},
        Slip{"hours: 4 h/day", "hours: 4 h/day, after_dark: 2 h/day", "both"},
        Slip{"hours: 4 h/day", "hours: 25 h/day", "too high"},
        Slip{"never_shed: yes", "never_shed: yes, shed: 2", "never shed"},
        Slip{"shed: 1}", "shed: 1.5}", "whole number"},
        Slip{"draw: 1.5 A, hours: 4 h/day, on: rig battery", "draw: 1.5 A, on: rug battery",
             "no battery", "\"rig battery\""}));

INSTANTIATE_TEST_SUITE_P(
    Weather, WrongValue,
    ::testing::Values(
        Slip{"max: 22 °C, min: 7 °C", "max: 2 °C, min: 7 °C", "lower than the minimum"},
        Slip{"humidity: 30 %, ", "", "lacks \"humidity\""},
        Slip{"dew_point: 2 °C", "dew_point: 28 °C", "above the maximum"},
        Slip{"max: 22 °C, ", "", "lacks \"max\""},
        Slip{"sun: 5.4 kWh/m2/day, ", "", "lacks \"sun\""},
        Slip{"    jan:",
             "    january: {max: 2 °C, min: 1 °C, humidity: 3 %, sun: 2 kWh/m2/day}\n    jan:",
             "given twice"},
        Slip{"    jan:", "    janury:", "no month \"janury\"", "\"january\""},
        Slip{"on: 2027-02-10", "on: 2027-02-31", "does not exist"},
        Slip{"on: 2027-02-10", "from: 2027-02-10", "needs the days"},
        Slip{"from: 2027-02-12, to: 2027-02-13", "from: 2027-02-13, to: 2027-02-12", "before"}));

INSTANTIATE_TEST_SUITE_P(
    Places, WrongValue,
    ::testing::Values(
        Slip{"latitude: 27.1°", "latitude: 97.1°", "out of range"},
        Slip{"latitude: 27.1°", "latitude: 27.1", "no unit"},
        Slip{"longitude: 5.2° E", "longitude: -5.2° E", "both a sign and a letter"},
        Slip{"longitude: 5.2° E", "longitude: 185.2° E", "out of range"},
        Slip{", elevation: 980 m", "", "lacks \"elevation\""},
        Slip{"climate: plateau", "climate: plato", "no climate \"plato\""},
        Slip{"open: [mon,", "open: [mun,", "not a weekday"},
        Slip{"quality: brackish}", "quality: brakish}", "unknown word", "\"brackish\""},
        Slip{"drinking_water: {most: 50 L,", "drinking_water: {quality: brackish,",
             "not for drinking"},
        Slip{"mains: {}", "main: {}", "no supply \"main\"", "\"mains\""},
        Slip{"mains: {}", "mains: {most: 3 L}", "no key \"most\""},
        Slip{"{from: 2027-01-01, to: 2027-03-31}", "{from: 2027-04-01, to: 2027-03-31}", "before"},
        Slip{"  Wadi Sennu:", "  Oru: {climate: basin}\n  Wadi Sennu:", "given twice"}));

}  // namespace
}  // namespace drystage::plan
