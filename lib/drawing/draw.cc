#include "drawing/draw.h"

#include <pango/pangocairo.h>

#include <algorithm>

#include "drawing/layout.h"

namespace drystage::drawing {
namespace {

constexpr double page_gap_pt = 12;  ///< between pages of a stack

void set_grey(const Cairo::RefPtr<Cairo::Context>& target, double grey) {
  target->set_source_rgb(grey, grey, grey);
}

void draw_mark(const Cairo::RefPtr<Cairo::Context>& target,
               const Glib::RefPtr<Pango::Context>& fonts, const Text& text) {
  set_grey(target, text.grey);
  target->move_to(text.box.x, text.box.y);
  pango_cairo_show_layout(target->cobj(), layout_of(fonts, text)->gobj());
  target->begin_new_path();
}

void draw_mark(const Cairo::RefPtr<Cairo::Context>& target, const Shape& shape) {
  if (shape.points.empty()) return;
  target->begin_new_path();
  for (const Point& point : shape.points) target->line_to(point.x, point.y);
  if (shape.closed) target->close_path();
  if (shape.fill_grey) {
    set_grey(target, *shape.fill_grey);
    target->fill_preserve();
  }
  if (shape.stroke) {
    set_grey(target, shape.stroke->grey);
    target->set_line_width(shape.stroke->width_pt);
    target->set_dash(shape.stroke->dash_pt, 0);
    target->stroke_preserve();
  }
  target->begin_new_path();
}

}  // namespace

void draw(const Cairo::RefPtr<Cairo::Context>& target, const Glib::RefPtr<Pango::Context>& fonts,
          const Page& page) {
  for (const Mark& mark : page.marks) {
    if (const auto* text = std::get_if<Text>(&mark)) draw_mark(target, fonts, *text);
    if (const auto* shape = std::get_if<Shape>(&mark)) draw_mark(target, *shape);
  }
}

Stack stack_of(const Drawing& drawing) {
  Stack out;
  for (const Page& page : drawing.pages) {
    out.width_pt = std::max(out.width_pt, page.width_pt);
    out.height_pt += page.height_pt;
  }
  if (!drawing.pages.empty()) {
    out.height_pt += page_gap_pt * static_cast<double>(drawing.pages.size() - 1);
  }
  return out;
}

Point place_in_stack(const Drawing& drawing, std::size_t page) {
  Point out;
  for (std::size_t i = 0; i < page; ++i) out.y += drawing.pages[i].height_pt + page_gap_pt;
  return out;
}

void draw_stack(const Cairo::RefPtr<Cairo::Context>& target,
                const Glib::RefPtr<Pango::Context>& fonts, const Drawing& drawing) {
  set_grey(target, 1);
  target->paint();
  for (std::size_t i = 0; i < drawing.pages.size(); ++i) {
    const Page& page = drawing.pages[i];
    const Point at = place_in_stack(drawing, i);
    target->save();
    target->translate(at.x, at.y);
    if (drawing.pages.size() > 1) {
      constexpr double grey = 0.6;
      constexpr double inset_pt = 0.25;  // all of the line within the picture
      draw_mark(target, outline({.x = inset_pt,
                                 .y = inset_pt,
                                 .width = page.width_pt - 2 * inset_pt,
                                 .height = page.height_pt - 2 * inset_pt},
                                {.width_pt = 2 * inset_pt, .grey = grey}));
    }
    draw(target, fonts, page);
    target->restore();
  }
}

}  // namespace drystage::drawing
