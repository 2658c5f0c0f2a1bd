#include "units/number.h"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <string>
#include <system_error>

#include "units/text.h"

namespace drystage::units {
namespace {

constexpr std::string_view unicode_minus = "\xE2\x88\x92";  // U+2212
constexpr std::string_view en_dash = "\xE2\x80\x93";        // U+2013

bool starts_with_digit(std::string_view text) { return !text.empty() && is_digit(text[0]); }

Problem comma_problem(std::string_view text, std::string_view whole, std::string_view rest) {
  const auto* const end = std::find_if_not(rest.begin(), rest.end(), is_digit);
  const auto digits = static_cast<std::size_t>(end - rest.begin());
  const std::string_view after = rest.substr(digits);
  const std::string point = fmt::format("{}.{}", whole, rest);
  if (digits == 3) {
    const std::string joined = fmt::format("{}{}{}", whole, rest.substr(0, digits), after);
    return {fmt::format("{} has a comma in its number", text), "",
            fmt::format("write {} or {}", joined, point)};
  }
  return {fmt::format("{} has a decimal comma", text), "", fmt::format("write {}", point)};
}

// What may not follow a number; `rest` is what does. An empty `what` means that all is well.
Problem trouble_after(std::string_view text, std::string_view whole, std::string_view rest) {
  if (rest.empty()) return {};
  if (rest[0] == ',' && starts_with_digit(rest.substr(1))) {
    return comma_problem(text, whole, rest.substr(1));
  }
  if (rest[0] == '.' && starts_with_digit(rest.substr(1))) {
    return {fmt::format("{} has two decimal points", text), "", ""};
  }
  if (rest[0] == ' ' && starts_with_digit(rest.substr(1))) {
    return {fmt::format("{} has a space inside its number", text), "",
            fmt::format("write {}{}", whole, rest.substr(1))};
  }
  for (const std::string_view dash : {std::string_view("-"), en_dash, unicode_minus}) {
    if (rest.substr(0, dash.size()) == dash && starts_with_digit(rest.substr(dash.size()))) {
      return {fmt::format("{} is a range", text), "", "write one number"};
    }
  }
  return {};
}

}  // namespace

Result<Number> read_number(std::string_view text) {
  std::string_view body = text;
  std::string sign;
  if (body.substr(0, unicode_minus.size()) == unicode_minus) {
    body.remove_prefix(unicode_minus.size());
    sign = "-";
  } else if (!body.empty() && (body[0] == '-' || body[0] == '+')) {
    if (body[0] == '-') sign = "-";
    body.remove_prefix(1);
  }
  const bool begins =
      starts_with_digit(body) || (body.substr(0, 1) == "." && starts_with_digit(body.substr(1)));
  if (!begins) {
    const bool any = std::any_of(text.begin(), text.end(), is_digit);
    return Problem{fmt::format("{} {}", in_quotes(text),
                               any ? "does not start with a number" : "has no number"),
                   "", ""};
  }
  double value = 0.0;
  const auto [end, error] =
      std::from_chars(body.data(), body.data() + body.size(), value, std::chars_format::general);
  if (error == std::errc::result_out_of_range) {
    return Problem{fmt::format("{} is too large or too small a number", in_quotes(text)), "", ""};
  }
  const auto length = static_cast<std::size_t>(end - body.data());
  Problem after =
      trouble_after(text, sign + std::string(body.substr(0, length)), body.substr(length));
  if (!after.what.empty()) return after;
  if (!sign.empty()) value = -value;
  return Number{value, static_cast<std::size_t>(end - text.data())};
}

}  // namespace drystage::units
