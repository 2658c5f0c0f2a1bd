#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace drystage::units {

/// True for a character, by its number in Unicode, that no text may hold, written as it is or by an
/// escape: controls, the separators of lines and paragraphs, what turns the writing direction, and
/// what Unicode says is no character.
bool is_unfit(std::uint32_t code);

/// True if `text` is well-formed UTF-8 without unfit characters. A tab is allowed, a line end is
/// not.
bool is_printable_utf8(std::string_view text);

/// `text` as it may be shown anywhere: a tab is one blank, every unfit character and every
/// malformed byte is "?". Any bytes may go in, such as the name of a file.
std::string shown(std::string_view text);

/// The same in quotes for a message: at most about 40 characters, the rest cut with "...".
std::string in_quotes(std::string_view text);

/// `text` with every run of blanks (space, tab, and the no-break, thin, narrow and figure spaces
/// of Unicode) made one plain space, and none left at either end.
std::string tidy_blanks(std::string_view text);

/// The text with ASCII capitals made small; independent of the locale.
std::string lower_ascii(std::string_view text);

/// True for '0' to '9'; independent of the locale.
constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Number of single-byte insertions, deletions, replacements and swaps of neighbours that turn `a`
/// into `b`; a letter that differs only in case costs half. Stops counting, giving nothing, above
/// `limit`.
std::optional<double> edit_distance(std::string_view a, std::string_view b, double limit);

}  // namespace drystage::units
