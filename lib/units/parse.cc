#include "units/parse.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "units/expression.h"
#include "units/list.h"
#include "units/number.h"
#include "units/registry.h"
#include "units/text.h"

namespace drystage::units {
namespace {

constexpr std::size_t longest_amount = 100;  // bytes

std::string expectation(std::span<const Kind> kinds) {
  std::vector<std::string> names;
  std::vector<std::string> examples;
  for (const Kind kind : kinds) {
    names.emplace_back(name(kind));
    examples.emplace_back(example(kind));
  }
  return fmt::format("{}, such as {}", listed(names, " or "), listed(examples, " or "));
}

// The number with the unit people mostly use for the kind.
std::string with_unit(std::string_view number, double value, Kind kind) {
  if (kind == Kind::angle) return fmt::format("{}{}", number, usual_unit(kind));
  if (kind == Kind::fraction && value > 0.0 && value <= 1.0) {
    return fmt::format("{:.6g} %", value * 100.0);
  }
  return fmt::format("{} {}", number, usual_unit(kind));
}

Problem bare_number(std::string_view number, double value, std::span<const Kind> kinds) {
  std::vector<std::string> fixes;
  for (const Kind kind : kinds) fixes.push_back(with_unit(number, value, kind));
  return {fmt::format("{} has no unit", number), "",
          fmt::format("write {}", listed(fixes, " or "))};
}

Problem wrong_kind(std::string_view text, const Expression& unit) {
  const std::optional<Kind> kind = kind_of(unit);
  if (!kind) return {fmt::format("{} is not a kind of amount used here", text), "", ""};
  return {fmt::format("{} is {}", text, family_name(*kind)), "", ""};
}

// parse_any, but for `expected`, which is the same for every Problem.
Result<Quantity> read(std::string_view raw, std::span<const Kind> kinds) {
  if (raw.size() > longest_amount) {
    return Problem{fmt::format("{} is too long for an amount", in_quotes(raw)), "", ""};
  }
  if (!is_printable_utf8(raw)) {
    return Problem{fmt::format("{} holds a character that cannot be read", in_quotes(raw)), "", ""};
  }
  const std::string text = tidy_blanks(raw);
  if (text.empty()) return Problem{"nothing is written here", "", ""};

  const Result<Number> number = read_number(text);
  if (!number) return number.problem();
  const std::string digits = text.substr(0, number->length);
  const std::string unit_text = tidy_blanks(std::string_view(text).substr(number->length));
  if (unit_text.empty()) return bare_number(digits, number->value, kinds);

  const auto fits = [&](const Expression& unit) {
    return std::ranges::any_of(kinds,
                               [&](Kind kind) { return conversion(unit, kind).has_value(); });
  };
  const Result<Expression> unit = read_expression(unit_text, digits, fits);
  if (!unit) return unit.problem();
  for (const Kind kind : kinds) {
    const std::optional<Conversion> to_canonical = conversion(*unit, kind);
    if (!to_canonical) continue;
    const double value = to_canonical->apply(number->value);
    if (std::isfinite(value)) return Quantity{kind, value};
    return Problem{fmt::format("{} has no finite value in {}", text, canonical_unit(kind)), "", ""};
  }
  return wrong_kind(text, *unit);
}

}  // namespace

Result<Quantity> parse_any(std::string_view text, std::span<const Kind> kinds) {
  Result<Quantity> result = read(text, kinds);
  if (result) return result;
  Problem problem = result.problem();
  problem.expected = expectation(kinds);
  return problem;
}

Result<double> parse(std::string_view text, Kind kind) {
  const Result<Quantity> result = parse_any(text, {&kind, 1});
  if (!result) return result.problem();
  return result->value;
}

}  // namespace drystage::units
