#include "engine/dipstick.h"

#include "models/dip_curve.h"

namespace drystage::engine {

using plan::Gauge;

models::Walls walls_of(const plan::Shape& shape) {
  return std::holds_alternative<plan::LyingCylinder>(shape) ? models::Walls::lying_cylinder
                                                            : models::Walls::upright;
}

bool has_shape(const Gauge& gauge) { return plan::height_m(gauge.shape) > 0; }

double dipped_l(const Gauge& gauge, double holds_l, double depth_m) {
  if (has_shape(gauge)) {
    return holds_l *
           models::filled_share(walls_of(gauge.shape), depth_m / plan::height_m(gauge.shape));
  }
  return models::DipCurve(gauge.marks).volume_l(depth_m);
}

std::optional<double> dipped_depth_m(const Gauge& gauge, double holds_l, double volume_l) {
  if (volume_l < 0 || volume_l > holds_l || holds_l <= 0) return std::nullopt;
  if (has_shape(gauge)) {
    return plan::height_m(gauge.shape) *
           models::depth_share(walls_of(gauge.shape), volume_l / holds_l);
  }
  return models::DipCurve(gauge.marks).depth_m(volume_l);
}

}  // namespace drystage::engine
