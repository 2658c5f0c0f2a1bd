#include "units/spelling.h"

#include <algorithm>
#include <array>
#include <limits>

#include "units/text.h"

namespace drystage::units {
namespace {

constexpr auto spellings = std::to_array<Spelling>({
    // Mass
    {"kg", "kg"},
    {"g", "g"},
    {"mg", "mg"},
    {"t", "t"},
    {"tonne", "t"},
    {"tonnes", "t"},
    {"kilogram", "kg"},
    {"kilograms", "kg"},
    {"gram", "g"},
    {"grams", "g"},
    {"lb", "lb"},
    {"lbs", "lb"},
    {"pound", "lb"},
    {"pounds", "lb"},
    {"stone", "stone"},
    // Length
    {"m", "m"},
    {"km", "km"},
    {"cm", "cm"},
    {"mm", "mm"},
    {"metre", "m"},
    {"metres", "m"},
    {"meter", "m"},
    {"meters", "m"},
    {"kilometre", "km"},
    {"kilometres", "km"},
    {"kilometer", "km"},
    {"kilometers", "km"},
    {"mi", "mi"},
    {"mile", "mi"},
    {"miles", "mi"},
    {"nmi", "nmi"},
    {"ft", "ft"},
    {"foot", "ft"},
    {"feet", "ft"},
    {"in", "in"},
    {"inch", "in"},
    {"inches", "in"},
    {"yd", "yd"},
    {"yard", "yd"},
    {"yards", "yd"},
    // Volume; cubes of a length are here too, since a volume is a base quantity of its own
    {"L", "L"},
    {"l", "L"},
    {"litre", "L"},
    {"litres", "L"},
    {"liter", "L"},
    {"liters", "L"},
    {"mL", "mL"},
    {"ml", "mL"},
    {"millilitre", "mL"},
    {"millilitres", "mL"},
    {"milliliter", "mL"},
    {"milliliters", "mL"},
    {"cL", "cL"},
    {"cl", "cL"},
    {"dL", "dL"},
    {"dl", "dL"},
    {"m3", "cubic_m"},
    {"m^3", "cubic_m"},
    {"m³", "cubic_m"},
    {"cm3", "mL"},
    {"cm^3", "mL"},
    {"cm³", "mL"},
    {"cc", "mL"},
    {"dm3", "L"},
    {"dm^3", "L"},
    {"dm³", "L"},
    {"ft3", "cubic_ft"},
    {"ft^3", "cubic_ft"},
    {"ft³", "cubic_ft"},
    {"US gal", "US_gal"},
    {"US gallon", "US_gal"},
    {"US gallons", "US_gal"},
    {"gal(US)", "US_gal"},
    {"gallon(US)", "US_gal"},
    {"gallons(US)", "US_gal"},
    {"imp gal", "imp_gal"},
    {"imp gallon", "imp_gal"},
    {"imp gallons", "imp_gal"},
    {"gal(imp)", "imp_gal"},
    {"gallon(imp)", "imp_gal"},
    {"gallons(imp)", "imp_gal"},
    {"imperial gal", "imp_gal"},
    {"imperial gallon", "imp_gal"},
    {"imperial gallons", "imp_gal"},
    {"UK gal", "imp_gal"},
    {"UK gallon", "imp_gal"},
    {"UK gallons", "imp_gal"},
    {"US qt", "US_qt"},
    {"US quart", "US_qt"},
    {"US quarts", "US_qt"},
    {"imp qt", "imp_qt"},
    {"imp quart", "imp_qt"},
    {"imp quarts", "imp_qt"},
    {"US pt", "US_pt"},
    {"US pint", "US_pt"},
    {"US pints", "US_pt"},
    {"imp pt", "imp_pt"},
    {"imp pint", "imp_pt"},
    {"imp pints", "imp_pt"},
    // Time
    {"h", "h", true},
    {"hr", "h", true},
    {"hrs", "h", true},
    {"hour", "h", true},
    {"hours", "h", true},
    {"min", "min", true},
    {"mins", "min", true},
    {"minute", "min", true},
    {"minutes", "min", true},
    {"s", "s", true},
    {"sec", "s", true},
    {"second", "s", true},
    {"seconds", "s", true},
    {"d", "day", true},
    {"day", "day", true},
    {"days", "day", true},
    {"week", "week", true},
    {"weeks", "week", true},
    // Speed and fuel use
    {"kph", "kph"},
    {"kmh", "kph"},
    {"mph", "mph"},
    {"kn", "knot"},
    {"kt", "knot"},
    {"knot", "knot"},
    {"knots", "knot"},
    {"mpg(US)", "mpg_US"},
    {"mpg US", "mpg_US"},
    {"US mpg", "mpg_US"},
    {"mpg(imp)", "mpg_imp"},
    {"mpg imp", "mpg_imp"},
    {"imp mpg", "mpg_imp"},
    {"mpg(UK)", "mpg_imp"},
    {"mpg UK", "mpg_imp"},
    {"UK mpg", "mpg_imp"},
    // Temperature
    {"°C", "degC"},
    {"℃", "degC"},
    {"C", "degC"},
    {"degC", "degC"},
    {"deg C", "degC"},
    {"° C", "degC"},
    {"celsius", "degC"},
    {"Celsius", "degC"},
    {"°F", "degF"},
    {"℉", "degF"},
    {"F", "degF"},
    {"degF", "degF"},
    {"deg F", "degF"},
    {"° F", "degF"},
    {"fahrenheit", "degF"},
    {"Fahrenheit", "degF"},
    {"K", "K"},
    {"kelvin", "K"},
    // Power, energy, electricity
    {"W", "W"},
    {"kW", "kW"},
    {"mW", "mW"},
    {"watt", "W"},
    {"watts", "W"},
    {"J", "J"},
    {"kJ", "kJ"},
    {"MJ", "MJ"},
    {"Wh", "Wh"},
    {"kWh", "kWh"},
    {"kcal", "kcal"},
    {"A", "A"},
    {"mA", "mA"},
    {"amp", "A"},
    {"amps", "A"},
    {"Ah", "Ah"},
    {"mAh", "mAh"},
    {"V", "V"},
    {"kV", "kV"},
    {"mV", "mV"},
    {"volt", "V"},
    {"volts", "V"},
    // Pressure
    {"Pa", "Pa"},
    {"hPa", "hPa"},
    {"kPa", "kPa"},
    {"mbar", "hPa"},
    {"bar", "bar"},
    {"psi", "psi"},
    // Angle, share, count
    {"°", "deg"},
    {"deg", "deg"},
    {"degree", "deg"},
    {"degrees", "deg"},
    {"rad", "rad"},
    {"%", "percent"},
    {"percent", "percent"},
    {"per cent", "percent"},
    {"meal", "meal"},
    {"meals", "meal"},
});

constexpr auto ambiguities = std::to_array<Ambiguity>({
    {"gal", "can be two sizes", "US gal", "imp gal", false},
    {"gals", "can be two sizes", "US gal", "imp gal", false},
    {"gallon", "can be two sizes", "US gal", "imp gal", false},
    {"gallons", "can be two sizes", "US gal", "imp gal", false},
    {"gph", "can be two sizes", "US gal/h", "imp gal/h", false},
    {"mpg", "can be two sizes", "mpg (US)", "mpg (imp)", false},
    {"qt", "can be two sizes", "US qt", "imp qt", false},
    {"quart", "can be two sizes", "US qt", "imp qt", false},
    {"quarts", "can be two sizes", "US qt", "imp qt", false},
    {"pt", "can be two sizes", "US pt", "imp pt", false},
    {"pint", "can be two sizes", "US pt", "imp pt", false},
    {"pints", "can be two sizes", "US pt", "imp pt", false},
    {"ton", "can be three sizes", "t (1000 kg)", "kg", true},
    {"tons", "can be three sizes", "t (1000 kg)", "kg", true},
    {"oz", "can be a mass or a volume", "g", "mL", true},
    {"ounce", "can be a mass or a volume", "g", "mL", true},
    {"ounces", "can be a mass or a volume", "g", "mL", true},
    {"cup", "can be several sizes", "mL", "", true},
    {"cups", "can be several sizes", "mL", "", true},
    {"cal", "can be two sizes", "kcal", "kJ", true},
    {"cals", "can be two sizes", "kcal", "kJ", true},
    {"calorie", "can be two sizes", "kcal", "kJ", true},
    {"calories", "can be two sizes", "kcal", "kJ", true},
    {"hp", "can be several sizes", "kW", "", true},
    {"month", "can be several lengths", "days", "", true},
    {"months", "can be several lengths", "days", "", true},
});

constexpr bool continues_word(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

// True if a word ends where `text` is cut after `length` bytes: no letter runs on. Signs such as
// ° and % are words by themselves.
bool ends_word(std::string_view text, std::size_t length) {
  if (length == text.size()) return true;
  return !(continues_word(text[length - 1]) && continues_word(text[length]));
}

}  // namespace

std::span<const Spelling> all_spellings() { return spellings; }

const Spelling* longest_spelling(std::string_view text) {
  const Spelling* best = nullptr;
  for (const Spelling& s : spellings) {
    if (text.substr(0, s.text.size()) != s.text) continue;
    if (!ends_word(text, s.text.size())) continue;
    if (best == nullptr || s.text.size() > best->text.size()) best = &s;
  }
  return best;
}

const Ambiguity* ambiguity(std::string_view word) {
  const std::string small = lower_ascii(word);
  const auto* const found = std::find_if(ambiguities.begin(), ambiguities.end(),
                                         [&](const Ambiguity& a) { return a.word == small; });
  return found == ambiguities.end() ? nullptr : found;
}

bool is_spelling_but_for_case(std::string_view phrase) {
  const std::string small = lower_ascii(phrase);
  return std::any_of(spellings.begin(), spellings.end(),
                     [&](const Spelling& s) { return lower_ascii(s.text) == small; });
}

std::optional<std::string> nearest_spelling(std::string_view word,
                                            const std::function<bool(std::string_view)>& may_be) {
  // Short words must match up to case; longer ones may differ by a third of their letters.
  const double limit = std::max(0.5 * static_cast<double>(std::min<std::size_t>(word.size(), 2)),
                                static_cast<double>(word.size()) / 3.0);
  double nearest = std::numeric_limits<double>::infinity();
  std::optional<std::string> best;
  for (const Spelling& s : spellings) {
    const auto distance = edit_distance(word, s.text, limit);
    if (distance && *distance < nearest && (!may_be || may_be(s.text))) {
      nearest = *distance;
      best = std::string(s.text);
    }
  }
  // Brackets are looked up without the blank before them, but read better with it.
  const std::size_t bracket = best ? best->find('(') : std::string::npos;
  if (bracket != std::string::npos) best->insert(bracket, " ");
  return best;
}

}  // namespace drystage::units
