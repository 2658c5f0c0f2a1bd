#pragma once

#include <optional>
#include <vector>

#include "plan/gauge.h"

namespace drystage::models {

/// What is in a vessel between the marks at which it was measured (ours), so that it is hardly ever
/// said to be more than there is. At a mark it is what was measured. Between two marks:
///  - a straight line, where the marks beside show that the walls do not widen upwards;
///  - where they do, what is the least for walls that go on widening: neither less than the line of
///    the marks below, drawn on, nor less than that of the marks above, drawn back. Above the last
///    mark they are taken to go on widening as they did;
///  - up to the first mark, volume = base + (mark - base) (depth / mark's depth)^p, which ends as
///    steep as the line to the second mark, but with a p from 1, a straight line, to 3, a cone that
///    stands on its tip. A wedge has a p of 2, a lying cylinder's bottom 1.5. The base is a mark at
///    depth 0, else 0.
/// With one mark it is a straight line.
class DipCurve {
 public:
  /// `marks` as in plan::Gauge: depths and volumes rise, and at least one is above depth 0.
  explicit DipCurve(const std::vector<plan::DipMark>& marks);

  /// In L at a depth in m. Below depth 0 it is the base, above the last mark what that mark says.
  [[nodiscard]] double volume_l(double depth_m) const;

  /// The inverse; none for less than the base or more than the last mark.
  [[nodiscard]] std::optional<double> depth_m(double volume_l) const;

 private:
  std::vector<plan::DipMark> corners_;  // straight lines between them, but up to the second
  double power_ = 1;                    // p, from the first to the second
};

}  // namespace drystage::models
