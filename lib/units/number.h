#pragma once

#include <cstddef>
#include <string_view>

#include "units/result.h"

namespace drystage::units {

/// A number read from the start of a text and the number of bytes it took there.
struct Number {
  double value = 0.0;
  std::size_t length = 0;
};

/// Reads the decimal number at the start of `text`, which has no blanks in front. Takes a sign
/// (+, - or the Unicode minus), digits with one decimal point and an exponent; never hexadecimal,
/// "inf" or "nan", and never by the locale. Refuses a decimal comma, a range, spaced or grouped
/// digits and a number too large or too small for a double. The Problem leaves `expected` empty.
Result<Number> read_number(std::string_view text);

}  // namespace drystage::units
