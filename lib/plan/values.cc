#include "plan/values.h"

#include <algorithm>
#include <boost/date_time/gregorian/gregorian_types.hpp>
#include <cmath>

#include "plan/utf8.h"
#include "units/format.h"
#include "units/number.h"

namespace drystage::plan {
namespace {

bool within(double value, const Limits& limits) {
  return (limits.above_low ? value > limits.low : value >= limits.low) && value <= limits.high;
}

// Says which side of the limits was left, in plain words.
std::string out_of_limits(std::string_view name, std::string_view text, double value,
                          const Limits& limits) {
  if (limits.low == 0 && value < 0) return fmt::format("{}: {} is negative", name, text);
  return fmt::format("{}: {} is too {}", name, text, value > limits.high ? "high" : "low");
}

bool is_text(Log& log, const Node& node, std::string_view name, std::string_view expected) {
  if (node.kind == Node::Kind::text) return true;
  log_wrong_form(log, node, name, expected);
  return false;
}

// The number of `count` digits at `at`, or nothing if other characters are there.
std::optional<int> digits(std::string_view text, std::size_t at, std::size_t count) {
  if (at + count > text.size()) return std::nullopt;
  int value = 0;
  for (const char c : text.substr(at, count)) {
    if (!units::is_digit(c)) return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

// "8:00" or "08:30" in hours; nothing if it is something else.
std::optional<double> clock_hours(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon != 1 && colon != 2) return std::nullopt;
  const auto hour = digits(text, 0, colon);
  const auto minute = digits(text, colon + 1, 2);
  if (!hour || !minute || text.size() != colon + 3 || *minute > 59) return std::nullopt;
  return *hour + *minute / 60.0;
}

}  // namespace

void log_wrong_form(Log& log, const Node& node, std::string_view name, std::string_view expected) {
  const char* found = "the value is missing";
  if (node.kind == Node::Kind::list) found = "a list does not belong here";
  if (node.kind == Node::Kind::map) found = "a map of keys does not belong here";
  if (node.kind == Node::Kind::text) found = "a plain value does not belong here";
  log.error(node.spot, fmt::format("{}: {}", name, found), std::string(expected));
}

std::optional<units::Quantity> read_quantity_of(Log& log, const Node& node, std::string_view name,
                                                std::span<const units::Kind> kinds,
                                                const Limits& limits) {
  if (node.kind != Node::Kind::text) {
    std::string expected;
    for (const units::Kind kind : kinds) {
      if (!expected.empty()) expected += " or ";
      expected += fmt::format("{}, such as {}", units::name(kind), units::example(kind));
    }
    log_wrong_form(log, node, name, expected);
    return std::nullopt;
  }
  const units::Result<units::Quantity> read = units::parse_any(node.text, kinds);
  if (!read) {
    const units::Problem& problem = read.problem();
    log.error(node.spot, fmt::format("{}: {}", name, problem.what), problem.expected, problem.hint);
    return std::nullopt;
  }
  if (!within(read->value, limits)) {
    log.error(node.spot, out_of_limits(name, node.text, read->value, limits),
              std::string(limits.words));
    return std::nullopt;
  }
  return *read;
}

std::optional<double> read_quantity(Log& log, const Node& node, std::string_view name,
                                    units::Kind kind, const Limits& limits) {
  const auto read = read_quantity_of(log, node, name, {&kind, 1}, limits);
  if (!read) return std::nullopt;
  return read->value;
}

bool is_bare_number(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(),
                                      [](char c) { return units::is_digit(c) || c == '.'; });
}

std::optional<double> read_time(Log& log, const Node& node, std::string_view name,
                                const Limits& limits) {
  if (node.kind == Node::Kind::text && is_bare_number(node.text)) {
    log.error(node.spot, fmt::format("{}: {} has no unit", name, node.text),
              "a time, such as 3 days or 36 h",
              fmt::format("write {} days, or {} h", node.text, node.text));
    return std::nullopt;
  }
  return read_quantity(log, node, name, units::Kind::time_h, limits);
}

std::optional<double> read_number(Log& log, const Node& node, std::string_view name,
                                  const Limits& limits, std::string_view word) {
  const std::string expected =
      fmt::format("a number, {}{}", limits.words.empty() ? "such as 3" : limits.words,
                  word.empty() ? std::string() : fmt::format("; \"{}\" may follow it", word));
  if (!is_text(log, node, name, expected)) return std::nullopt;
  const std::string text = units::tidy_blanks(node.text);
  const auto number = units::read_number(text);
  if (!number) {
    log.error(node.spot, fmt::format("{}: {}", name, number.problem().what), expected,
              number.problem().hint);
    return std::nullopt;
  }
  const std::string after = units::tidy_blanks(std::string_view(text).substr(number->length));
  if (!after.empty() && (word.empty() || after != word)) {
    log.error(node.spot, fmt::format("{}: {} is more than a number", name, units::in_quotes(text)),
              expected, fmt::format("take away {}", units::in_quotes(after)));
    return std::nullopt;
  }
  if (!within(number->value, limits)) {
    log.error(node.spot, out_of_limits(name, text, number->value, limits), expected);
    return std::nullopt;
  }
  return number->value;
}

std::optional<int> read_whole_number(Log& log, const Node& node, std::string_view name,
                                     const Limits& limits, std::string_view word) {
  const auto number = read_number(log, node, name, limits, word);
  if (!number) return std::nullopt;
  if (std::floor(*number) != *number) {
    log.error(node.spot, fmt::format("{}: {} is not a whole number", name, node.text),
              fmt::format("a whole number, {}", limits.words));
    return std::nullopt;
  }
  return static_cast<int>(*number);
}

std::optional<bool> read_yes_no(Log& log, const Node& node, std::string_view name) {
  static constexpr std::array<Word<bool>, 4> words{
      {{"yes", true}, {"no", false}, {"true", true}, {"false", false}}};
  return read_word(log, node, name, words);
}

std::optional<std::string> read_text(Log& log, const Node& node, std::string_view name) {
  constexpr int longest = 100;
  if (!is_text(log, node, name, "a text")) return std::nullopt;
  const std::string text = units::tidy_blanks(node.text);
  if (text.empty() || !units::is_printable_utf8(text) || text.find('\t') != std::string::npos) {
    log.error(node.spot,
              fmt::format("{}: {} is not a text of one line", name, units::in_quotes(node.text)),
              "a text on one line");
    return std::nullopt;
  }
  if (columns(text) > longest) {
    log.error(node.spot, fmt::format("{}: the text is too long", name),
              fmt::format("at most {} characters", longest));
    return std::nullopt;
  }
  return text;
}

std::optional<Date> read_date(Log& log, const Node& node, std::string_view name) {
  constexpr std::string_view expected = "a date as year-month-day, such as 2027-02-08";
  if (!is_text(log, node, name, expected)) return std::nullopt;
  const std::string_view text = node.text;
  const auto year = digits(text, 0, 4);
  const auto month = digits(text, 5, 2);
  const auto day = digits(text, 8, 2);
  if (text.size() != 10 || text[4] != '-' || text[7] != '-' || !year || !month || !day) {
    log.error(node.spot, fmt::format("{}: {} is not a date", name, units::in_quotes(text)),
              std::string(expected));
    return std::nullopt;
  }
  if (*year < 1900 || *year > 2200) {
    log.error(node.spot, fmt::format("{}: the year {} is out of range", name, *year),
              "a year from 1900 to 2200");
    return std::nullopt;
  }
  const auto last_day = [&] {
    return boost::gregorian::gregorian_calendar::end_of_month_day(
        static_cast<unsigned short>(*year), static_cast<unsigned short>(*month));
  };
  if (*month < 1 || *month > 12) {
    log.error(node.spot,
              fmt::format("{}: {} does not exist, there is no month {}", name, text, *month),
              std::string(expected));
    return std::nullopt;
  }
  if (*day < 1 || *day > last_day()) {
    log.error(node.spot, fmt::format("{}: the date {} does not exist", name, text),
              fmt::format("a day from 1 to {} in that month", last_day()));
    return std::nullopt;
  }
  return Date(static_cast<unsigned short>(*year), static_cast<unsigned short>(*month),
              static_cast<unsigned short>(*day));
}

std::optional<double> read_clock(Log& log, const Node& node, std::string_view name) {
  constexpr std::string_view expected = "a time of day from 00:00 to 23:59, such as 08:00";
  if (!is_text(log, node, name, expected)) return std::nullopt;
  const auto hours = clock_hours(node.text);
  if (!hours || *hours >= 24) {
    log.error(node.spot,
              fmt::format("{}: {} is not a time of day", name, units::in_quotes(node.text)),
              std::string(expected));
    return std::nullopt;
  }
  return hours;
}

std::optional<double> read_utc_offset(Log& log, const Node& node, std::string_view name) {
  constexpr std::string_view expected = "an offset from universal time, such as +01:00 or -09:30";
  if (!is_text(log, node, name, expected)) return std::nullopt;
  std::string_view text = node.text;
  if (text == "UTC" || text == "Z") return 0.0;
  double sign = 1;
  bool has_sign = true;
  if (text.substr(0, 1) == "+") {
    text.remove_prefix(1);
  } else if (text.substr(0, 1) == "-") {
    sign = -1;
    text.remove_prefix(1);
  } else if (text.substr(0, 3) == "\xE2\x88\x92") {  // the Unicode minus
    sign = -1;
    text.remove_prefix(3);
  } else {
    has_sign = false;
  }
  const auto hours = clock_hours(text);
  if (!has_sign || !hours || *hours > 14) {
    log.error(node.spot, fmt::format("{}: {} is not an offset", name, units::in_quotes(node.text)),
              std::string(expected));
    return std::nullopt;
  }
  return sign * *hours;
}

std::optional<int> read_reference(Log& log, const Node& node, std::string_view thing,
                                  const std::vector<std::string>& names,
                                  std::string_view defined_under) {
  const auto text = read_text(log, node, thing);
  if (!text) return std::nullopt;
  const auto found = std::find(names.begin(), names.end(), *text);
  if (found != names.end()) return static_cast<int>(found - names.begin());
  log.error(node.spot, fmt::format("there is no {} {}", thing, units::in_quotes(*text)),
            names.empty()
                ? fmt::format("a {} defined under \"{}\"; there is none", thing, defined_under)
                : one_of(names),
            did_you_mean(*text, names));
  return std::nullopt;
}

}  // namespace drystage::plan
