#pragma once

#include <string>
#include <string_view>

#include "units/kind.h"

namespace drystage::units {

/// The units to show. `us` has US gallons and °F, `imperial` has imperial gallons and °C; both
/// have miles, feet and pounds. Electrical and radiation units are the same in all three.
enum class System { metric, us, imperial };

/// How numbers in a canonical unit are shown: `canonical * scale + offset` in `unit`, or, where
/// `inverse` (mpg), `scale / canonical`.
struct Display {
  std::string_view unit;
  double scale = 1.0;
  double offset = 0.0;
  bool inverse = false;

  /// The number to show for a canonical number. An inverse display of 0 gives an infinity.
  [[nodiscard]] double number(double canonical) const;
};

/// The display unit of `kind` in `system`; its text is one that parse() accepts.
Display display(Kind kind, System system);

/// How many digits to write: after the point, or in all. In either form every digit before the
/// point is written. Counted in all, zeros at the end after the point are left out.
struct Digits {
  int count = 3;
  bool after_point = false;
};

/// `count` digits in all: 12.3, 0.0123, 12345.
constexpr Digits significant(int count) { return {count, false}; }

/// `count` digits after the point: 12.30.
constexpr Digits decimals(int count) { return {count, true}; }

/// The number by itself, with a decimal point whatever the locale, never "-0". A number that is
/// not finite is written "?". `count` is held between 0 and 15.
std::string format_number(double number, Digits digits);

/// A canonical amount as text with its unit, such as "10.8 L/100km". parse() reads it back to
/// within the digits written, if it is finite.
std::string format(double canonical, Kind kind, System system = System::metric,
                   Digits digits = significant(3));

}  // namespace drystage::units
