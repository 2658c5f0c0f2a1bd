#pragma once

#include <cstddef>
#include <string_view>

namespace drystage::units {

/// What a quantity is. Each kind has one canonical unit (in the comment), in which every number
/// of the project is kept once its text has been read.
enum class Kind {
  mass,                    // kg
  length,                  // m
  distance,                // km
  elevation,               // m
  volume,                  // L
  speed,                   // km/h
  wind,                    // m/s
  time_h,                  // h
  fuel_use,                // L/km; also read from its inverse (km/L, mpg)
  fuel_rate,               // L/h
  volume_per_day,          // L/day
  mass_per_day,            // kg/day
  energy,                  // Wh
  energy_per_day,          // Wh/day
  time_per_day,            // h/day
  meals,                   // a count of meals
  meals_per_day,           // meals/day; also read from "3 /day"
  energy_per_mass,         // kJ/kg
  area,                    // m2
  power,                   // W
  charge,                  // Ah
  voltage,                 // V
  current,                 // A
  conductance,             // W/K
  temperature,             // °C on the thermometer
  temperature_difference,  // K; "6 °C" read as a difference is 6 K
  fraction,                // 0 to 1; "50 %" is 0.5
  angle,                   // degrees
  daily_radiation,         // kWh/m2/day
  pressure,                // kPa
};

/// How many kinds there are.
inline constexpr std::size_t kind_count = static_cast<std::size_t>(Kind::pressure) + 1;

/// The kind in plain words with its article, for messages: "a volume", "an energy per day".
std::string_view name(Kind kind);

/// The name that a kind shares with others of its dimension: "a length" for a distance. For saying
/// what a text is, where name() says what was wanted.
std::string_view family_name(Kind kind);

/// The canonical unit as text that parse() accepts: "L", "L/km". Empty for a fraction, whose
/// canonical form is the bare number.
std::string_view canonical_unit(Kind kind);

/// The unit people write most often, as text that parse() accepts: "L/100km" for fuel_use.
std::string_view usual_unit(Kind kind);

/// An amount of this kind as somebody would write it: "20 L". parse() accepts it.
std::string_view example(Kind kind);

}  // namespace drystage::units
