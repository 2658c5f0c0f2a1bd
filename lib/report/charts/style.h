#pragma once

#include "drawing/page.h"
#include "report/text/type.h"

namespace drystage::report {

// How charts look. Lines are told apart by dash, weight and dots alone, so that a bad copy in black
// and white still tells them apart.

inline drawing::Stroke plan_line() { return {.width_pt = 2}; }
inline drawing::Stroke margin_line() { return {.width_pt = 1.6, .dash_pt = {1.6, 2.4}}; }
inline drawing::Stroke must_line() { return {.width_pt = 1.1, .dash_pt = {5, 3}}; }

inline drawing::Stroke edge_line() { return {.width_pt = 1}; }
inline drawing::Stroke strong_grid() { return {.width_pt = 0.55, .dash_pt = {}, .grey = 0.2}; }
inline drawing::Stroke fine_grid() { return {.width_pt = 0.3, .dash_pt = {}, .grey = 0.45}; }

}  // namespace drystage::report
