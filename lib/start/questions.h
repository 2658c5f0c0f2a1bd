#pragma once

#include <array>
#include <string_view>

#include "plan/keys.h"
#include "start/countries.h"

namespace drystage::start {

/// A question of `drystage start`. Dialogue, options, help and man page come from here.
struct Question {
  std::string_view part;     ///< what it is about, as a heading
  std::string_view section;  ///< of a plan: where a kit has it, this is not asked
  /// The path is the name of its option, the meaning the question, `absent` the default.
  plan::Declaration asked;
  std::string_view only_if{};  ///< asked only where the answer to this one is more than 0

  [[nodiscard]] constexpr std::string_view option() const { return asked.path; }
};

namespace values {

using plan::Key;
using plan::keys::amount;
using plan::keys::or_zero;
using units::Kind;

constexpr plan::Value count(std::string_view of_what, double usual_most, double most) {
  return amount({{}, of_what, 1, usual_most, 1, most});
}
/// As a key of the plan, where none, 0, is an answer too.
constexpr plan::Value or_none(plan::Value value) {
  for (plan::Range& range : value.ranges_or_none) {
    range.least = 0;
    range.zero_is_usual = or_zero;
  }
  return value;
}

}  // namespace values

/// In the order in which they are asked. The defaults are a first trip of a week (ours): one that
/// holds, and that a common vehicle carries. Some follow from answers before (fallback_of).
inline constexpr auto questions = std::to_array<Question>({
    {"The trip", "people", {"people", values::count("people", 8, 20), "2", "How many people go?"}},
    {"The trip", "", {"days", values::count("days", 60, 365), "7", "How many days in all?"}},
    {"The trip",
     "",
     {"start", values::Key("trip.start")->value, "2027-04-05",
      "Which is the first day? It sets the season."}},
    {"The trip",
     "",
     {"latitude", values::Key("places.at.latitude")->value, "27° N",
      "Where is it? The latitude, such as 27° N or 23.5° S:"}},
    {"The trip",
     "",
     {"longitude", values::Key("places.at.longitude")->value, "0° E",
      "The longitude, such as 12° E or 70° W:"}},
    {"The trip",
     "",
     {"country", plan::keys::word(country_names), "hot desert", "What kind of country is it?"}},
    {"The trip",
     "",
     {"distance", values::amount({values::Kind::distance, "km", 1, 3000, 0.1, 20'000}), "250 km",
      "How far is it to the camp, one way by road?"}},
    {"The trip",
     "",
     {"rough", values::or_none(values::amount({values::Kind::distance, "km", 1, 3000, 0, 20'000})),
      "100 km", "How much of that is track, not sealed road?"}},

    {"The vehicle",
     "vehicles",
     {"vehicle", values::Key("vehicles.name")->value, "truck", "What do you call the vehicle?"}},
    {"The vehicle",
     "vehicles",
     {"fuel", values::Key("vehicles.fuel")->value, "diesel", "What does it burn?"}},
    {"The vehicle",
     "vehicles",
     {"uses", values::Key("vehicles.observed.uses")->value, "12 L/100km",
      "What does it use on sealed road, loaded?"}},
    {"The vehicle",
     "vehicles",
     {"tank", values::Key("vessel.holds")->value, "80 L", "How much fuel does the tank hold?"}},
    {"The vehicle",
     "vehicles",
     {"fuel-cans", values::or_none(values::Key("vessel.holds")->value), "40 L",
      "How much do fuel cans hold, all together? 0 L: none."}},
    {"The vehicle",
     "vehicles",
     {"mass", values::Key("vehicles.mass.empty")->value, "2400 kg",
      "What does it weigh without people, water, fuel and food?"}},
    {"The vehicle",
     "vehicles",
     {"limit", values::Key("vehicles.mass.limit")->value, "3500 kg",
      "What is the most that it may weigh?"}},

    {"Water and food",
     "water",
     {"drinking", values::Key("vessel.holds")->value, "100 L",
      "How much drinking water, all together? It goes into cans of up to 20 L."}},
    {"Water and food",
     "water",
     {"utility", values::or_none(values::Key("vessel.holds")->value), "60 L",
      "How much utility water, to cook and wash? 0 L: none."}},
    {"Water and food",
     "water",
     {"utility-use", values::Key("water.utility_use.*")->value, "3 L/day",
      "How much of that does each person use?"},
     "utility"},
    {"Water and food",
     "food",
     {"food", values::count("days", 60, 400), "10", "For how many days is there dry food?"}},

    {"Cold and power",
     "power",
     {"battery", values::or_none(values::Key("power.batteries.capacity")->value), "100 Ah",
      "How large is the camp battery? 0 Ah: none."}},
    {"Cold and power",
     "power",
     {"battery-kind", values::Key("power.batteries.kind")->value, "lfp", "What kind of battery?"},
     "battery"},
    {"Cold and power",
     "cold",
     {"fridge", values::or_none(values::Key("cold.volume")->value), "40 L",
      "What does the fridge hold? 0 L: none."},
     "battery"},
    {"Cold and power",
     "cold",
     {"fridge-draw", values::Key("cold.rated.draw")->value, "0.9 A",
      "What does it draw in the mean, at 32 °C outside and 4 °C inside?"},
     "fridge"},
    {"Cold and power",
     "power",
     {"charger", values::Key("power.charging.current")->value, "20 A",
      "What does the engine charge it with, while driving? 0 A: nothing."},
     "battery"},
    {"Cold and power",
     "power",
     {"panel", values::Key("power.charging.solar")->value, "120 W",
      "What is the rating of the solar panel? 0 W: none."},
     "battery"},
    {"Cold and power",
     "power",
     {"loads", values::Key("power.loads.energy")->value, "100 Wh/day",
      "What else uses power: lights, telephones?"},
     "battery"},
});

}  // namespace drystage::start
