#pragma once

#include <fmt/core.h>

#include <array>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "plan/log.h"
#include "plan/tree.h"
#include "plan/weather.h"
#include "plan/words.h"
#include "units/kind.h"
#include "units/parse.h"
#include "units/text.h"

namespace drystage::plan {

/// What a number may be, in canonical units, and the same in words ("more than 0").
struct Limits {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  bool above_low = false;  ///< low itself is not allowed
  std::string_view words;
};

inline constexpr Limits any_value{};
// Large enough for everything that a plan can mean, small enough to calculate with.
inline constexpr double most_of_anything = 1e6;
inline constexpr Limits not_negative{0, most_of_anything, false, "0 or more, up to a million"};
inline constexpr Limits positive{0, most_of_anything, true, "more than 0, up to a million"};
inline constexpr Limits a_share{0, 1, false, "from 0 % to 100 %"};
inline constexpr Limits day_hours{0, 24, false, "from 0 to 24 h"};
inline constexpr Limits air_temperature{-90, 65, false, "from -90 °C to 65 °C"};
inline constexpr Limits inside_temperature{-60, 60, false, "from -60 °C to 60 °C"};

/// Readers of single values. Each takes what the value is called in messages ("filled"), and
/// gives nothing, with an error in the log, when the value is not right.

/// A quantity with its unit, in the canonical unit of `kind`, within `limits`.
std::optional<double> read_quantity(Log& log, const Node& node, std::string_view name,
                                    units::Kind kind, const Limits& limits = any_value);

/// The same where several kinds will do. `limits` hold for all of them.
std::optional<units::Quantity> read_quantity_of(Log& log, const Node& node, std::string_view name,
                                                std::span<const units::Kind> kinds,
                                                const Limits& limits = any_value);

/// Whether a text is digits alone, with or without a decimal point: a number that lacks its unit.
bool is_bare_number(std::string_view text);

/// A time where days are as likely meant as hours: a number without a unit is told both.
std::optional<double> read_time(Log& log, const Node& node, std::string_view name,
                                const Limits& limits);

/// A bare number, or one with the given word after it ("3" or "3 meals").
std::optional<double> read_number(Log& log, const Node& node, std::string_view name,
                                  const Limits& limits, std::string_view word = {});

/// The same for a number that must be whole.
std::optional<int> read_whole_number(Log& log, const Node& node, std::string_view name,
                                     const Limits& limits, std::string_view word = {});

/// yes, no, true or false.
std::optional<bool> read_yes_no(Log& log, const Node& node, std::string_view name);

/// A text that is not empty, at most 100 characters long.
std::optional<std::string> read_text(Log& log, const Node& node, std::string_view name);

/// A date as year-month-day, such as 2027-02-08, that exists, from 1900 to 2200.
std::optional<Date> read_date(Log& log, const Node& node, std::string_view name);

/// A time of day such as 08:00, in hours.
std::optional<double> read_clock(Log& log, const Node& node, std::string_view name);

/// An offset from universal time such as +01:00, in hours.
std::optional<double> read_utc_offset(Log& log, const Node& node, std::string_view name);

/// The index of a name among those defined. `thing` is "vehicle"; `defined_under` is the key where
/// things of that sort are defined.
std::optional<int> read_reference(Log& log, const Node& node, std::string_view thing,
                                  const std::vector<std::string>& names,
                                  std::string_view defined_under);

/// The error that `node` is not a map, list or text as it should be.
void log_wrong_form(Log& log, const Node& node, std::string_view name, std::string_view expected);

/// One of a few words.
template <class E, std::size_t n>
std::optional<E> read_word(Log& log, const Node& node, std::string_view name,
                           const std::array<Word<E>, n>& words) {
  const auto known = texts(words);
  if (node.kind != Node::Kind::text) {
    log_wrong_form(log, node, name, one_of(known));
    return std::nullopt;
  }
  for (const Word<E>& word : words) {
    if (node.text == word.text) return word.value;
  }
  log.error(node.spot, fmt::format("{}: unknown word {}", name, units::in_quotes(node.text)),
            one_of(known), did_you_mean(node.text, known));
  return std::nullopt;
}

/// The names of things that have one, in order.
template <class Things>
std::vector<std::string> names_of(const Things& things) {
  std::vector<std::string> names;
  names.reserve(things.size());
  for (const auto& thing : things) names.push_back(thing.name);
  return names;
}

}  // namespace drystage::plan
