#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace drystage::drawing {

// What is drawn, as values: pages with text and shapes on them. All lengths are points (1/72 inch);
// y runs down the page. Shades are from 0 (black) to 1 (white): there is no colour.

struct Point {
  double x = 0;
  double y = 0;
};

struct Rect {
  double x = 0;
  double y = 0;
  double width = 0;
  double height = 0;

  [[nodiscard]] double right() const { return x + width; }
  [[nodiscard]] double bottom() const { return y + height; }
};

struct Font {
  double size_pt = 9;
  bool bold = false;

  friend bool operator==(const Font&, const Font&) = default;
};

enum class Align { left, centre, right };

/// Words in a box: broken into lines of its width, the first line at its top. Its height is that of
/// the lines (Typesetter::size). Nothing in the words is markup.
struct Text {
  std::string words;
  Font font{};
  Align align = Align::left;
  Rect box{};
  double grey = 0;
};

struct Stroke {
  double width_pt = 0.5;
  std::vector<double> dash_pt{};  ///< on, off, on, off ...; empty: unbroken
  double grey = 0;
};

/// Points joined by straight lines.
struct Shape {
  std::vector<Point> points;
  bool closed = false;
  std::optional<Stroke> stroke{};
  std::optional<double> fill_grey{};
};

using Mark = std::variant<Text, Shape>;

struct Page {
  double width_pt = 0;
  double height_pt = 0;
  std::vector<Mark> marks{};  ///< drawn in this order
};

struct Drawing {
  std::string title;
  std::vector<Page> pages{};
};

/// The four corners of a box, one after the other.
std::vector<Point> corners(const Rect& rect);

/// A line, and the outline or the inside of a box.
Shape line(Point from, Point to, const Stroke& stroke = {});
Shape outline(const Rect& rect, const Stroke& stroke = {});
Shape filled(const Rect& rect, double grey);

/// The same mark elsewhere.
Mark moved(const Mark& mark, double right_pt, double down_pt);

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

}  // namespace drystage::drawing
