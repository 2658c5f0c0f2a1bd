#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "units/result.h"

namespace drystage::units {

/// One factor of a unit: `number` times the unit named `symbol`, to the power `exponent`, above
/// or below the line.
struct Term {
  std::string symbol;
  int number = 1;
  int exponent = 1;
  bool below = false;
  bool is_time = false;
};

/// A unit as written, taken apart: "L/100km" is L above and 100 km below.
struct Expression {
  std::vector<Term> terms;

  /// True if some time is below the line: a rate.
  [[nodiscard]] bool per_time() const;

  /// True if this is a thermometer scale by itself (°C, °F, K).
  [[nodiscard]] bool is_thermometer() const;

  /// The unit in UDUNITS-2 grammar and the symbols of registry.h. A degree of a thermometer scale
  /// is a step of that scale, unless `as_thermometer`, when it is a point on it.
  [[nodiscard]] std::string udunits(bool as_thermometer) const;
};

/// Takes the text of a unit apart. `text` is printable UTF-8, tidied by tidy_blanks, not empty.
/// Takes "/" and "per" for division, a blank, "·" or "*" for products, 2, ^2 or ² for squares.
/// `number` is the number that stood before it, for hints, and a unit is only hinted at if the
/// whole then `fits`. The Problem leaves `expected` empty.
Result<Expression> read_expression(std::string_view text, std::string_view number,
                                   const std::function<bool(const Expression&)>& fits = {});

}  // namespace drystage::units
