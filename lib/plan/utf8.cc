#include "plan/utf8.h"

#include <algorithm>
#include <array>
#include <cstdint>

#include "units/text.h"

namespace drystage::plan {
namespace {

struct Span {
  std::uint32_t first;
  std::uint32_t last;
};

// Blocks of the Unicode Standard whose characters have East Asian width W or F (UAX 11), coarse.
constexpr std::array<Span, 8> wide{{{0x1100, 0x115F},
                                    {0x2E80, 0x303E},
                                    {0x3041, 0xA4CF},
                                    {0xAC00, 0xD7A3},
                                    {0xF900, 0xFAFF},
                                    {0xFE30, 0xFE6F},
                                    {0xFF00, 0xFF60},
                                    {0x1F300, 0x1FAFF}}};

// Combining marks and zero-width joiners, by block.
constexpr std::array<Span, 5> narrow{
    {{0x0300, 0x036F}, {0x200B, 0x200F}, {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}, {0x1AB0, 0x1AFF}}};

template <std::size_t n>
bool within(const std::array<Span, n>& spans, std::uint32_t code) {
  return std::any_of(spans.begin(), spans.end(),
                     [code](Span s) { return code >= s.first && code <= s.last; });
}

}  // namespace

Character first_character(std::string_view text) {
  const auto lead = static_cast<std::uint32_t>(static_cast<unsigned char>(text[0]));
  Character made;
  made.code = lead;
  if (lead < 0x80) {
    made.control = units::is_unfit(lead);
    return made;
  }
  std::size_t bytes = 0;
  std::uint32_t code = 0;
  if (lead >= 0xC2 && lead <= 0xDF) {
    bytes = 2;
    code = lead & 0x1FU;
  } else if (lead >= 0xE0 && lead <= 0xEF) {
    bytes = 3;
    code = lead & 0x0FU;
  } else if (lead >= 0xF0 && lead <= 0xF4) {
    bytes = 4;
    code = lead & 0x07U;
  }
  made.valid = false;
  if (bytes == 0 || text.size() < bytes) return made;
  for (std::size_t i = 1; i < bytes; ++i) {
    const auto next = static_cast<std::uint32_t>(static_cast<unsigned char>(text[i]));
    if ((next & 0xC0U) != 0x80U) return made;
    code = (code << 6U) | (next & 0x3FU);
  }
  const bool overlong = (bytes == 3 && code < 0x800) || (bytes == 4 && code < 0x10000);
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (overlong || surrogate || code > 0x10FFFF) return made;
  made.valid = true;
  made.bytes = bytes;
  made.code = code;
  made.control = units::is_unfit(code);
  if (within(wide, code)) made.columns = 2;
  if (within(narrow, code)) made.columns = 0;
  return made;
}

std::optional<std::size_t> first_unreadable(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const char c = text[at];
    if (c == '\t' || c == '\n' || c == '\r') {
      ++at;
      continue;
    }
    const Character character = first_character(text.substr(at));
    if (!character.valid || character.control) return at;
    at += character.bytes;
  }
  return std::nullopt;
}

Mark mark_at(std::string_view text, std::size_t offset) {
  Mark mark{1, 1};
  std::size_t at = 0;
  while (at < std::min(offset, text.size())) {
    if (text[at] == '\n') {
      ++mark.line;
      mark.column = 1;
      ++at;
      continue;
    }
    at += first_character(text.substr(at)).bytes;
    ++mark.column;
  }
  return mark;
}

int columns(std::string_view text) {
  int sum = 0;
  while (!text.empty()) {
    const Character character = first_character(text);
    sum += character.columns;
    text.remove_prefix(character.bytes);
  }
  return sum;
}

}  // namespace drystage::plan
