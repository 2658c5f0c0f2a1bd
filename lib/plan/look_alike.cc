#include "plan/look_alike.h"

#include <algorithm>
#include <array>
#include <cstdint>

#include "plan/utf8.h"

namespace drystage::plan {
namespace {

struct Alike {
  std::uint32_t code;
  char latin;
};

// Cyrillic and Greek letters that have the shape of Latin ones, and strokes (the confusables of
// Unicode Technical Standard 39; memory). Capitals stand for their small letters, which may differ
// from their own script's.
constexpr auto shapes = std::to_array<Alike>(
    {{0x2010, '-'},  {0x2011, '-'},  {0x2012, '-'}, {0x2013, '-'}, {0x2014, '-'}, {0x2212, '-'},
     {0x2018, '\''}, {0x2019, '\''}, {0x0391, 'a'}, {0x0392, 'b'}, {0x0395, 'e'}, {0x0396, 'z'},
     {0x0397, 'h'},  {0x0399, 'i'},  {0x039A, 'k'}, {0x039C, 'm'}, {0x039D, 'n'}, {0x039F, 'o'},
     {0x03A1, 'p'},  {0x03A4, 't'},  {0x03A5, 'y'}, {0x03A7, 'x'}, {0x03B1, 'a'}, {0x03B9, 'i'},
     {0x03BA, 'k'},  {0x03BD, 'v'},  {0x03BF, 'o'}, {0x03C1, 'p'}, {0x03C5, 'u'}, {0x03C7, 'x'},
     {0x0405, 's'},  {0x0406, 'i'},  {0x0408, 'j'}, {0x0410, 'a'}, {0x0412, 'b'}, {0x0415, 'e'},
     {0x041A, 'k'},  {0x041C, 'm'},  {0x041D, 'h'}, {0x041E, 'o'}, {0x0420, 'p'}, {0x0421, 'c'},
     {0x0422, 't'},  {0x0423, 'y'},  {0x0425, 'x'}, {0x0430, 'a'}, {0x0435, 'e'}, {0x043A, 'k'},
     {0x043E, 'o'},  {0x0440, 'p'},  {0x0441, 'c'}, {0x0443, 'y'}, {0x0445, 'x'}, {0x0455, 's'},
     {0x0456, 'i'},  {0x0458, 'j'},  {0x04BB, 'h'}, {0x0501, 'd'}});

bool in(std::uint32_t code, std::uint32_t first, std::uint32_t last) {
  return code >= first && code <= last;
}

// Marks of direction and of where a word may break; nothing is seen of them.
bool is_invisible(std::uint32_t code) {
  return code == 0xAD || code == 0xFEFF || in(code, 0x200B, 0x200F) || in(code, 0x202A, 0x202E) ||
         in(code, 0x2060, 0x2069) || in(code, 0xFE00, 0xFE0F);
}

// The small letter that a character looks like.
std::uint32_t shape_of(std::uint32_t code) {
  const auto* const found = std::ranges::find(shapes, code, &Alike::code);
  if (found != shapes.end()) return static_cast<unsigned char>(found->latin);
  if (in(code, 0xFF01, 0xFF5E)) code -= 0xFEE0;  // full width
  const bool capital = in(code, 'A', 'Z') || (in(code, 0xC0, 0xDE) && code != 0xD7) ||
                       in(code, 0x0391, 0x03A9) || in(code, 0x0410, 0x042F);
  if (capital) return code + 32;
  return in(code, 0x0400, 0x040F) ? code + 80 : code;
}

// The first character that can be seen, taken off; 0 at the end.
std::uint32_t take(std::string_view& text) {
  while (!text.empty()) {
    const Character character = first_character(text);
    text.remove_prefix(character.bytes);
    if (!is_invisible(character.code)) return character.code;
  }
  return 0;
}

bool same_shape(std::uint32_t a, std::uint32_t b) {
  const auto both = [a, b](std::string_view among) {
    const auto is_one = [among](std::uint32_t code) {
      return code < 0x80 && among.find(static_cast<char>(code)) != std::string_view::npos;
    };
    return is_one(a) && is_one(b);
  };
  return a == b || shape_of(a) == shape_of(b) || both("1lI|") || both("0Oo");
}

}  // namespace

bool look_alike(std::string_view a, std::string_view b) {
  std::uint32_t from_a = 0;
  do {
    from_a = take(a);
    if (!same_shape(from_a, take(b))) return false;
  } while (from_a != 0);
  return true;
}

}  // namespace drystage::plan
