#include "models/tank_shape.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace drystage::models {
namespace {

using std::numbers::pi;

// Of a segment no higher than its circle's radius. a - sin a is a difference of near numbers where
// a is small: there its series a^3/6 - a^5/120 + a^7/5040 is more accurate.
double lower_segment_share(double depth_share) {
  constexpr double small = 0.1;  // the next term is then below 1e-10 of the whole
  const double angle = 4 * std::asin(std::sqrt(depth_share));  // as 2 acos(1 - 2 share), stabler
  if (angle >= small) return (angle - std::sin(angle)) / (2 * pi);
  const double square = angle * angle;
  return angle * square * (1.0 / 6 - square * (1.0 / 120 - square / 5040)) / (2 * pi);
}

double segment_share(double depth_share) {
  return depth_share <= 0.5 ? lower_segment_share(depth_share)
                            : 1 - lower_segment_share(1 - depth_share);
}

}  // namespace

double filled_share(Walls walls, double depth_share) {
  depth_share = std::clamp(depth_share, 0.0, 1.0);
  return walls == Walls::upright ? depth_share : segment_share(depth_share);
}

double depth_share(Walls walls, double filled_share) {
  filled_share = std::clamp(filled_share, 0.0, 1.0);
  if (walls == Walls::upright || filled_share == 0 || filled_share == 1) return filled_share;
  // It rises with the depth: halving finds the one depth to the last digit that a double has.
  double low = 0;
  double high = 1;
  for (;;) {
    const double middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) return middle;
    (segment_share(middle) < filled_share ? low : high) = middle;
  }
}

}  // namespace drystage::models
