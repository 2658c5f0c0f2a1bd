#pragma once

#include <map>
#include <string>

#include "plan/mark.h"

namespace drystage::plan {

enum class MarginKind { amount, share, days, distance_km, temperature_c };

/// What must still be there at the low point of every day.
struct Margin {
  MarginKind kind = MarginKind::amount;
  double value = 0;  ///< L, meals or Ah; 0..1; days; km; °C
  Mark mark{};
};

/// By reserve family (`fuel`, `battery`, ...) or by one reserve's own name (`fuel:truck`), which
/// wins.
using Margins = std::map<std::string, Margin, std::less<>>;

}  // namespace drystage::plan
