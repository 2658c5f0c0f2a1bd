#pragma once

#include <optional>

#include "units/expression.h"
#include "units/kind.h"

namespace drystage::units {

/// How a number in one unit becomes a number in another:
/// linear `x * scale / divisor + offset`, or inverse `scale / (divisor * x)`.
/// One of `scale` and `divisor` is 1, and whole where it can be, so that 70 % is 0.7 exactly.
struct Conversion {
  double scale = 1.0;
  double divisor = 1.0;
  double offset = 0.0;
  bool inverse = false;

  /// The converted number. An inverse conversion of 0 gives an infinity.
  [[nodiscard]] double apply(double x) const;

  /// The conversion the other way.
  [[nodiscard]] Conversion reversed() const;
};

/// The conversion from `unit` to the canonical unit of `kind`, or nothing if the unit measures
/// something else. Only fuel_use is also read from its inverse. A power is not an energy per day,
/// and a share is not a time per day, although their dimensions agree: for those the unit must
/// name the time it divides by. Safe to call from several threads.
std::optional<Conversion> conversion(const Expression& unit, Kind kind);

/// Some kind that `unit` measures, the first in the order of Kind, or nothing.
std::optional<Kind> kind_of(const Expression& unit);

}  // namespace drystage::units
