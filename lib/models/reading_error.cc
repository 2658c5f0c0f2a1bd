#include "models/reading_error.h"

#include <algorithm>
#include <cmath>

namespace drystage::models {

namespace {

/// `volume_l` of a depth in m.
template <class Volume>
double dip_error_of(const Volume& volume_l, double depth_m) {
  const double read_l = volume_l(depth_m);
  return std::max(volume_l(depth_m + stick_error_m) - read_l,
                  read_l - volume_l(depth_m - stick_error_m));
}

}  // namespace

double dip_error_l(const DipCurve& curve, double depth_m) {
  return dip_error_of([&](double at_m) { return curve.volume_l(at_m); }, depth_m);
}

double dip_error_l(Walls walls, double holds_l, double height_m, double depth_m) {
  if (holds_l <= 0.0 || height_m <= 0.0) {
    return 0.0;
  }
  return dip_error_of(
      [&](double at_m) {
        return holds_l * filled_share(walls, std::clamp(at_m / height_m, 0.0, 1.0));
      },
      depth_m);
}

double cans_error_l(double can_holds_l) {
  return opened_can_error_share * std::max(can_holds_l, 0.0);
}

double error_of_sum(std::span<const double> errors) {
  double squares = 0.0;
  for (const double error : errors) {
    squares += error * error;
  }
  return std::sqrt(squares);
}

}  // namespace drystage::models
