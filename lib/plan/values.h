#pragma once

#include <fmt/core.h>

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "plan/keys.h"
#include "plan/log.h"
#include "plan/tree.h"
#include "plan/weather.h"
#include "plan/words.h"
#include "units/coordinate.h"
#include "units/kind.h"
#include "units/parse.h"
#include "units/text.h"

namespace drystage::plan {

/// Readers of single values. Each takes what the value is called in messages ("filled"), and
/// gives nothing, with an error in the log, when the value is not right. What is possible but not
/// usual is given, with a question in the log.

/// A quantity in the canonical unit of its kind, or a count; of the kinds that `key` has.
std::optional<double> read_quantity(Log& log, const Node& node, Key key, std::string_view name);

/// The same, with the kind that it was given in. No count.
std::optional<units::Quantity> read_quantity_of(Log& log, const Node& node, Key key,
                                                std::string_view name);

/// The same in one of the kinds of `key` alone; none: a count, behind which this word may stand.
std::optional<double> read_in(Log& log, const Node& node, Key key, std::string_view name,
                              std::optional<units::Kind> kind, std::string_view word);

/// The same for a count that must be whole.
std::optional<int> read_whole_number(Log& log, const Node& node, Key key, std::string_view name);

/// yes, no, true or false.
std::optional<bool> read_yes_no(Log& log, const Node& node, std::string_view name);

/// A text that is not empty, at most 100 characters long.
std::optional<std::string> read_text(Log& log, const Node& node, std::string_view name);

/// A date as year-month-day, such as 2027-02-08, that exists, from 1900 to 2200.
std::optional<Date> read_date(Log& log, const Node& node, std::string_view name);

/// A time of day such as 08:00, in hours.
std::optional<double> read_clock(Log& log, const Node& node, std::string_view name);

/// A latitude or longitude in degrees, such as 27.1° N.
std::optional<double> read_coordinate(Log& log, const Node& node, Key key, const units::Axis& axis);

/// An offset from universal time such as +01:00, in hours.
std::optional<double> read_utc_offset(Log& log, const Node& node, std::string_view name);

/// "8:00" or "08:30" in hours; nothing if it is something else.
std::optional<double> clock_hours(std::string_view text);

/// The default of a key of amounts; nothing if it has none that is an amount. `when` as for
/// default_of().
std::optional<double> default_number(Key key, std::string_view when = {});

/// The index of a name among those defined. `thing` is "vehicle".
std::optional<int> read_reference(Log& log, const Node& node, std::string_view thing,
                                  const std::vector<std::string>& names);

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
  log.error(node.origin, fmt::format("{}: unknown word {}", name, units::in_quotes(node.text)),
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
