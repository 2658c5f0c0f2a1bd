#pragma once

#include <vector>

#include "plan/diagnostic.h"
#include "plan/plan.h"

namespace drystage::engine {

/// Errors: a figure of use that would set the efficiency so high that fuel would be far too little
/// everywhere. Above 0.45 at the wheels no engine explains it (common practice: 0.45 is the best of
/// engines at its best point, without a drivetrain).
std::vector<plan::Diagnostic> fuel_problems(const plan::Plan& plan);

/// Warnings: a figure on hard ground that means an efficiency outside 0.15 to 0.33; one on soft
/// ground below what sealed road would take at that speed; softer ground with less than harder.
std::vector<plan::Diagnostic> fuel_remarks(const plan::Plan& plan);

}  // namespace drystage::engine
