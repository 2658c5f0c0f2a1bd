#include "units/kind.h"

#include <array>

namespace drystage::units {
namespace {

struct Words {
  Kind kind;
  std::string_view name;
  std::string_view family;
  std::string_view canonical;
  std::string_view usual;
  std::string_view example;
};

// In the order of the enum, which a static_assert below checks.
constexpr std::array<Words, kind_count> words{{
    {Kind::mass, "a mass", "a mass", "kg", "kg", "62 kg"},
    {Kind::length, "a length", "a length", "m", "m", "1.6 m"},
    {Kind::distance, "a distance", "a length", "km", "km", "150 km"},
    {Kind::elevation, "an elevation", "a length", "m", "m", "980 m"},
    {Kind::volume, "a volume", "a volume", "L", "L", "20 L"},
    {Kind::speed, "a speed", "a speed", "km/h", "km/h", "80 km/h"},
    {Kind::wind, "a wind speed", "a speed", "m/s", "m/s", "3.5 m/s"},
    {Kind::time_h, "a time", "a time", "h", "h", "7 h"},
    {Kind::fuel_use, "a fuel use per distance", "a fuel use per distance", "L/km", "L/100km",
     "11.2 L/100km"},
    {Kind::fuel_rate, "a fuel use per hour", "a volume per time", "L/h", "L/h", "1.2 L/h"},
    {Kind::volume_per_day, "a volume per day", "a volume per time", "L/day", "L/day", "5.5 L/day"},
    {Kind::mass_per_day, "a mass per day", "a mass per day", "kg/day", "kg/day", "1.5 kg/day"},
    {Kind::energy, "an energy", "an energy", "Wh", "Wh", "500 Wh"},
    {Kind::energy_per_day, "an energy per day", "an energy per day", "Wh/day", "Wh/day",
     "80 Wh/day"},
    {Kind::time_per_day, "a time per day", "a time per day", "h/day", "h/day", "3 h/day"},
    {Kind::meals, "a number of meals", "a number of meals", "meals", "meals", "6 meals"},
    {Kind::meals_per_day, "a number of meals per day", "a number of meals per day", "meals/day",
     "meals/day", "3 meals/day"},
    {Kind::energy_per_mass, "an energy per mass", "an energy per mass", "kJ/kg", "kJ/kg",
     "1500 kJ/kg"},
    {Kind::area, "an area", "an area", "m2", "m2", "1.4 m2"},
    {Kind::power, "a power", "a power", "W", "W", "14 W"},
    {Kind::charge, "a charge", "a charge", "Ah", "Ah", "100 Ah"},
    {Kind::voltage, "a voltage", "a voltage", "V", "V", "12 V"},
    {Kind::current, "a current", "a current", "A", "A", "20 A"},
    {Kind::conductance, "a conductance", "a conductance", "W/K", "W/K", "0.35 W/K"},
    {Kind::temperature, "a temperature", "a temperature", "°C", "°C", "5 °C"},
    {Kind::temperature_difference, "a temperature difference", "a temperature", "K", "°C", "6 °C"},
    {Kind::fraction, "a share", "a share", "", "%", "50 %"},
    {Kind::angle, "an angle", "an angle", "°", "°", "27.1°"},
    {Kind::daily_radiation, "a daily radiation", "a daily radiation", "kWh/m2/day", "kWh/m2/day",
     "5.4 kWh/m2/day"},
    {Kind::pressure, "a pressure", "a pressure", "kPa", "kPa", "101.3 kPa"},
}};

constexpr bool in_enum_order() {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (static_cast<std::size_t>(words[i].kind) != i) return false;
  }
  return true;
}
static_assert(in_enum_order());

constexpr const Words& of(Kind kind) { return words.at(static_cast<std::size_t>(kind)); }

}  // namespace

std::string_view name(Kind kind) { return of(kind).name; }
std::string_view family_name(Kind kind) { return of(kind).family; }
std::string_view canonical_unit(Kind kind) { return of(kind).canonical; }
std::string_view usual_unit(Kind kind) { return of(kind).usual; }
std::string_view example(Kind kind) { return of(kind).example; }

}  // namespace drystage::units
