#pragma once

#include <vector>

#include "plan/diagnostic.h"
#include "plan/plan.h"

namespace drystage::engine {

/// Errors: a figure on hard ground, with its speed, that means an efficiency above 0.45 at the
/// wheels. No engine explains it (common practice: 0.45 is the best of engines at its best point,
/// without a drivetrain), and fuel would be far too little. A mass that is not said is taken low.
std::vector<plan::Diagnostic> fuel_problems(const plan::Plan& plan);

/// Warnings: a figure on hard ground that means an efficiency above 0.33, or below 0.15 where its
/// speed and mass are said; one on soft ground below what sealed road would take at that speed;
/// softer ground with less than harder.
std::vector<plan::Diagnostic> fuel_remarks(const plan::Plan& plan);

}  // namespace drystage::engine
