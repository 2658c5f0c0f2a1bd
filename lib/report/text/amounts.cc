#include "report/text/amounts.h"

#include <algorithm>
#include <cmath>

#include "report/text/words.h"

namespace drystage::report {
namespace {

constexpr double too_small = 1e-6;

std::string shown(double canonical, units::Kind kind, units::System system, Toward toward) {
  const double number = units::display(kind, system).number(canonical);
  const bool small = std::abs(number) < 9.95 && std::abs(number) > too_small;
  const int digits = small ? 1 : 0;
  return units::format_number(rounded(number, digits, toward), units::decimals(digits));
}

std::string with_unit(const std::string& number, units::Kind kind, units::System system) {
  return number + " " + std::string(units::display(kind, system).unit);
}

}  // namespace

std::string rounded_words(double canonical, units::Kind kind, units::System system, int digits,
                          Toward toward) {
  const double number = rounded(units::display(kind, system).number(canonical), digits, toward);
  return with_unit(units::format_number(number == 0 ? 0 : number, units::decimals(digits)), kind,
                   system);
}

std::string mass_number(double kg, units::System system, Toward toward) {
  return shown(kg, units::Kind::mass, system, toward);
}

std::string mass_words(double kg, units::System system, Toward toward) {
  return with_unit(mass_number(kg, system, toward), units::Kind::mass, system);
}

std::string volume_number(double volume_l, units::System system, Toward toward) {
  return shown(volume_l, units::Kind::volume, system, toward);
}

std::string volume_words(double volume_l, units::System system, Toward toward) {
  return with_unit(volume_number(volume_l, system, toward), units::Kind::volume, system);
}

std::string cost_number(double cost) {
  const int digits = same(cost, std::round(cost)) ? 0 : 2;
  return units::format_number(rounded(cost, digits, Toward::up), units::decimals(digits));
}

std::string quantity_words(double quantity, std::string_view unit, units::System system) {
  constexpr int digits = 3;
  const auto number = [](double shown) {
    return units::format_number(shown, units::significant(digits));
  };
  for (const units::Kind kind : {units::Kind::volume, units::Kind::mass}) {
    if (unit != units::canonical_unit(kind)) continue;
    return with_unit(number(units::display(kind, system).number(quantity)), kind, system);
  }
  if (unit == "days" && same(quantity, 1)) return "1 day";
  return unit.empty() ? number(quantity) : number(quantity) + " " + std::string(unit);
}

bool same(double a, double b) { return std::abs(a - b) <= too_small; }

double rounded(double number, int digits, Toward toward) {
  constexpr double noise = 1e-6;
  const double scale = std::pow(10.0, digits);
  const double slip = noise * scale;
  const double whole =
      toward == Toward::up ? std::ceil(number * scale - slip) : std::floor(number * scale + slip);
  return whole / scale;
}

int digits_for(const engine::ReserveInfo& reserve, double level, units::System system) {
  const double shown = std::abs(display_number(reserve, level, system));
  const bool small = !reserve.counted && shown < 9.95 && shown > 1e-6;
  return small ? std::max(1, reserve.decimals) : reserve.decimals;
}

std::string amount_toward(const engine::ReserveInfo& reserve, double level, units::System system,
                          Toward toward, int digits) {
  const double number = rounded(display_number(reserve, level, system), digits, toward);
  return units::format_number(number, units::decimals(number == 0 ? 0 : digits));
}

std::string amount_toward(const engine::ReserveInfo& reserve, double level, units::System system,
                          Toward toward) {
  const int digits = digits_for(reserve, level, system);
  return amount_toward(reserve, level, system, toward, digits) + " " + unit(reserve, system);
}

std::string difference_words(const engine::ReserveInfo& info, double by, units::System system) {
  if (info.kind != units::Kind::temperature) return amount_toward(info, by, system, Toward::up);
  const double number = by * units::display(units::Kind::temperature, system).scale;
  return units::format_number(rounded(number, 1, Toward::up), units::decimals(1)) + " " +
         unit(info, system);
}

}  // namespace drystage::report
