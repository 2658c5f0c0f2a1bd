#pragma once

#include <vector>

namespace drystage::drawing {

/// The least of 1, 2 or 5 times a power of ten that is no less than a number above 0.
double round_step(double at_least);

/// An axis with lines at round numbers: some with a number beside them, and finer ones between.
struct Axis {
  double low = 0;
  double high = 1;
  double step = 1;   ///< between numbers: 1, 2 or 5 times a power of ten
  double fine = 1;   ///< between lines; divides `step`
  int decimals = 0;  ///< that the numbers need

  /// Multiples of `step`, and those of `fine` that are none, from low to high in order.
  [[nodiscard]] std::vector<double> numbers() const;
  [[nodiscard]] std::vector<double> fine_lines() const;
};

/// An axis of a length that shows all from `low` to `high`, which are finite, the second above the
/// first. Fine lines are `fine_pt` apart or more, as near to it as round steps allow; numbers
/// `step_pt` or more. Its ends are the fine lines at or next beyond those numbers.
Axis axis_over(double low, double high, double length_pt, double fine_pt, double step_pt);

/// Numbers in proportion to places on paper: `from` stands at `from_pt`, `to` at `to_pt`.
struct Scale {
  double from = 0;
  double to = 1;
  double from_pt = 0;
  double to_pt = 1;

  [[nodiscard]] double at_pt(double number) const {
    return from_pt + (number - from) / (to - from) * (to_pt - from_pt);
  }
  [[nodiscard]] double number(double at_pt) const {
    return from + (at_pt - from_pt) / (to_pt - from_pt) * (to - from);
  }
};

}  // namespace drystage::drawing
