#include "support/charts.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <variant>

#include "report/charts/picture.h"
#include "support/laid_out.h"

namespace drystage::support {
namespace {

using drawing::Mark;
using drawing::Point;
using drawing::Shape;
using drawing::Text;

bool like(const drawing::Stroke& a, const drawing::Stroke& b) {
  return a.width_pt == b.width_pt && a.dash_pt == b.dash_pt && a.grey == b.grey;
}

std::optional<double> number_in(const std::string& words) {
  std::size_t used = 0;
  try {
    const double number = std::stod(words, &used);
    if (used == words.size()) return number;
  } catch (const std::exception&) {
    return std::nullopt;
  }
  return std::nullopt;
}

double from_segment(Point point, Point a, Point b) {
  const double x = b.x - a.x;
  const double y = b.y - a.y;
  const double square = x * x + y * y;
  const double share =
      square == 0 ? 0 : std::clamp(((point.x - a.x) * x + (point.y - a.y) * y) / square, 0.0, 1.0);
  return std::hypot(point.x - a.x - share * x, point.y - a.y - share * y);
}

/// By the numbers to the left of a frame.
drawing::Scale levels_beside(const drawing::Typesetter& typesetter, const drawing::Block& block,
                             const drawing::Rect& frame) {
  std::map<double, double> levels;  // number: middle of its words
  for (const Mark& mark : block.marks) {
    const auto* text = std::get_if<Text>(&mark);
    if (text == nullptr) continue;
    const drawing::Rect ink = ink_box(typesetter, *text);
    const double middle = ink.y + ink.height / 2;
    if (ink.right() >= frame.x || middle <= frame.y - 1 || middle >= frame.bottom() + 1) continue;
    if (const auto number = number_in(text->words)) levels[*number] = middle;
  }
  if (levels.size() < 2) throw std::runtime_error("a chart without numbers");
  return {.from = levels.begin()->first,
          .to = levels.rbegin()->first,
          .from_pt = levels.begin()->second,
          .to_pt = levels.rbegin()->second};
}

}  // namespace

std::vector<std::vector<Point>> lines_of(const std::vector<Mark>& marks,
                                         const drawing::Stroke& stroke) {
  std::vector<std::vector<Point>> out;
  for (const Mark& mark : marks) {
    const auto* shape = std::get_if<Shape>(&mark);
    if (shape != nullptr && shape->stroke && like(*shape->stroke, stroke) && !shape->closed) {
      out.push_back(shape->points);
    }
  }
  return out;
}

drawing::Rect frame_of(const drawing::Block& block) {
  for (const Mark& mark : block.marks) {
    const auto* shape = std::get_if<Shape>(&mark);
    if (shape == nullptr || !shape->closed || !shape->stroke || shape->points.size() != 4 ||
        !like(*shape->stroke, report::edge_line())) {
      continue;
    }
    const auto [left, right] = std::ranges::minmax(shape->points, {}, &Point::x);
    const auto [top, foot] = std::ranges::minmax(shape->points, {}, &Point::y);
    return {.x = left.x, .y = top.y, .width = right.x - left.x, .height = foot.y - top.y};
  }
  throw std::runtime_error("a chart without a frame");
}

ReadChart read_strip(const drawing::Typesetter& typesetter, const drawing::Block& block,
                     double from, double to) {
  ReadChart out{.frame = frame_of(block)};
  out.hours = {.from = from, .to = to, .from_pt = out.frame.x, .to_pt = out.frame.right()};
  out.levels = levels_beside(typesetter, block, out.frame);
  return out;
}

ReadChart read_chart(const drawing::Typesetter& typesetter, const drawing::Block& block) {
  ReadChart out{.frame = frame_of(block)};
  out.levels = levels_beside(typesetter, block, out.frame);
  std::map<double, double> days;  // number: middle of its words
  for (const Mark& mark : block.marks) {
    const auto* text = std::get_if<Text>(&mark);
    if (text == nullptr || !text->font.bold) continue;
    const drawing::Rect ink = ink_box(typesetter, *text);
    if (ink.y <= out.frame.bottom()) continue;
    const std::string& words = text->words;
    const auto day = number_in(words.starts_with("day ") ? words.substr(4) : words);
    if (day) days[*day] = ink.x + ink.width / 2;
  }
  if (days.empty()) throw std::runtime_error("a chart without days");
  // A day's number stands in its middle; of a single one its edges are those of the frame.
  const auto middle = [](double day) { return day_h * (day - 0.5); };
  if (days.size() > 1) {
    out.hours = {.from = middle(days.begin()->first),
                 .to = middle(days.rbegin()->first),
                 .from_pt = days.begin()->second,
                 .to_pt = days.rbegin()->second};
  } else {
    const double day = days.begin()->first;
    const double half_pt = days.begin()->second - out.frame.x;
    out.hours = {.from = day_h * (day - 1),
                 .to = middle(day),
                 .from_pt = out.frame.x,
                 .to_pt = out.frame.x + half_pt};
  }
  return out;
}

double distance(Point point, const std::vector<std::vector<Point>>& lines) {
  double least = std::numeric_limits<double>::infinity();
  for (const std::vector<Point>& line : lines) {
    for (std::size_t i = 1; i < line.size(); ++i) {
      least = std::min(least, from_segment(point, line[i - 1], line[i]));
    }
  }
  return least;
}

answers::Needs random_needs(const answers::PlanRun& planned, const Pick& pick) {
  answers::Needs out;
  for (std::size_t r = 0; r < planned.course.reserves.size(); ++r) {
    if (planned.course.reserves[r].sense == engine::Sense::keep_above) {
      out.reserves.push_back(static_cast<int>(r));
    }
  }
  for (std::size_t day = 0; day < planned.record.days(); ++day) {
    for (const int reserve : out.reserves) {
      const auto r = static_cast<std::size_t>(reserve);
      const double held = planned.course.reserves[r].capacity;
      answers::Need need;
      need.has = planned.record.reserve(day, r).start;
      need.must_have = held * pick(0, 100) / 100;
      need.until_day = pick(0, 1) == 0 ? static_cast<int>(planned.record.days()) - 1 : pick(0, 5);
      need.until_h = 24;
      const int kind = pick(0, 9);
      if (kind == 0) need.must_have = std::numeric_limits<double>::infinity();
      if (kind == 1) need.must_have = held * 1.5 + 1;
      need.fits = kind > 1;
      out.table.push_back(need);
    }
  }
  return out;
}

}  // namespace drystage::support
