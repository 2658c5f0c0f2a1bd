#include "drawing/typesetter.h"

#include <pangomm/layoutline.h>

#include <algorithm>

#include "drawing/draw.h"

namespace drystage::drawing {
namespace {

Size size_of(const Glib::RefPtr<Pango::Layout>& layout) {
  const Pango::Rectangle logical = layout->get_logical_extents();
  return {.width_pt = from_pango(logical.get_width()),
          .height_pt = from_pango(logical.get_height())};
}

std::string without_blanks_at_the_end(std::string words) {
  words.erase(words.find_last_not_of(" \n") + 1);
  return words;
}

}  // namespace

struct Typesetter::Fonts {
  Glib::RefPtr<Pango::Context> context = fonts_of_this_machine();
};

Typesetter::Typesetter() : fonts_(std::make_unique<Fonts>()) {}
Typesetter::~Typesetter() = default;

Size Typesetter::size(const std::string& words, const Font& font, double width_pt) const {
  return size_of(layout_of(fonts_->context, words, font, width_pt));
}

double Typesetter::width(const std::string& words, const Font& font) const {
  return size_of(layout_of(fonts_->context, words, font, -1)).width_pt;
}

double Typesetter::longest_word(const std::string& words, const Font& font) const {
  const auto layout = layout_of(fonts_->context, words, font, 0);
  layout->set_wrap(Pango::WrapMode::WORD);
  return size_of(layout).width_pt;
}

std::vector<std::string> Typesetter::lines(const std::string& words, const Font& font,
                                           double width_pt) const {
  std::vector<std::string> out;
  const auto layout = layout_of(fonts_->context, words, font, width_pt);
  for (int i = 0; i < layout->get_line_count(); ++i) {
    const auto line = layout->get_const_line(i);
    out.push_back(
        without_blanks_at_the_end(words.substr(static_cast<std::size_t>(line->get_start_index()),
                                               static_cast<std::size_t>(line->get_length()))));
  }
  return out;
}

std::string Typesetter::shortened(const std::string& words, const Font& font,
                                  double width_pt) const {
  if (width(words, font) <= width_pt) return words;
  const double room = width_pt - width("…", font);
  const auto layout = layout_of(fonts_->context, words, font, room);
  layout->set_wrap(Pango::WrapMode::CHAR);
  const auto first = static_cast<std::size_t>(layout->get_const_line(0)->get_length());
  return without_blanks_at_the_end(words.substr(0, first)) + "…";
}

Text Typesetter::text(const std::string& words, const Font& font, Point at, double width_pt,
                      Align align) const {
  return {.words = words,
          .font = font,
          .align = align,
          .box = {.x = at.x,
                  .y = at.y,
                  .width = width_pt,
                  .height = size(words, font, width_pt).height_pt}};
}

std::vector<std::string> without_font(const Drawing& drawing) {
  const auto fonts = fonts_of_this_machine();
  std::vector<std::string> out;
  for (const Page& page : drawing.pages) {
    for (const Mark& mark : page.marks) {
      const auto* text = std::get_if<Text>(&mark);
      if (text == nullptr || std::ranges::find(out, text->words) != out.end()) continue;
      const auto layout = layout_of(fonts, *text);
      if (pango_layout_get_unknown_glyphs_count(layout->gobj()) > 0) out.push_back(text->words);
    }
  }
  return out;
}

Rect ink_box(const Typesetter& typesetter, const Text& text) {
  const auto layout = layout_of(typesetter.fonts_->context, text);
  const Pango::Rectangle logical = layout->get_logical_extents();
  return {.x = text.box.x + from_pango(logical.get_x()),
          .y = text.box.y + from_pango(logical.get_y()),
          .width = from_pango(logical.get_width()),
          .height = from_pango(logical.get_height())};
}

}  // namespace drystage::drawing
