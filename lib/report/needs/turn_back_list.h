#pragma once

#include <string>
#include <vector>

#include "report/needs/report.h"

namespace drystage::report {

/// Until when and where turning back is possible: for each reserve and each stretch between its
/// supplies, then for all together with the reserve that decides; on one screen for drinking water
/// and fuel together alone. Within 80 columns. Moments that must not be passed are rounded to
/// earlier ones, and those to be waited for to later ones.
std::string turn_back_list(const NeedsAnswer& answer, const TextOptions& options);

/// When turning back is possible, for what life depends on (`vital`) or for all together. A window
/// after the first is left out where the way back is the way on.
std::vector<answers::Window> told_windows(const NeedsAnswer& answer, bool vital);

/// The reserves that can be topped up, of those that life depends on (`vital`) or of all, to which
/// no place behind is sure to supply anything: "fuel of car, food". Empty where there is none.
std::string without_sure_supply(const NeedsAnswer& answer, bool vital);

}  // namespace drystage::report
