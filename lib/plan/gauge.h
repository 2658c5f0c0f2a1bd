#pragma once

#include <variant>
#include <vector>

namespace drystage::plan {

/// The plain shapes that a vessel's inside may have. Inside measures; the height of a box and of a
/// standing cylinder is upright, the length of a lying cylinder level.
struct Box {
  double length_m = 0;
  double width_m = 0;
  double height_m = 0;
  bool operator==(const Box&) const = default;
};
struct LyingCylinder {
  double diameter_m = 0;
  double length_m = 0;
  bool operator==(const LyingCylinder&) const = default;
};
struct StandingCylinder {
  double diameter_m = 0;
  double height_m = 0;
  bool operator==(const StandingCylinder&) const = default;
};

/// No shape where none is said.
using Shape = std::variant<std::monostate, Box, LyingCylinder, StandingCylinder>;

/// What there is room for within the measures, in L; 0 without a shape.
double room_l(const Shape& shape);

/// From the lowest point inside to the highest, in m; 0 without a shape.
double height_m(const Shape& shape);

/// A mark of the user's own: so much was in it when a stick was wet so far.
struct DipMark {
  double depth_m = 0;
  double volume_l = 0;
  bool operator==(const DipMark&) const = default;
};

/// How a vessel is read with a dipstick: by its shape, or by marks, but not by both.
struct Gauge {
  Shape shape{};
  std::vector<DipMark> marks{};  ///< depths and volumes rise; only the first may be at depth 0

  [[nodiscard]] bool is_given() const {
    return !std::holds_alternative<std::monostate>(shape) || !marks.empty();
  }
  bool operator==(const Gauge&) const = default;
};

}  // namespace drystage::plan
