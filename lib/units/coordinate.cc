#include "units/coordinate.h"

#include <fmt/core.h>

#include <array>
#include <optional>
#include <string>

#include "units/number.h"
#include "units/parse.h"
#include "units/text.h"

namespace drystage::units {
namespace {

bool take(std::string_view& text, std::string_view what) {
  if (!text.starts_with(what)) return false;
  text.remove_prefix(what.size());
  return true;
}

void skip_blank(std::string_view& text) { take(text, " "); }

template <std::size_t n>
bool take_mark(std::string_view& text, const std::array<std::string_view, n>& marks) {
  skip_blank(text);
  for (const std::string_view mark : marks) {
    if (take(text, mark)) return true;
  }
  return false;
}

// Signs of degrees, minutes and seconds: typewriter's, typesetter's (prime) and word processor's.
constexpr std::array<std::string_view, 4> degree_marks{"°", "degrees", "degree", "deg"};
constexpr std::array<std::string_view, 3> minute_marks{"'", "′", "’"};
constexpr std::array<std::string_view, 4> second_marks{"\"", "''", "″", "”"};

// "12' 36\"" as a share of a degree; nothing if something else is there.
std::optional<double> rest_of_degree(std::string_view text) {
  constexpr double minutes = 60;
  double sum = 0;
  double part = 1;
  const auto take_part = [&](const auto& marks) {
    skip_blank(text);
    std::string_view after = text;
    const std::size_t length = text.find_first_not_of("0123456789.");
    if (length == 0 || length == std::string_view::npos) return false;
    const auto number = read_number(text.substr(0, length));
    after.remove_prefix(length);
    part /= minutes;
    if (!number || number->value >= minutes || !take_mark(after, marks)) return false;
    sum += number->value * part;
    text = after;
    return true;
  };
  if (!take_part(minute_marks)) return std::nullopt;
  if (!text.empty() && !take_part(second_marks)) return std::nullopt;
  return text.empty() ? std::optional(sum) : std::nullopt;
}

// The letter of a direction at either end, taken off; 0 if there is none.
char take_letter(std::string& text) {
  const auto direction = [](char c) {
    const auto upper = static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
    return upper == 'N' || upper == 'S' || upper == 'E' || upper == 'W' ? upper : '\0';
  };
  const auto word_ends = [](char c) { return c == ' ' || c == '.' || is_digit(c); };
  if (text.size() < 2) return 0;
  char found = direction(text.front());
  if (found != 0 && word_ends(text[1])) {
    text.erase(0, 1);
  } else {
    found = direction(text.back());
    // The s of "degrees" is no direction.
    const char before = text[text.size() - 2];
    if (found == 0 || (before >= 'a' && before <= 'z')) return 0;
    text.pop_back();
  }
  text = tidy_blanks(text);
  return found;
}

Result<double> degrees_of(const std::string& text, bool has_letter, const Axis& axis) {
  const Result<Number> number = read_number(text);
  if (!number) return number.problem();
  const std::string digits = text.substr(0, number->length);
  std::string_view rest = std::string_view(text).substr(number->length);
  if (rest.empty()) {
    if (has_letter) return number->value;
    return Problem{fmt::format("{} has no unit", text), "",
                   number->value < 0 ? fmt::format("write {}°", digits)
                                     : fmt::format("write {0}° {1} or {0}° {2}", digits,
                                                   axis.positive, axis.negative)};
  }
  const bool in_degrees = take_mark(rest, degree_marks);
  if (in_degrees && rest.empty()) return number->value;
  if (const auto more = in_degrees ? rest_of_degree(rest) : std::nullopt) {
    return digits.front() == '-' || number->value < 0 ? number->value - *more
                                                      : number->value + *more;
  }
  return parse(text, Kind::angle);
}

}  // namespace

Result<double> parse_coordinate(std::string_view text, const Axis& axis) {
  const std::string whole = tidy_blanks(text);
  const std::string expected = fmt::format("an angle, such as 27.1° {0}, 27.1° {1} or 27°06' {1}",
                                           axis.positive, axis.negative);
  if (!is_printable_utf8(text) || whole.empty()) {
    return Problem{fmt::format("{} is not an angle", in_quotes(text)), expected, ""};
  }
  std::string rest = whole;
  const char letter = take_letter(rest);
  if (letter != 0 && letter != axis.positive && letter != axis.negative) {
    return Problem{fmt::format("{}: {} is no direction of a {}", whole, letter, axis.name),
                   fmt::format("{} or {}", axis.positive, axis.negative),
                   "are latitude and longitude exchanged?"};
  }
  const Result<double> degrees = degrees_of(rest, letter != 0, axis);
  if (!degrees) {
    const Problem& problem = degrees.problem();
    return Problem{problem.what, expected, problem.hint};
  }
  if (letter != 0 && (rest.front() == '+' || !is_digit(rest.front()))) {
    return Problem{fmt::format("{} has both a sign and a letter", whole), "one of the two", ""};
  }
  return letter == axis.negative ? -*degrees : *degrees;
}

}  // namespace drystage::units
