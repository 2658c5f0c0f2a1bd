#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

#include "plan/mark.h"

namespace drystage::plan {

/// What some editors put before a text, and is no part of it.
inline constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// One character of a text: how many bytes it has, and how many columns of a terminal it fills
/// (0 for combining marks, 2 for East Asian wide characters and most emoji, else 1). A byte that
/// is not well-formed UTF-8 counts as one character with `valid` false.
struct Character {
  std::size_t bytes = 1;
  int columns = 1;
  std::uint32_t code = 0;  ///< its number in Unicode
  bool valid = true;
  bool control = false;  ///< units::is_unfit
};

/// The first character of `text`, which is not empty.
Character first_character(std::string_view text);

/// Offset of the first byte that a plan may not hold: an unfit character (units::is_unfit) other
/// than tab, line feed and carriage return, or a byte that is not well-formed UTF-8.
std::optional<std::size_t> first_unreadable(std::string_view text);

/// Line and column, counted from 1 in characters, of a byte of the text.
Mark mark_at(std::string_view text, std::size_t offset);

/// Columns that `text` fills on a terminal.
int columns(std::string_view text);

}  // namespace drystage::plan
