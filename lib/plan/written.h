#pragma once

#include <string>

#include "units/format.h"

namespace drystage::plan {

/// An amount as it is written into a plan, with as few digits after the point as read back to the
/// same number: "12.5 L". In the usual unit of its kind, or in the one of `shown`.
std::string written_amount(double value, units::Kind kind, const units::Display& shown);
std::string written_amount(double value, units::Kind kind);

}  // namespace drystage::plan
