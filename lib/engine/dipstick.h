#pragma once

#include <optional>

#include "models/tank_shape.h"
#include "plan/gauge.h"

namespace drystage::engine {

/// How the walls of a shape stand.
models::Walls walls_of(const plan::Shape& shape);

/// Whether a gauge is a shape, and not marks.
bool has_shape(const plan::Gauge& gauge);

/// What a vessel with a gauge holds when it is wet to `depth_m` (0 or more). Above the full height
/// of a shape it is `holds_l`; above the last mark, what that mark says.
double dipped_l(const plan::Gauge& gauge, double holds_l, double depth_m);

/// The depth at which it holds `volume_l`. None if that is below what the first mark at depth 0
/// has, above the last mark, or more than it holds.
std::optional<double> dipped_depth_m(const plan::Gauge& gauge, double holds_l, double volume_l);

}  // namespace drystage::engine
