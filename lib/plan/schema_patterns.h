#pragma once

#include <span>
#include <string>
#include <string_view>

#include "plan/ranges.h"

namespace drystage::plan {

/// Regular expressions for the schema, in what ECMAScript and Python have in common. What the
/// reader takes always matches; what does not match, the reader refuses.

/// A number with a unit, of the kinds that the ranges have; below zero only where a range is. A
/// unit made of several may be one of another kind.
std::string amount_pattern(std::span<const Range> ranges);

/// A number, with the word of the range behind it or without.
std::string count_pattern(const Range& range);

/// A latitude or longitude; `others` are the letters of the directions that it does not have.
std::string coordinate_pattern(std::string_view others);

/// A text that is not empty.
std::string text_pattern();

/// A word, where capitals do not matter; its first `least` letters will do.
std::string loose_word_pattern(std::string_view word, std::size_t least);

inline constexpr std::string_view date_pattern =
    "^(?:(?:19|20|21)[0-9]{2}|2200)-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01])$";
inline constexpr std::string_view clock_pattern = "^(?:[01]?[0-9]|2[0-3]):[0-5][0-9]$";
inline constexpr std::string_view utc_offset_pattern =
    "^(?:UTC|Z|[-+\u2212](?:0?[0-9]|1[0-3]):[0-5][0-9]|[-+\u2212]14:00)$";

}  // namespace drystage::plan
