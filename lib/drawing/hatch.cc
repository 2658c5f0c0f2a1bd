#include "drawing/hatch.h"

#include <algorithm>
#include <cmath>

#include "drawing/plot.h"

namespace drystage::drawing {
namespace {

constexpr double shortest_pt = 0.01;

/// The line on which a point lies: x and y of all its points have the same sum.
double rising(Point point) { return point.x + point.y; }

/// Where a line meets the edge of an area, from left to right: in pairs, in and out again.
std::vector<Point> meets(const std::vector<Point>& area, double sum) {
  std::vector<Point> out;
  for (std::size_t i = 0; i < area.size(); ++i) {
    const Point a = area[i];
    const Point b = area[(i + 1) % area.size()];
    // What ends on the line counts on one side, so that a corner is met once.
    if ((rising(a) <= sum) == (rising(b) <= sum)) continue;
    const double share = (sum - rising(a)) / (rising(b) - rising(a));
    out.push_back({.x = std::lerp(a.x, b.x, share), .y = std::lerp(a.y, b.y, share)});
  }
  std::ranges::sort(out, {}, &Point::x);
  return out;
}

}  // namespace

std::vector<Mark> hatch(const std::vector<Point>& area, const Rect& within, double apart_pt,
                        const Stroke& stroke) {
  std::vector<Mark> out;
  const double first = within.x + within.y;
  const int lines = static_cast<int>((within.width + within.height) / apart_pt);
  for (int i = 1; i <= lines; ++i) {
    const std::vector<Point> points = meets(area, first + apart_pt * i);
    for (std::size_t p = 1; p < points.size(); p += 2) {
      if (points[p].x - points[p - 1].x < shortest_pt) continue;
      for (const std::vector<Point>& piece : clipped({points[p - 1], points[p]}, within)) {
        out.emplace_back(line(piece.front(), piece.back(), stroke));
      }
    }
  }
  return out;
}

}  // namespace drystage::drawing
