#pragma once

#include <span>

#include "models/dip_curve.h"
#include "models/tank_shape.h"

namespace drystage::models {

/// How far off readings are: standard errors, in the unit of what is read. For all that is at or
/// below 0 they are 0.

/// Of a stick: 1.5 cm. Half a centimetre of it is reading the wet edge; the rest is standing out of
/// level, which makes 1.4 cm at the end of an 80 cm tank on a slope of 2° (geometry; how level
/// people stand: common practice).
inline constexpr double stick_error_m = 0.015;

/// Of a fuel gauge, as a share of what the tank holds: read to half of an eighth (common practice).
inline constexpr double gauge_error_share = 0.05;

/// Of a tank filled until the pump stops or to the brim, as a share of what it holds (common
/// practice: a litre more or less in 80). Cans filled to their mark are taken for exact.
inline constexpr double brim_error_share = 0.01;

/// Of an opened can or bottle, as a share of what it holds: judged by eye or weight of hand, to a
/// tenth (common practice). Those that are full, or empty, are counted, and so exact.
inline constexpr double opened_can_error_share = 0.10;

/// Of a battery monitor that counts what goes in and out, as a share of capacity: 3 %. Published
/// guides say 1 to 5 %; it drifts from one full charge to the next (common practice).
inline constexpr double monitor_error_share = 0.03;

/// Of meals counted in boxes: half a meal, for what is begun or was eaten between (common
/// practice).
inline constexpr double meal_count_error = 0.5;

/// Of a stick that is wet to `depth_m`: what `stick_error_m` makes there, on the side on which it
/// makes more. In L. At the bottom and the top of a vessel it is that of the side within.
[[nodiscard]] double dip_error_l(const DipCurve& curve, double depth_m);

/// The same for a vessel of a shape that holds `holds_l` and is `height_m` high inside.
[[nodiscard]] double dip_error_l(Walls walls, double holds_l, double height_m, double depth_m);

/// Of all that is in cans of a kind, of `can_holds_l` each, of which one at a time is open.
[[nodiscard]] double cans_error_l(double can_holds_l);

/// Of a sum of readings with independent errors.
[[nodiscard]] double error_of_sum(std::span<const double> errors);

}  // namespace drystage::models
