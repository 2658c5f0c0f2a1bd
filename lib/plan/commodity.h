#pragma once

#include <optional>
#include <string>

#include "plan/plan.h"
#include "units/kind.h"

namespace drystage::plan {

/// A commodity in a sentence: "drinking water", "diesel"; of a consumable of the plan its name,
/// of one that fills "emptying of" it.
std::string words(const Plan& plan, Commodity commodity);

/// Whether it is no thing to be had: a consumable that fills is emptied there.
bool is_emptied(const Plan& plan, Commodity commodity);

/// What amounts of it are in: the unit is that of the kind, if it has one. Mains has none.
struct Measure {
  std::optional<units::Kind> kind{};
  std::string unit{};
};
Measure measure_of(const Plan& plan, Commodity commodity);

}  // namespace drystage::plan
