#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "units/kind.h"

namespace drystage::plan {

/// The unit of a bare number that any word may follow: what is counted has a word of the user's
/// own.
inline constexpr std::string_view own_word = "*";

/// How much a key of the plan may say, in its own unit. What is not possible is refused, what is
/// not usual is questioned. A key that may be given in several kinds has one for each.
struct Range {
  std::optional<units::Kind> kind;  ///< none: a bare number
  std::string_view unit;            ///< the usual one; of a bare number a word that may follow it
  double usual_low;
  double usual_high;
  double least;
  double most;
  bool zero_is_usual = false;  ///< although it is less than `usual_low`

  /// The unit as it is written behind a number; empty where there is none.
  [[nodiscard]] std::string_view shown_unit() const {
    return unit == own_word ? std::string_view() : unit;
  }
};

/// How a value in canonical units fits a range: `low` and `high` are possible but not usual.
enum class Fit { usual, low, high, too_low, too_high };
Fit fit_of(const Range& range, double value);

/// "0, or 10 to 2000 km" and "from 0 to 20000 km", in the unit of the range.
std::string usual_words(const Range& range);
std::string possible_words(const Range& range);

/// A value in canonical units as it would be written: "0.15 km".
std::string in_its_unit(const Range& range, double value);

/// An amount as an example, one that is usual: "3 days".
std::string example(const Range& range);

/// A number without a unit with each unit that would make it usual, else possible, else with each:
/// "3 days, 3 L or 3 %".
std::string with_units(std::span<const Range> ranges, double number);

/// The amount that would be usual and has the same digits: "150 km" for "150 m". Empty if none is.
/// `number` is the one that was written, and `range` the one it was read by.
std::string likely_meant(std::span<const Range> ranges, const Range& range, double number);

}  // namespace drystage::plan
