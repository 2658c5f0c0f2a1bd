#pragma once

#include <string>
#include <vector>

#include "drawing/axis.h"
#include "drawing/page.h"
#include "drawing/typesetter.h"

namespace drystage::drawing {

/// The pieces of a line of joined points that lie within a rectangle, its edges with it. What only
/// touches it in a point is left out.
std::vector<std::vector<Point>> clipped(const std::vector<Point>& line, const Rect& within);

/// The same line without those points that lie between their neighbours on a straight line, by a
/// hundredth of a point: most of them, where there are many.
std::vector<Point> without_needless(const std::vector<Point>& line);

/// Words for a place along an axis.
struct Label {
  double at_pt = 0;
  std::string words;
};

/// How many labels apart those must be that are shown, so that none comes nearer to the next than
/// `gap_pt`: 1 where there is room for all. The labels are evenly spaced.
std::size_t stride(const Typesetter& typesetter, const std::vector<Label>& labels, const Font& font,
                   double gap_pt);

/// Labels in a row, each in the middle of its place: the first and every so-manieth after it. One
/// that would pass an end of the row is left out.
std::vector<Mark> row_of(const Typesetter& typesetter, const std::vector<Label>& labels,
                         std::size_t every, const Font& font, double top_pt, double from_pt,
                         double to_pt);

/// A frame on paper for numbers: lines in it end at its edges.
class Plot {
 public:
  /// The numbers that stand at the frame's left and right edge, and at its foot and top.
  Plot(const Rect& frame, double left, double right, double foot, double top);

  [[nodiscard]] Point at(double x, double y) const;
  [[nodiscard]] const Rect& frame() const { return frame_; }
  [[nodiscard]] const Scale& across() const { return across_; }
  [[nodiscard]] const Scale& upward() const { return upward_; }

  /// Straight through the frame at each of these numbers.
  void upright_lines(const std::vector<double>& x, const Stroke& stroke);
  void level_lines(const std::vector<double>& y, const Stroke& stroke);

  /// Numbers (x and y) joined by straight lines, as far as they lie in the frame.
  void line(const std::vector<Point>& numbers, const Stroke& stroke);

  void edge(const Stroke& stroke);
  void add(Mark mark);
  void add(const std::vector<Mark>& marks);

  /// An axis' numbers beside the frame: right up to its left side, or from its right side on.
  void numbers_left(const Typesetter& typesetter, const Axis& axis, const Font& font);
  void numbers_right(const Typesetter& typesetter, const Axis& axis, const Font& font);

  [[nodiscard]] std::vector<Mark> marks() && { return std::move(marks_); }

 private:
  void numbers(const Typesetter& typesetter, const Axis& axis, const Font& font, double x_pt,
               Align align);

  Rect frame_;
  Scale across_;
  Scale upward_;
  std::vector<Mark> marks_;
};

/// How wide the widest number of an axis is, with the gap between it and the frame.
double numbers_width(const Typesetter& typesetter, const Axis& axis, const Font& font);

/// A filled circle, as a polygon.
Shape dot(Point centre, double radius_pt, double grey = 0);

/// Lines that rise to the right, `apart_pt` from each other along a level line, as far as they lie
/// within an area and within a box. The points, joined and closed, are the area's edge.
std::vector<Mark> hatch(const std::vector<Point>& area, const Rect& within, double apart_pt,
                        const Stroke& stroke);

}  // namespace drystage::drawing
