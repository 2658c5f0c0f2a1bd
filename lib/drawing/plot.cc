#include "drawing/plot.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>
#include <string_view>
#include <utility>

#include "units/format.h"

namespace drystage::drawing {
namespace {

constexpr double number_gap_pt = 3;
constexpr double slip_pt = 0.01;
constexpr std::size_t most_left_out = 40;  // in a row
/// What is off the edge by no more than this lies on it: the rounding of a double.
constexpr double noise_pt = 1e-6;

double between(double a, double b, double share) { return a + share * (b - a); }

Point between(Point a, Point b, double share) {
  return {.x = between(a.x, b.x, share), .y = between(a.y, b.y, share)};
}

/// Which part of a straight line lies within (Liang and Barsky, ACM Trans. Graph. 3, 1984): shares
/// of its length, the first above the second where none does.
std::pair<double, double> part_within(Point a, Point b, const Rect& within) {
  double from = 0;
  double to = 1;
  const auto bound = [&from, &to](double step, double room) {
    if (step == 0) {
      if (room < -noise_pt) to = -1;
    } else if (step < 0) {
      from = std::max(from, room / step);
    } else {
      to = std::min(to, room / step);
    }
  };
  bound(a.x - b.x, a.x - within.x);
  bound(b.x - a.x, within.right() - a.x);
  bound(a.y - b.y, a.y - within.y);
  bound(b.y - a.y, within.bottom() - a.y);
  return {from, to};
}

std::string number_words(const Axis& axis, double number) {
  return units::format_number(number, units::decimals(axis.decimals));
}

/// Whether a point is as good as on the way between two.
bool is_between(Point a, Point point, Point b) {
  const double x = b.x - a.x;
  const double y = b.y - a.y;
  const double length = std::hypot(x, y);
  if (length == 0) return std::hypot(point.x - a.x, point.y - a.y) <= slip_pt;
  const double along = ((point.x - a.x) * x + (point.y - a.y) * y) / length;
  const double aside = std::abs((point.x - a.x) * y - (point.y - a.y) * x) / length;
  return aside <= slip_pt && along >= 0 && along <= length;
}

constexpr double shortest_pt = 0.01;

/// The line on which a point lies: x and y of all its points have the same sum.
double rising(Point point) { return point.x + point.y; }

/// Where a line meets the edge of an area, from left to right: in pairs, in and out again.
std::vector<Point> meets(const std::vector<Point>& area, double sum) {
  std::vector<Point> out;
  for (std::size_t i = 0; i < area.size(); ++i) {
    const Point a = area[i];
    const Point b = area[(i + 1) % area.size()];
    // What ends on the line counts on one side, so that a corner is met once.
    if ((rising(a) <= sum) == (rising(b) <= sum)) continue;
    const double share = (sum - rising(a)) / (rising(b) - rising(a));
    out.push_back({.x = std::lerp(a.x, b.x, share), .y = std::lerp(a.y, b.y, share)});
  }
  std::ranges::sort(out, {}, &Point::x);
  return out;
}

}  // namespace

std::vector<std::vector<Point>> clipped(const std::vector<Point>& line, const Rect& within) {
  std::vector<std::vector<Point>> out;
  bool goes_on = false;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Point a = line[i - 1];
    const Point b = line[i];
    const auto [from, to] = part_within(a, b, within);
    if (from >= to) {
      goes_on = false;
      continue;
    }
    if (!goes_on || from > 0) out.push_back({from > 0 ? between(a, b, from) : a});
    out.back().push_back(to < 1 ? between(a, b, to) : b);
    goes_on = to >= 1;
  }
  return out;
}

std::vector<Point> without_needless(const std::vector<Point>& line) {
  std::vector<Point> out;
  std::size_t kept = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    // All that would be left out up to here must lie on the way, not only the last. Of a long way
    // some are kept, lest they be looked at again and again.
    const bool needless = i > 0 && i + 1 < line.size() && i - kept < most_left_out && [&] {
      for (std::size_t j = kept + 1; j <= i; ++j) {
        if (!is_between(line[kept], line[j], line[i + 1])) return false;
      }
      return true;
    }();
    if (needless) continue;
    out.push_back(line[i]);
    kept = i;
  }
  return out;
}

std::size_t stride(const Typesetter& typesetter, const std::vector<Label>& labels, const Font& font,
                   double gap_pt) {
  if (labels.size() < 2) return 1;
  // To measure words takes time, and weekdays and hours come again and again.
  std::set<std::string_view> different;
  for (const Label& label : labels) different.insert(label.words);
  double widest = 0;
  for (const std::string_view words : different) {
    widest = std::max(widest, typesetter.width(std::string(words), font));
  }
  const double apart = std::abs(labels[1].at_pt - labels[0].at_pt);
  return static_cast<std::size_t>(std::max(1.0, std::ceil((widest + gap_pt) / apart)));
}

std::vector<Mark> row_of(const Typesetter& typesetter, const std::vector<Label>& labels,
                         std::size_t every, const Font& font, double top_pt, double from_pt,
                         double to_pt) {
  std::vector<Mark> out;
  for (std::size_t i = 0; i < labels.size(); i += every) {
    const double width = typesetter.width(labels[i].words, font);
    const double left = labels[i].at_pt - width / 2;
    if (left < from_pt || left + width > to_pt) continue;
    // A little more than its width, lest it be broken.
    out.emplace_back(typesetter.text(labels[i].words, font, {.x = left - 1, .y = top_pt}, width + 2,
                                     Align::centre));
  }
  return out;
}

Plot::Plot(const Rect& frame, double left, double right, double foot, double top)
    : frame_(frame),
      across_{.from = left, .to = right, .from_pt = frame.x, .to_pt = frame.right()},
      upward_{.from = foot, .to = top, .from_pt = frame.bottom(), .to_pt = frame.y} {}

Point Plot::at(double x, double y) const { return {.x = across_.at_pt(x), .y = upward_.at_pt(y)}; }

void Plot::add(Mark mark) { marks_.push_back(std::move(mark)); }

void Plot::upright_lines(const std::vector<double>& x, const Stroke& stroke) {
  for (const double number : x) {
    const double at = across_.at_pt(number);
    add(drawing::line({.x = at, .y = frame_.y}, {.x = at, .y = frame_.bottom()}, stroke));
  }
}

void Plot::level_lines(const std::vector<double>& y, const Stroke& stroke) {
  for (const double number : y) {
    const double at = upward_.at_pt(number);
    add(drawing::line({.x = frame_.x, .y = at}, {.x = frame_.right(), .y = at}, stroke));
  }
}

void Plot::line(const std::vector<Point>& numbers, const Stroke& stroke) {
  std::vector<Point> points;
  points.reserve(numbers.size());
  for (const Point& number : numbers) points.push_back(at(number.x, number.y));
  for (const std::vector<Point>& piece : clipped(points, frame_)) {
    add(Shape{.points = without_needless(piece), .stroke = stroke});
  }
}

void Plot::edge(const Stroke& stroke) { add(outline(frame_, stroke)); }

void Plot::add(const std::vector<Mark>& marks) {
  marks_.insert(marks_.end(), marks.begin(), marks.end());
}

void Plot::numbers(const Typesetter& typesetter, const Axis& axis, const Font& font, double x_pt,
                   Align align) {
  const double width = numbers_width(typesetter, axis, font);
  for (const double number : axis.numbers()) {
    const std::string words = number_words(axis, number);
    const double y = upward_.at_pt(number) - typesetter.size(words, font, width).height_pt / 2;
    add(typesetter.text(words, font, {.x = x_pt, .y = y}, width - number_gap_pt, align));
  }
}

void Plot::numbers_left(const Typesetter& typesetter, const Axis& axis, const Font& font) {
  numbers(typesetter, axis, font, frame_.x - numbers_width(typesetter, axis, font), Align::right);
}

void Plot::numbers_right(const Typesetter& typesetter, const Axis& axis, const Font& font) {
  numbers(typesetter, axis, font, frame_.right() + number_gap_pt, Align::left);
}

double numbers_width(const Typesetter& typesetter, const Axis& axis, const Font& font) {
  double widest = 0;
  for (const double number : axis.numbers()) {
    widest = std::max(widest, typesetter.width(number_words(axis, number), font));
  }
  // A little more than its width, lest it be broken.
  return widest + 1 + number_gap_pt;
}

Shape dot(Point centre, double radius_pt, double grey) {
  constexpr int corners = 16;
  Shape out{.points = {}, .closed = true, .fill_grey = grey};
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * i / corners;
    out.points.push_back(
        {.x = centre.x + radius_pt * std::cos(angle), .y = centre.y + radius_pt * std::sin(angle)});
  }
  return out;
}

std::vector<Mark> hatch(const std::vector<Point>& area, const Rect& within, double apart_pt,
                        const Stroke& stroke) {
  std::vector<Mark> out;
  const double first = within.x + within.y;
  const int lines = static_cast<int>((within.width + within.height) / apart_pt);
  for (int i = 1; i <= lines; ++i) {
    const std::vector<Point> points = meets(area, first + apart_pt * i);
    for (std::size_t p = 1; p < points.size(); p += 2) {
      if (points[p].x - points[p - 1].x < shortest_pt) continue;
      for (const std::vector<Point>& piece : clipped({points[p - 1], points[p]}, within)) {
        out.emplace_back(line(piece.front(), piece.back(), stroke));
      }
    }
  }
  return out;
}

}  // namespace drystage::drawing
