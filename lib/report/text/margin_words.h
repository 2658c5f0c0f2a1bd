#pragma once

#include <string>
#include <vector>

#include "answers/base/plan_run.h"
#include "units/format.h"

namespace drystage::report {

/// The margins of a plan in words, a line for each reserve that has one, in the course's order:
/// "drinking water: what 3 days of staying put would use", "fuel of truck: 150 km", "utility water:
/// 20 L (25 %)", "cold in chest: nothing warmer than 5 °C", "house battery: 50 Ah (50 %), up to 57
/// Ah in the cold". Margins that the plan does not name and that hold all the same (a battery's
/// floor, food safety) are among them. Amounts are rounded up, the warmest allowed down. Of the
/// reserves without a margin, drinking water and fuel have a line that says so.
std::vector<std::string> margin_lines(const answers::PlanRun& planned, units::System system);

/// What a margin comes to at a moment, and what it is by the plan: "19 L (3 days)".
std::string margin_then_words(const engine::ReserveInfo& reserve, double margin,
                              units::System system);

/// What no pump gets out of the tanks, rounded up: "4 L in truck". It is no part of any figure.
/// Empty where there is none.
std::string undrawable_words(const answers::PlanRun& planned, units::System system);

}  // namespace drystage::report
