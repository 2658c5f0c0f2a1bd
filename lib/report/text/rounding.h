#pragma once

#include <string>

#include "engine/course.h"
#include "units/format.h"

namespace drystage::report {

/// Which way a figure may be rounded without making things look better than they are: what is
/// needed up, what there is down.
enum class Toward { up, down };

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
