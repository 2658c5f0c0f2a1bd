#include "plan/schema_patterns.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "units/expression.h"
#include "units/list.h"
#include "units/registry.h"
#include "units/spelling.h"

namespace drystage::plan {
namespace {

// The blanks that a unit may have in front, as units::tidy_blanks has them.
constexpr std::string_view blank = "[ \t\u00a0\u2007\u2009\u202f]";
constexpr std::string_view number = "(?:[0-9]+[.]?[0-9]*|[.][0-9]+)(?:[eE][-+]?[0-9]+)?";

std::string any_blanks() { return fmt::format("{}*", blank); }

std::string signed_number(bool below_zero) {
  // Of what cannot be negative, "-0" is still let pass, as the reader does.
  return fmt::format(
      "{}{}", below_zero ? "[-+\u2212]?" : "(?:[+]|[-\u2212](?=[0.]+(?:[^0-9.]|$)))?", number);
}

std::string escaped(std::string_view text) {
  std::string made;
  for (const char c : text) {
    if (c == '(' || c == ')' || c == '^') made += '\\';
    made += c;
  }
  return made;
}

bool measures(const std::string& unit, std::span<const Range> ranges) {
  const auto read = units::read_expression(unit, "1");
  return read && std::ranges::any_of(ranges, [&](const Range& range) {
           return range.kind && units::conversion(*read, *range.kind).has_value();
         });
}

// Every unit that has a spelling of its own, and the usual and canonical ones of every kind.
const std::vector<std::string>& known_units() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> made;
    for (const units::Spelling& spelling : units::all_spellings()) {
      made.emplace_back(spelling.text);
    }
    for (std::size_t i = 0; i < units::kind_count; ++i) {
      const auto kind = static_cast<units::Kind>(i);
      made.emplace_back(units::usual_unit(kind));
      if (!units::canonical_unit(kind).empty()) made.emplace_back(units::canonical_unit(kind));
    }
    return units::each_once(std::move(made));
  }();
  return all;
}

// Whether a text may be a unit that is made of several, or a power; these are not taken apart here.
constexpr std::string_view signs_of_several = " /*23^\u00b2\u00b3\u00b7\u22c5";

}  // namespace

std::string amount_pattern(std::span<const Range> ranges) {
  std::string right;
  std::string wrong;
  for (const std::string& unit : known_units()) {
    const bool fits = measures(unit, ranges);
    // A plain unit that does not fit matches nothing anyway.
    if (!fits && unit.find_first_of(signs_of_several) == std::string::npos) continue;
    std::string& list = fits ? right : wrong;
    list += (list.empty() ? "" : "|") + escaped(unit);
  }
  const bool below_zero =
      std::ranges::any_of(ranges, [](const Range& range) { return range.least < 0; });
  // It begins with no blank, or what was looked at before it would not be the whole unit.
  const std::string of_several = fmt::format("(?:/|per{0}|[^0-9.,{1}.*(?:{0}|[{2}])).*", blank,
                                             blank.substr(1), signs_of_several.substr(1));
  return fmt::format("^{0}{1}{0}(?:(?:{2})|(?!(?:{3}){0}$){4}){0}$", any_blanks(),
                     signed_number(below_zero), right, wrong, of_several);
}

std::string count_pattern(const Range& range) {
  std::string word;
  // Any words, but no number and no fraction of units.
  const std::string own = fmt::format("[^0-9/{}+", blank.substr(1));
  if (range.unit == own_word) word = fmt::format("{0}(?:{1}+{0})*", own, blank);
  for (const char c : range.shown_unit())
    word += c == ' ' ? fmt::format("{}+", blank) : std::string(1, c);
  return fmt::format("^{0}{1}{0}(?:{2})?{0}$", any_blanks(), signed_number(range.least < 0), word);
}

std::string coordinate_pattern(std::string_view others) {
  return fmt::format(
      "^(?=.*[0-9])(?=.*[°A-Za-z])(?!.*[^a-z][{0}]{1}$)(?!{1}[{0}][ .0-9])"
      "(?:[-+\u2212.°'\"\u2032\u2033\u2019\u201dNSEWnsew0-9]|degrees?|deg|{2})*$",
      others, any_blanks(), blank);
}

std::string text_pattern() { return fmt::format("[^{}", blank.substr(1)); }

std::string loose_word_pattern(std::string_view word, std::size_t least) {
  std::string made = "^";
  for (std::size_t i = 0; i < word.size(); ++i) {
    if (i == least) made += "(?:";
    made += fmt::format("[{}{}]", static_cast<char>(word[i] - 'a' + 'A'), word[i]);
  }
  return made + (least < word.size() ? ")?$" : "$");
}

}  // namespace drystage::plan
