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

// Of pictures that nobody writes in: little grid, and a line that is never lost on it.
inline drawing::Stroke faint_grid() { return {.width_pt = 0.4, .dash_pt = {}, .grey = 0.7}; }
inline drawing::Stroke halo() { return {.width_pt = 4.5, .dash_pt = {}, .grey = 1}; }
inline drawing::Stroke zone_hatch() { return {.width_pt = 0.6, .dash_pt = {}, .grey = 0.35}; }
inline drawing::Stroke decides_line() { return {.width_pt = 2.2}; }
inline constexpr double zone_apart_pt = 4.5;
inline constexpr double night_grey = 0.92;

}  // namespace drystage::report
