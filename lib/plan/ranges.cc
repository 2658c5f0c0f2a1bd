#include "plan/ranges.h"

#include <fmt/core.h>

#include <array>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

#include "units/expression.h"
#include "units/format.h"
#include "units/list.h"
#include "units/number.h"
#include "units/parse.h"
#include "units/registry.h"

namespace drystage::plan {
namespace {

/// What is usual and possible in canonical units.
struct Bounds {
  double usual_low;
  double usual_high;
  double least;
  double most;
};

/// One is a day, all else are days.
std::string with_unit(const std::string& number, std::string_view unit) {
  if (number == "1" && unit == "days") unit = "day";
  return fmt::format("{}{}{}", number, unit.empty() || unit == "°" ? "" : " ", unit);
}

std::string written(double number, std::string_view unit) {
  const std::string text = units::format_number(number, units::significant(6));
  return with_unit(text, unit);
}

/// In canonical units; a count is one already.
std::optional<double> read_as(const Range& range, double number, std::string_view unit) {
  if (!range.kind) return number;
  const auto read = units::parse(written(number, unit), *range.kind);
  return read ? std::optional(*read) : std::nullopt;
}

/// From the unit of a range to the canonical one. Some dozens of kinds and units make all ranges,
/// so each is looked up once.
const units::Conversion& to_canonical(units::Kind kind, std::string_view unit) {
  thread_local std::map<std::pair<units::Kind, std::string_view>, units::Conversion> known;
  const auto [at, is_new] = known.try_emplace({kind, unit});
  if (is_new) at->second = units::conversion(*units::read_expression(unit, "1"), kind).value();
  return at->second;
}

Bounds bounds_of(const Range& r) {
  if (!r.kind) return {r.usual_low, r.usual_high, r.least, r.most};
  const units::Conversion& from = to_canonical(*r.kind, r.unit);
  return {from.apply(r.usual_low), from.apply(r.usual_high), from.apply(r.least),
          from.apply(r.most)};
}

/// How somebody may have meant a number: with its usual unit; "0.5" of a share is 50 %.
std::string with_usual_unit(const Range& range, double number) {
  const bool share = range.kind == units::Kind::fraction && number > 0 && number <= 1;
  return written(share ? number * 100 : number, range.shown_unit());
}

bool is_usual_text(const Range& range, const std::string& text) {
  if (!range.kind) return false;
  const auto read = units::parse(text, *range.kind);
  return read && fit_of(range, *read) == Fit::usual;
}

}  // namespace

Fit fit_of(const Range& range, double value) {
  const Bounds bounds = bounds_of(range);
  // A last digit of rounding is no matter.
  const auto below = [value](double bound) { return value < bound - 1e-9 * std::abs(bound); };
  const auto above = [value](double bound) { return value > bound + 1e-9 * std::abs(bound); };
  if (below(bounds.least)) return Fit::too_low;
  if (above(bounds.most)) return Fit::too_high;
  if (below(bounds.usual_low) && !(value == 0 && range.zero_is_usual)) return Fit::low;
  return above(bounds.usual_high) ? Fit::high : Fit::usual;
}

std::string usual_words(const Range& range) {
  return fmt::format("{}{} to {}", range.zero_is_usual ? "0, or " : "",
                     units::format_number(range.usual_low, units::significant(6)),
                     written(range.usual_high, range.shown_unit()));
}

std::string possible_words(const Range& range) {
  return fmt::format("from {} to {}", units::format_number(range.least, units::significant(6)),
                     written(range.most, range.shown_unit()));
}

std::string in_its_unit(const Range& range, double value) {
  // Every unit but those of temperature begins at zero.
  const double one = read_as(range, 1, range.unit).value();
  const bool thermometer = range.kind == units::Kind::temperature;
  const double number = thermometer ? value : value / one;
  const std::string text = units::format_number(number, units::significant(3));
  return with_unit(text, range.shown_unit());
}

std::string example(const Range& range) {
  const bool all_above_0 = range.usual_low > 0;
  const double middle = all_above_0 ? std::sqrt(range.usual_low * range.usual_high)
                                    : (range.usual_low + range.usual_high) / 2;
  if (range.kind && range.unit == units::usual_unit(*range.kind)) {
    // That of the kind, where it is not far from what is usual of this key.
    constexpr double far = 5;
    std::string usual(units::example(*range.kind));
    const double ratio = units::read_number(usual)->value / middle;
    const bool near = !all_above_0 || (ratio < far && ratio > 1 / far);
    if (near && is_usual_text(range, usual)) return usual;
  }
  const double step = middle == 0 ? 1 : std::pow(10, std::floor(std::log10(std::abs(middle))));
  return written(std::round(middle / step) * step, range.shown_unit());
}

std::string with_units(std::span<const Range> ranges, double number) {
  std::vector<std::string> usual;
  std::vector<std::string> possible;
  std::vector<std::string> all;
  for (const Range& range : ranges) {
    if (!range.kind) continue;
    const std::string text = all.emplace_back(with_usual_unit(range, number));
    const auto read = units::parse(text, *range.kind);
    if (!read) continue;
    const Fit fit = fit_of(range, *read);
    if (fit == Fit::usual) usual.push_back(text);
    if (fit != Fit::too_low && fit != Fit::too_high) possible.push_back(text);
  }
  return units::listed(!usual.empty() ? usual : !possible.empty() ? possible : all, " or ");
}

std::string likely_meant(std::span<const Range> ranges, const Range& range, double number) {
  // The units that are taken for one another.
  static constexpr std::array<std::string_view, 22> others{
      "kg",  "g",    "t", "lb", "L",      "mL", "km", "m", "cm", "mm",   "h",
      "min", "days", "W", "kW", "Wh/day", "A",  "Ah", "V", "°F", "km/h", "m/s"};
  std::vector<std::string> tries{with_usual_unit(range, number),
                                 written(number * 100, range.shown_unit())};
  if (range.kind != units::Kind::fraction) tries.pop_back();
  for (const std::string_view unit : others) tries.push_back(written(number, unit));
  for (const std::string& text : tries) {
    if (is_usual_text(range, text)) return text;
  }
  for (const Range& other : ranges) {
    std::string text = with_usual_unit(other, number);
    if (&other != &range && is_usual_text(other, text)) return text;
  }
  return {};
}

}  // namespace drystage::plan
