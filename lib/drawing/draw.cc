#include "drawing/draw.h"

#include <glibmm/init.h>
#include <pango/pangocairo.h>
#include <pangomm/cairofontmap.h>
#include <pangomm/fontdescription.h>
#include <pangomm/wrap_init.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "drawing/no_fonts.h"

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

// The first of these that the machine has; whatever it lacks is taken from any other font.
constexpr const char* families = "Noto Sans, DejaVu Sans, sans-serif";

Pango::Alignment alignment(Align align) {
  switch (align) {
    case Align::centre:
      return Pango::Alignment::CENTER;
    case Align::right:
      return Pango::Alignment::RIGHT;
    case Align::left:
      break;
  }
  return Pango::Alignment::LEFT;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Whether what stands before a blank is a number, and nothing else.
bool ends_in_number(std::string_view words) {
  const std::size_t blank = words.rfind(' ');
  const std::string_view last = blank == std::string_view::npos ? words : words.substr(blank + 1);
  return !last.empty() && is_digit(last.back()) && (is_digit(last.front()) || last.front() == '-');
}

/// Whether what stands after it is short enough to be its unit: "L", "km", "°C", "days".
bool begins_with_unit(std::string_view words) {
  constexpr std::size_t longest = 4;
  return std::min(words.find_first_of(" ,.;:)"), words.size()) <= longest;
}

/// Keeps numbers on one line with their units.
void keep_units_beside_numbers(PangoLayout* layout, std::string_view words) {
  PangoAttrList* list = nullptr;
  for (std::size_t at = 1; at + 1 < words.size(); ++at) {
    if (words[at] != ' ' || !is_digit(words[at - 1])) continue;
    if (!ends_in_number(words.substr(0, at)) || !begins_with_unit(words.substr(at + 1))) continue;
    if (list == nullptr) list = pango_attr_list_new();
    PangoAttribute* together = pango_attr_allow_breaks_new(FALSE);
    together->start_index = static_cast<guint>(at - 1);
    together->end_index = static_cast<guint>(at + 2);
    pango_attr_list_insert(list, together);
  }
  if (list == nullptr) return;
  pango_layout_set_attributes(layout, list);
  pango_attr_list_unref(list);
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

Glib::RefPtr<Pango::Context> fonts_of_this_machine() {
  static const bool ready = [] {
    Glib::set_init_to_users_preferred_locale(false);  // numbers keep their decimal point
    Glib::init();
    Pango::wrap_init();
    return true;
  }();
  static_cast<void>(ready);
  PangoFontMap* map = pango_cairo_font_map_get_default();
  auto context = Glib::wrap(pango_font_map_create_context(map));
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(context->gobj(), options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(context->gobj(), FALSE);
  // The language decides which of several forms a Chinese character has: not the machine's own.
  pango_context_set_language(context->gobj(), pango_language_from_string("en"));
  if (pango_layout_get_unknown_glyphs_count(layout_of(context, "Az09 °", {}, -1)->gobj()) > 0) {
    throw NoFonts(
        "nothing can be drawn: this machine has no font for letters and digits. Install one, on "
        "Debian the package fonts-noto-core");
  }
  return context;
}

Glib::RefPtr<Pango::Layout> layout_of(const Glib::RefPtr<Pango::Context>& context,
                                      const std::string& words, const Font& font, double width_pt,
                                      Align align) {
  auto layout = Pango::Layout::create(context);
  Pango::FontDescription description(families);
  description.set_absolute_size(font.size_pt * PANGO_SCALE);
  description.set_weight(font.bold ? Pango::Weight::BOLD : Pango::Weight::NORMAL);
  layout->set_font_description(description);
  layout->set_wrap(Pango::WrapMode::WORD_CHAR);
  layout->set_width(width_pt < 0 ? -1 : to_pango(width_pt));
  layout->set_alignment(alignment(align));
  // The sentences are English: a name at their head that is written right to left turns none round.
  layout->set_auto_dir(false);
  layout->set_text(words);
  keep_units_beside_numbers(layout->gobj(), words);
  return layout;
}

Glib::RefPtr<Pango::Layout> layout_of(const Glib::RefPtr<Pango::Context>& context,
                                      const Text& text) {
  return layout_of(context, text.words, text.font, text.box.width, text.align);
}

int to_pango(double length_pt) { return static_cast<int>(std::ceil(length_pt * PANGO_SCALE)); }

double from_pango(int length) { return static_cast<double>(length) / PANGO_SCALE; }

}  // namespace drystage::drawing
