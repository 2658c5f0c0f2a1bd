#pragma once

#include <vector>

#include "drawing/page.h"

namespace drystage::drawing {

/// Lines that rise to the right, `apart_pt` from each other along a level line, as far as they lie
/// within an area and within a box. The points, joined and closed, are the area's edge.
std::vector<Mark> hatch(const std::vector<Point>& area, const Rect& within, double apart_pt,
                        const Stroke& stroke);

}  // namespace drystage::drawing
