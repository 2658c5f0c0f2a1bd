#include "report/text/csv.h"

#include <cmath>

#include "units/format.h"

namespace drystage::report {

std::string cell(std::string_view text) {
  constexpr std::string_view formula_starts = "=+-@\t\r";
  std::string out;
  if (!text.empty() && formula_starts.find(text.front()) != std::string_view::npos) out = "'";
  out += text;
  if (out.find_first_of(",\"\r\n") == std::string::npos) return out;
  std::string quoted = "\"";
  for (const char c : out) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + "\"";
}

std::string number(double value) {
  constexpr int digits = 4;
  return std::isfinite(value) ? units::format_number(value, units::decimals(digits)) : "";
}

}  // namespace drystage::report
