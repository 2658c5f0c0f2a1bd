#include "plan/written.h"

#include <fmt/core.h>

#include "units/parse.h"

namespace drystage::plan {

std::string written_amount(double value, units::Kind kind, const units::Display& shown) {
  const char* blank = kind == units::Kind::angle ? "" : " ";
  constexpr int most_places = 15;
  for (int places = 0; places <= most_places; ++places) {
    std::string text = fmt::format("{:.{}f}{}{}", shown.number(value), places, blank, shown.unit);
    const auto read = units::parse(text, kind);
    if (read && *read == value) return text;
  }
  return fmt::format("{}{}{}", shown.number(value), blank, shown.unit);
}

std::string written_amount(double value, units::Kind kind) {
  return written_amount(value, kind, units::display(kind, units::System::metric));
}

}  // namespace drystage::plan
