#pragma once

#include <string>
#include <string_view>

#include "report/text/rounding.h"
#include "units/format.h"

namespace drystage::report {

/// A mass in the units to show, rounded one way: whole, to a tenth below ten. Without its unit, and
/// with it: "412", "412 kg".
std::string mass_number(double kg, units::System system, Toward toward);
std::string mass_words(double kg, units::System system, Toward toward);

/// The same of a volume: "300 L".
std::string volume_number(double volume_l, units::System system, Toward toward);
std::string volume_words(double volume_l, units::System system, Toward toward);

/// Money, rounded up: whole, or with two digits after the point where it is not.
std::string cost_number(double cost);

/// So much of what cans and days of food are of: "60 L", "1 day", "9 days". The unit is that of
/// SizedLine.
std::string quantity_words(double quantity, std::string_view unit, units::System system);

/// Whether two amounts, masses or costs are the same but for the rounding of a double.
bool same(double a, double b);

}  // namespace drystage::report
