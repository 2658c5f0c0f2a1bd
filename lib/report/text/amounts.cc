#include "report/text/amounts.h"

#include <cmath>

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

}  // namespace drystage::report
