#include "units/format.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "units/expression.h"
#include "units/registry.h"

namespace drystage::units {
namespace {

constexpr std::size_t system_count = 3;
constexpr double plain_limit = 1e15;  // from here on a power of ten is written
constexpr int most_digits = 15;

std::string_view unit_shown(Kind kind, System system) {
  if (system == System::metric) return usual_unit(kind);
  const bool us = system == System::us;
  switch (kind) {
    case Kind::mass:
      return "lb";
    case Kind::mass_per_day:
      return "lb/day";
    case Kind::length:
    case Kind::elevation:
      return "ft";
    case Kind::distance:
      return "mi";
    case Kind::area:
      return "ft2";
    case Kind::speed:
    case Kind::wind:
      return "mph";
    case Kind::volume:
      return us ? "US gal" : "imp gal";
    case Kind::volume_per_day:
      return us ? "US gal/day" : "imp gal/day";
    case Kind::fuel_rate:
      return us ? "US gal/h" : "imp gal/h";
    case Kind::fuel_use:
      return us ? "mpg (US)" : "mpg (imp)";
    case Kind::temperature:
    case Kind::temperature_difference:
      return us ? "°F" : "°C";
    default:
      return usual_unit(kind);
  }
}

Display make_display(Kind kind, System system) {
  Display out;
  out.unit = unit_shown(kind, system);
  const Result<Expression> unit = read_expression(out.unit, "1");
  const auto to_canonical = unit ? conversion(*unit, kind) : std::nullopt;
  if (!to_canonical) throw std::logic_error("a display unit does not fit its kind");
  const Conversion back = to_canonical->reversed();
  out.scale = back.scale / back.divisor;
  out.offset = back.offset;
  out.inverse = back.inverse;
  return out;
}

using Displays = std::array<std::array<Display, system_count>, kind_count>;

Displays make_displays() {
  Displays all;
  for (std::size_t kind = 0; kind < kind_count; ++kind) {
    for (std::size_t system = 0; system < system_count; ++system) {
      all.at(kind).at(system) = make_display(static_cast<Kind>(kind), static_cast<System>(system));
    }
  }
  return all;
}

void drop_end_zeros(std::string& text) {
  if (text.find('.') == std::string::npos) return;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
}

bool is_zero(std::string_view text) {
  return text.find_first_of("123456789") == std::string_view::npos;
}

int places(double number, Digits digits) {
  const int count = std::clamp(digits.count, 0, most_digits);
  if (digits.after_point || number == 0.0) return count;
  const int before = static_cast<int>(std::floor(std::log10(std::abs(number)))) + 1;
  return std::clamp(count - before, 0, 2 * most_digits);
}

}  // namespace

double Display::number(double canonical) const {
  return inverse ? scale / canonical : canonical * scale + offset;
}

Display display(Kind kind, System system) {
  static const Displays all = make_displays();
  return all.at(static_cast<std::size_t>(kind)).at(static_cast<std::size_t>(system));
}

std::string format_number(double number, Digits digits) {
  if (!std::isfinite(number)) return "?";
  if (std::abs(number) >= plain_limit) return fmt::format("{:.{}e}", number, most_digits);
  std::string text = fmt::format("{:.{}f}", number, places(number, digits));
  if (!digits.after_point) drop_end_zeros(text);
  if (text.front() == '-' && is_zero(text)) text.erase(0, 1);
  return text;
}

std::string format(double canonical, Kind kind, System system, Digits digits) {
  const Display shown = display(kind, system);
  std::string number = format_number(shown.number(canonical), digits);
  if (number == "?") return number;
  return fmt::format("{}{}{}", number, shown.unit == "°" ? "" : " ", shown.unit);
}

}  // namespace drystage::units
