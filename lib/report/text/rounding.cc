#include "report/text/rounding.h"

#include <algorithm>
#include <cmath>

#include "report/text/words.h"

namespace drystage::report {

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
  const bool small = shown < 9.95 && shown > 1e-6;
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
  if (info.unit != "°C") return amount_toward(info, by, system, Toward::up);
  const double number = by * units::display(units::Kind::temperature, system).scale;
  return units::format_number(rounded(number, 1, Toward::up), units::decimals(1)) + " " +
         unit(info, system);
}

}  // namespace drystage::report
