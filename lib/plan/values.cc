#include "plan/values.h"

#include <algorithm>
#include <boost/date_time/gregorian/gregorian_types.hpp>
#include <cmath>

#include "plan/utf8.h"
#include "units/list.h"
#include "units/number.h"

namespace drystage::plan {
namespace {

// The kinds of a key with an example each: "a time, such as 3 days".
std::string expected_of(std::span<const Range> ranges) {
  std::vector<std::string> kinds;
  std::vector<std::string> examples;
  for (const Range& range : ranges) {
    kinds.emplace_back(range.kind ? units::name(*range.kind) : "a number");
    examples.push_back(example(range));
  }
  kinds = units::each_once(std::move(kinds));
  return fmt::format("{}, such as {}", units::listed(kinds, " or "),
                     units::listed(examples, " or "));
}

// Whether the value is possible; logs what is not, and asks about what is not usual.
bool judge(Log& log, const Node& node, std::string_view name, std::span<const Range> ranges,
           const Range& range, double value) {
  const Fit fit = fit_of(range, value);
  if (fit == Fit::usual) return true;
  const bool possible = fit == Fit::low || fit == Fit::high;
  const bool low = fit == Fit::low || fit == Fit::too_low;
  const std::string text = units::tidy_blanks(node.text);
  const double number = units::read_number(text)->value;
  const std::string understood = in_its_unit(range, value);
  const double shown = units::read_number(understood)->value;
  std::string what = fmt::format("{}: {}", name, text);
  // In another unit than the usual one.
  if (std::abs(shown - number) > 0.01 * std::abs(number)) {
    what += fmt::format(" is {}, which", understood);
  }
  what += possible                        ? low ? " is unusually low" : " is unusually high"
          : value < 0 && range.least >= 0 ? " is negative"
          : low                           ? " is too low"
                                          : " is too high";
  const std::string meant = likely_meant(ranges, range, number);
  const std::string hint =
      !meant.empty() ? fmt::format("did you mean {}?", meant)
      : possible     ? range.kind ? "is the number right, and its unit?" : "is the number right?"
                     : "";
  if (possible) {
    log.warning(node.origin, what, "usually " + usual_words(range), hint);
  } else {
    log.error(node.origin, what, possible_words(range), hint);
  }
  return possible;
}

/// What an unfit character is, by name and number: it may have been written by an escape, and is
/// not seen in what is shown of the text.
std::string unfit_words(const Character& character) {
  const auto within = [&](std::uint32_t first, std::uint32_t last) {
    return character.code >= first && character.code <= last;
  };
  if (!character.valid) return "a byte that is no text in UTF-8";
  const char* kind = "a control character";
  if (within(0x202A, 0x202E) || within(0x2066, 0x2069)) {
    kind = "a character that changes the direction of text";
  } else if (within(0x2028, 0x2029)) {
    kind = "a character that ends a line or a paragraph";
  } else if (character.code > 0x9F) {
    kind = "a number that stands for no character";
  }
  return fmt::format("{} (U+{:04X})", kind, character.code);
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

// A bare number, or one with the word of its range after it ("3" or "3 meals").
std::optional<double> read_count(Log& log, const Node& node, std::string_view name,
                                 const Range& range) {
  const std::string expected = fmt::format(
      "a number, {}{}", possible_words(range),
      range.shown_unit().empty() ? "" : fmt::format("; \"{}\" may follow it", range.shown_unit()));
  if (!is_text(log, node, name, expected)) return std::nullopt;
  const std::string text = units::tidy_blanks(node.text);
  const auto number = units::read_number(text);
  if (!number) {
    log.error(node.origin, fmt::format("{}: {}", name, number.problem().what), expected,
              number.problem().hint);
    return std::nullopt;
  }
  const std::string after = units::tidy_blanks(std::string_view(text).substr(number->length));
  if (!after.empty() && after != range.shown_unit()) {
    const std::string meant =
        range.shown_unit().empty() ? std::string() : did_you_mean(after, std::array{range.unit});
    log.error(node.origin,
              fmt::format("{}: {} is more than a number", name, units::in_quotes(text)), expected,
              meant.empty() ? fmt::format("take away {}", units::in_quotes(after)) : meant);
    return std::nullopt;
  }
  if (!judge(log, node, name, {&range, 1}, range, number->value)) return std::nullopt;
  return number->value;
}

// In the kinds of some ranges; none of them is of a count.
std::optional<units::Quantity> read_in_ranges(Log& log, const Node& node,
                                              std::span<const Range> ranges,
                                              std::string_view name) {
  if (!is_text(log, node, name, expected_of(ranges))) return std::nullopt;
  std::vector<units::Kind> kinds;
  for (const Range& range : ranges) {
    if (range.kind) kinds.push_back(*range.kind);
  }
  const units::Result<units::Quantity> read = units::parse_any(node.text, kinds);
  if (!read) {
    const units::Problem& problem = read.problem();
    const std::string text = units::tidy_blanks(node.text);
    const auto number = units::read_number(text);
    const bool bare = number && number->length == text.size();
    log.error(node.origin, fmt::format("{}: {}", name, problem.what), expected_of(ranges),
              bare ? "write " + with_units(ranges, number->value) : problem.hint);
    return std::nullopt;
  }
  const auto range = std::ranges::find(ranges, std::optional(read->kind), &Range::kind);
  if (!judge(log, node, name, ranges, *range, read->value)) return std::nullopt;
  return *read;
}

// Where things of a sort are defined.
std::string_view home_of(std::string_view thing) {
  if (thing == "vehicle") return "vehicles";
  if (thing == "cabinet") return "cold";
  if (thing == "battery") return "power: batteries";
  if (thing == "charger" || thing == "solar panel") return "power: charging";
  if (thing == "activity") return "activities";
  if (thing == "consumable") return "consumables";
  return thing == "place" ? "places" : thing;
}

}  // namespace

std::optional<double> clock_hours(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon != 1 && colon != 2) return std::nullopt;
  const auto hour = digits(text, 0, colon);
  const auto minute = digits(text, colon + 1, 2);
  if (!hour || !minute || text.size() != colon + 3 || *minute > 59) return std::nullopt;
  return *hour + *minute / 60.0;
}

std::optional<double> default_number(Key key, std::string_view when) {
  const std::string_view text = default_of(key, when);
  for (const Range& range : key.ranges()) {
    if (range.kind) {
      if (const auto read = units::parse(text, *range.kind)) return *read;
    } else if (const auto count = units::read_number(text)) {
      return count->value;
    }
  }
  return std::nullopt;
}

void log_wrong_form(Log& log, const Node& node, std::string_view name, std::string_view expected) {
  const char* found = "the value is missing";
  if (node.kind == Node::Kind::list) found = "a list does not belong here";
  if (node.kind == Node::Kind::map) found = "a map of keys does not belong here";
  if (node.kind == Node::Kind::text) found = "a plain value does not belong here";
  log.error(node.origin, fmt::format("{}: {}", name, found), std::string(expected));
}

std::optional<units::Quantity> read_quantity_of(Log& log, const Node& node, Key key,
                                                std::string_view name) {
  return read_in_ranges(log, node, key.ranges(), name);
}

std::optional<double> read_in(Log& log, const Node& node, Key key, std::string_view name,
                              std::optional<units::Kind> kind, std::string_view word) {
  Range range = *std::ranges::find(key.ranges(), kind, &Range::kind);
  if (kind) {
    const auto read = read_in_ranges(log, node, {&range, 1}, name);
    return read ? std::optional(read->value) : std::nullopt;
  }
  range.unit = word;
  return read_count(log, node, name, range);
}

std::optional<double> read_quantity(Log& log, const Node& node, Key key, std::string_view name) {
  const auto count = std::ranges::find(key.ranges(), std::optional<units::Kind>(), &Range::kind);
  const bool is_rate = node.text.find('/') != std::string::npos && key.ranges().size() > 1;
  if (count != key.ranges().end() && !is_rate) return read_count(log, node, name, *count);
  const auto read = read_quantity_of(log, node, key, name);
  return read ? std::optional(read->value) : std::nullopt;
}

std::optional<int> read_whole_number(Log& log, const Node& node, Key key, std::string_view name) {
  const auto number = read_quantity(log, node, key, name);
  if (!number) return std::nullopt;
  if (std::floor(*number) != *number) {
    log.error(node.origin, fmt::format("{}: {} is not a whole number", name, node.text),
              "a whole number, " + possible_words(key.ranges().front()));
    return std::nullopt;
  }
  return static_cast<int>(*number);
}

std::optional<bool> read_yes_no(Log& log, const Node& node, std::string_view name) {
  return read_word(log, node, name, yes_no_words);
}

std::optional<std::string> read_text(Log& log, const Node& node, std::string_view name) {
  constexpr int longest = 100;
  if (!is_text(log, node, name, "a text")) return std::nullopt;
  const std::string text = units::tidy_blanks(node.text);
  if (text.empty()) {
    log.error(node.origin, fmt::format("{}: the text is empty", name), "a text on one line");
    return std::nullopt;
  }
  if (const std::optional<std::size_t> bad = first_unreadable(text)) {
    log.error(node.origin,
              fmt::format("{}: {} has {}", name, units::in_quotes(node.text),
                          unfit_words(first_character(std::string_view(text).substr(*bad)))),
              "a text on one line, without characters that are not seen",
              "take that character out of the text");
    return std::nullopt;
  }
  if (text.find_first_of("\t\n\r") != std::string::npos) {
    log.error(
        node.origin,
        fmt::format("{}: {} has more than one line, or a tab", name, units::in_quotes(node.text)),
        "a text on one line", "write blanks in place of line ends and tabs");
    return std::nullopt;
  }
  if (columns(text) > longest) {
    log.error(node.origin, fmt::format("{}: the text is too long", name),
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
    log.error(node.origin, fmt::format("{}: {} is not a date", name, units::in_quotes(text)),
              std::string(expected));
    return std::nullopt;
  }
  if (*year < 1900 || *year > 2200) {
    log.error(node.origin, fmt::format("{}: the year {} is out of range", name, *year),
              "a year from 1900 to 2200");
    return std::nullopt;
  }
  const auto last_day = [&] {
    return boost::gregorian::gregorian_calendar::end_of_month_day(
        static_cast<unsigned short>(*year), static_cast<unsigned short>(*month));
  };
  if (*month < 1 || *month > 12) {
    log.error(node.origin,
              fmt::format("{}: {} does not exist, there is no month {}", name, text, *month),
              std::string(expected));
    return std::nullopt;
  }
  if (*day < 1 || *day > last_day()) {
    log.error(node.origin, fmt::format("{}: the date {} does not exist", name, text),
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
    log.error(node.origin,
              fmt::format("{}: {} is not a time of day", name, units::in_quotes(node.text)),
              std::string(expected));
    return std::nullopt;
  }
  return hours;
}

std::optional<double> read_coordinate(Log& log, const Node& node, Key key,
                                      const units::Axis& axis) {
  if (!is_text(log, node, key.name(), "an angle, such as " + example_of(key))) return std::nullopt;
  const auto degrees = units::parse_coordinate(node.text, axis);
  if (!degrees) {
    const units::Problem& problem = degrees.problem();
    log.error(node.origin, fmt::format("{}: {}", key.name(), problem.what), problem.expected,
              problem.hint);
    return std::nullopt;
  }
  const Range& range = key.ranges().front();
  if (fit_of(range, *degrees) != Fit::usual) {
    log.error(node.origin, fmt::format("{}: {} is out of range", key.name(), node.text),
              possible_words(range));
    return std::nullopt;
  }
  return *degrees;
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
    log.error(node.origin,
              fmt::format("{}: {} is not an offset", name, units::in_quotes(node.text)),
              std::string(expected));
    return std::nullopt;
  }
  return sign * *hours;
}

std::optional<int> read_reference(Log& log, const Node& node, std::string_view thing,
                                  const std::vector<std::string>& names) {
  const auto text = read_text(log, node, thing);
  if (!text) return std::nullopt;
  const auto found = std::find(names.begin(), names.end(), *text);
  if (found != names.end()) return static_cast<int>(found - names.begin());
  log.error(node.origin, fmt::format("there is no {} {}", thing, units::in_quotes(*text)),
            names.empty()
                ? fmt::format("a {} defined under \"{}\"; there is none", thing, home_of(thing))
                : one_of(names),
            did_you_mean(*text, names));
  return std::nullopt;
}

}  // namespace drystage::plan
