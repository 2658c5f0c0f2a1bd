#include "plan/gauge.h"

#include <numbers>

namespace drystage::plan {
namespace {

constexpr double l_per_m3 = 1000;

double disc_m2(double diameter_m) { return std::numbers::pi / 4 * diameter_m * diameter_m; }

struct Room {
  double operator()(const std::monostate& /*none*/) const { return 0; }
  double operator()(const Box& box) const {
    return l_per_m3 * box.length_m * box.width_m * box.height_m;
  }
  double operator()(const LyingCylinder& lying) const {
    return l_per_m3 * disc_m2(lying.diameter_m) * lying.length_m;
  }
  double operator()(const StandingCylinder& standing) const {
    return l_per_m3 * disc_m2(standing.diameter_m) * standing.height_m;
  }
};

struct Height {
  double operator()(const std::monostate& /*none*/) const { return 0; }
  double operator()(const Box& box) const { return box.height_m; }
  double operator()(const LyingCylinder& lying) const { return lying.diameter_m; }
  double operator()(const StandingCylinder& standing) const { return standing.height_m; }
};

}  // namespace

double room_l(const Shape& shape) { return std::visit(Room{}, shape); }

double height_m(const Shape& shape) { return std::visit(Height{}, shape); }

}  // namespace drystage::plan
