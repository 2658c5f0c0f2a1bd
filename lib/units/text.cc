#include "units/text.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>
#include <vector>

namespace drystage::units {
namespace {

constexpr std::size_t longest_quote = 40;  // bytes shown of a text that is at fault

// Length in bytes of the well-formed UTF-8 sequence that starts `text`, or 0. Follows table 3-7
// of the Unicode Standard (no overlong forms, no surrogates, nothing above U+10FFFF).
std::size_t sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80) return 1;
  std::size_t length = 0;
  if (lead >= 0xC2 && lead <= 0xDF) length = 2;
  if (lead >= 0xE0 && lead <= 0xEF) length = 3;
  if (lead >= 0xF0 && lead <= 0xF4) length = 4;
  if (length == 0 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return 0;
  }
  const unsigned char second = byte(1);
  const bool overlong = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
  const bool outside = (lead == 0xED && second > 0x9F) || (lead == 0xF4 && second > 0x8F);
  return overlong || outside ? 0 : length;
}

// The number of a well-formed sequence.
std::uint32_t code_of(std::string_view sequence) {
  const auto byte = [&](std::size_t i) {
    return static_cast<std::uint32_t>(static_cast<unsigned char>(sequence[i]));
  };
  constexpr std::array<std::uint32_t, 5> lead_bits{0, 0x7FU, 0x1FU, 0x0FU, 0x07U};
  std::uint32_t code = byte(0) & lead_bits.at(sequence.size());
  for (std::size_t i = 1; i < sequence.size(); ++i) code = code << 6U | (byte(i) & 0x3FU);
  return code;
}

// The first character of a text that is not empty, as it may be shown; and how long it is.
struct Shown {
  std::string_view as;
  std::size_t bytes;
};

Shown first_shown(std::string_view text) {
  const std::size_t length = sequence_length(text);
  if (text[0] == '\t') return {.as = " ", .bytes = 1};
  if (length == 0) return {.as = "?", .bytes = 1};
  const std::string_view sequence = text.substr(0, length);
  return {.as = is_unfit(code_of(sequence)) ? "?" : sequence, .bytes = length};
}

constexpr std::array<std::string_view, 7> blanks{
    " ",
    "\t",
    "\xC2\xA0",      // U+00A0 no-break space
    "\xE2\x80\x87",  // U+2007 figure space
    "\xE2\x80\x89",  // U+2009 thin space
    "\xE2\x80\x8A",  // U+200A hair space
    "\xE2\x80\xAF",  // U+202F narrow no-break space
};

constexpr char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

constexpr double replacement(char a, char b) {
  if (a == b) return 0.0;
  return lower(a) == lower(b) ? 0.5 : 1.0;
}

}  // namespace

bool is_unfit(std::uint32_t code) {
  const auto within = [code](std::uint32_t first, std::uint32_t last) {
    return code >= first && code <= last;
  };
  const bool control = code < 0x20 || within(0x7F, 0x9F);
  const bool separates_or_turns = within(0x2028, 0x202E) || within(0x2066, 0x2069);
  const bool no_character = within(0xFDD0, 0xFDEF) || (code & 0xFFFEU) == 0xFFFEU;
  return control || separates_or_turns || no_character;
}

bool is_printable_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = sequence_length(text);
    if (length == 0) return false;
    if (text[0] != '\t' && is_unfit(code_of(text.substr(0, length)))) return false;
    text.remove_prefix(length);
  }
  return true;
}

std::string shown(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const Shown first = first_shown(text);
    out += first.as;
    text.remove_prefix(first.bytes);
  }
  return out;
}

std::string in_quotes(std::string_view text) {
  std::string out = "\"";
  while (!text.empty()) {
    const Shown first = first_shown(text);
    if (out.size() + first.bytes > longest_quote + 1) {
      out += "...";
      break;
    }
    out += first.as;
    text.remove_prefix(first.bytes);
  }
  return out + '"';
}

std::string tidy_blanks(std::string_view text) {
  std::string out;
  bool pending = false;
  while (!text.empty()) {
    const auto* const blank = std::find_if(blanks.begin(), blanks.end(),
                                           [&](auto b) { return text.substr(0, b.size()) == b; });
    if (blank != blanks.end()) {
      pending = !out.empty();
      text.remove_prefix(blank->size());
      continue;
    }
    if (pending) out += ' ';
    pending = false;
    out += text.front();
    text.remove_prefix(1);
  }
  return out;
}

std::string lower_ascii(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(), lower);
  return out;
}

std::optional<double> edit_distance(std::string_view a, std::string_view b, double limit) {
  const std::size_t longer = std::max(a.size(), b.size());
  const std::size_t shorter = std::min(a.size(), b.size());
  if (static_cast<double>(longer - shorter) > limit) return std::nullopt;
  // Optimal string alignment: rows i-1 (before_last), i (last) and i+1 (row) of the usual table.
  std::vector<double> before_last;
  std::vector<double> last(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = static_cast<double>(j);
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::vector<double> row(b.size() + 1);
    row[0] = static_cast<double>(i + 1);
    for (std::size_t j = 0; j < b.size(); ++j) {
      row[j + 1] = std::min({last[j] + replacement(a[i], b[j]), last[j + 1] + 1.0, row[j] + 1.0});
      const bool swapped = i > 0 && j > 0 && a[i] == b[j - 1] && a[i - 1] == b[j];
      if (swapped) row[j + 1] = std::min(row[j + 1], before_last[j - 1] + 1.0);
    }
    before_last = std::exchange(last, std::move(row));
  }
  if (last[b.size()] > limit) return std::nullopt;
  return last[b.size()];
}

}  // namespace drystage::units
