#include "report/page/source.h"

#include <cstddef>

namespace drystage::report::page {
namespace {

// Made of the two files while this is built (embed.cmake).
#include "page_source.inc"

unsigned hex_digit(char c) { return static_cast<unsigned>(c <= '9' ? c - '0' : c - 'a' + 10); }

/// Hexadecimal digits in base 64: six bits a letter, in groups of four.
std::string named(std::string_view hex) {
  constexpr std::string_view letters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  unsigned bits = 0;
  unsigned count = 0;
  for (const char c : hex) {
    bits = bits << 4U | hex_digit(c);
    count += 4;
    if (count < 6) continue;
    count -= 6;
    out += letters[bits >> count & 0x3FU];
    bits &= (1U << count) - 1;
  }
  if (count > 0) out += letters[bits << (6 - count) & 0x3FU];
  while (out.size() % 4 != 0) out += '=';
  return "sha256-" + out;
}

}  // namespace

std::string_view style() { return css; }
std::string_view script() { return js; }
std::string style_hash() { return named(css_sha256); }
std::string script_hash() { return named(js_sha256); }

}  // namespace drystage::report::page
