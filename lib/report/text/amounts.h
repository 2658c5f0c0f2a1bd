#pragma once

#include <string>
#include <string_view>

#include "engine/course.h"
#include "units/format.h"

namespace drystage::report {

/// Which way a figure may be rounded without making things look better than they are: what is
/// needed up, what there is down.
enum class Toward { up, down };

/// A canonical number in the units to show, to so many digits and rounded one way: "461 km".
std::string rounded_words(double canonical, units::Kind kind, units::System system, int digits,
                          Toward toward);

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

/// Digits after the point for an amount that is to be read to a tenth where there is little of it:
/// the reserve's own, one at the least below 10 (in the units to show).
int digits_for(const engine::ReserveInfo& reserve, double level, units::System system);

/// An amount without its unit in the units to show, rounded one way. What is only the rounding of
/// a double (a millionth of a unit) is not rounded further away. Never "-0".
std::string amount_toward(const engine::ReserveInfo& reserve, double level, units::System system,
                          Toward toward, int digits);

/// The same to the digits that suit it, with its unit: "51 L".
std::string amount_toward(const engine::ReserveInfo& reserve, double level, units::System system,
                          Toward toward);

/// A difference of two levels of a reserve with its unit, rounded up: one of temperatures has
/// another size than a temperature.
std::string difference_words(const engine::ReserveInfo& info, double by, units::System system);

/// A number to so many digits after the point, rounded one way.
double rounded(double number, int digits, Toward toward);

}  // namespace drystage::report
