#pragma once

#include <span>
#include <string_view>

#include "units/kind.h"
#include "units/result.h"

namespace drystage::units {

/// A number in the canonical unit of its kind.
struct Quantity {
  Kind kind = Kind::mass;
  double value = 0.0;
};

/// Reads an amount with its unit, such as "10.8 L/100km", "-18 °C" or "5 US gal", and returns it
/// in the canonical unit of `kind`, always finite. Any bytes may go in, and the locale plays no
/// part. The sign and size are not judged: that is for the caller, who knows what is possible.
/// A number without a unit, a unit of another dimension, an unknown unit and a unit that can be
/// several sizes (gal, mpg, ton, oz) each give a Problem that shows the fix.
/// Conversions: UDUNITS-2, with the definitions in registry.cc. Safe from several threads.
Result<double> parse(std::string_view text, Kind kind);

/// The same where several kinds will do, as in a margin: "20 L", "40 %" or "3 days". The first of
/// `kinds` that the unit measures is taken; `kinds` must not be empty.
Result<Quantity> parse_any(std::string_view text, std::span<const Kind> kinds);

}  // namespace drystage::units
