#pragma once

#include <limits>

namespace drystage::drawing {

/// A sheet and the margin that is left free on each side of it, in points.
struct Paper {
  double width_pt = 0;
  double height_pt = 0;  ///< infinite: one page as long as what stands on it
  double margin_pt = 0;

  /// How wide a block may be.
  [[nodiscard]] double column_pt() const { return width_pt - 2 * margin_pt; }
};

inline constexpr double points_per_mm = 72 / 25.4;

/// ISO 216 A4 and US Letter (ANSI/ASME Y14.1).
inline constexpr Paper a4{.width_pt = 210 * points_per_mm,
                          .height_pt = 297 * points_per_mm,
                          .margin_pt = 10 * points_per_mm};
inline constexpr Paper letter{
    .width_pt = 8.5 * 72, .height_pt = 11.0 * 72, .margin_pt = 10 * points_per_mm};

/// A strip as wide as the screen of a telephone held upright, 360 CSS pixels of 1/96 inch.
inline constexpr Paper strip{
    .width_pt = 360 * 0.75, .height_pt = std::numeric_limits<double>::infinity(), .margin_pt = 8};

}  // namespace drystage::drawing
