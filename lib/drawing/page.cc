#include "drawing/page.h"

namespace drystage::drawing {

std::vector<Point> corners(const Rect& rect) {
  return {{.x = rect.x, .y = rect.y},
          {.x = rect.right(), .y = rect.y},
          {.x = rect.right(), .y = rect.bottom()},
          {.x = rect.x, .y = rect.bottom()}};
}

Shape line(Point from, Point to, const Stroke& stroke) {
  return {.points = {from, to}, .stroke = stroke};
}

Shape outline(const Rect& rect, const Stroke& stroke) {
  return {.points = corners(rect), .closed = true, .stroke = stroke};
}

Shape filled(const Rect& rect, double grey) {
  return {.points = corners(rect), .closed = true, .fill_grey = grey};
}

Mark moved(const Mark& mark, double right_pt, double down_pt) {
  Mark out = mark;
  if (auto* text = std::get_if<Text>(&out)) {
    text->box.x += right_pt;
    text->box.y += down_pt;
  } else if (auto* shape = std::get_if<Shape>(&out)) {
    for (Point& point : shape->points) {
      point.x += right_pt;
      point.y += down_pt;
    }
  }
  return out;
}

}  // namespace drystage::drawing
