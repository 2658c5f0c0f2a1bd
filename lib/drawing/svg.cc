#include "drawing/svg.h"

#include <cairomm/context.h>
#include <cairomm/surface.h>
#include <fmt/core.h>
#include <pangomm/layoutiter.h>
#include <pangomm/layoutline.h>

#include <map>

#include "drawing/draw.h"
#include "drawing/formats.h"
#include "drawing/layout.h"

namespace drystage::drawing {
namespace {

/// What Cairo writes of the stack of pages.
std::string cairo_svg(const Drawing& drawing, const Glib::RefPtr<Pango::Context>& fonts) {
  std::string bytes;
  const Stack stack = stack_of(drawing);
  const auto surface = Cairo::SvgSurface::create_for_stream(
      [&bytes](const unsigned char* data, unsigned int length) {
        bytes.append(data, data + length);
        return CAIRO_STATUS_SUCCESS;
      },
      stack.width_pt, stack.height_pt);
  draw_stack(Cairo::Context::create(surface), fonts, drawing);
  surface->finish();
  return bytes;
}

/// Numbers the ids anew, in the order in which they are given: Cairo counts through all that a
/// process draws.
std::string with_own_ids(const std::string& svg, std::string_view prefix) {
  constexpr std::string_view given = " id=\"";
  std::map<std::string, std::string, std::less<>> names;
  for (std::size_t at = svg.find(given); at != std::string::npos; at = svg.find(given, at + 1)) {
    const std::size_t begin = at + given.size();
    names.try_emplace(svg.substr(begin, svg.find('"', begin) - begin),
                      fmt::format("{}{}", prefix, names.size()));
  }
  std::string out;
  out.reserve(svg.size());
  std::size_t copied = 0;
  const auto rename = [&](std::size_t begin, char end) {
    const std::size_t after = svg.find(end, begin);
    const auto known = names.find(std::string_view(svg).substr(begin, after - begin));
    if (known == names.end()) return;
    out.append(svg, copied, begin - copied).append(known->second);
    copied = after;
  };
  for (std::size_t at = 0; at < svg.size(); ++at) {
    if (svg.compare(at, given.size(), given) == 0) rename(at + given.size(), '"');
    if (svg.compare(at, 2, "\"#") == 0) rename(at + 2, '"');
    if (svg.compare(at, 5, "url(#") == 0) rename(at + 5, ')');
  }
  return out.append(svg, copied);
}

/// The lines of a text, unseen, where they were drawn as outlines.
std::string unseen(const Glib::RefPtr<Pango::Context>& fonts, const Text& text, Point page) {
  std::string out;
  const auto layout = layout_of(fonts, text);
  auto lines = layout->get_iter();
  do {
    const auto line = lines.get_line();
    const std::string words = text.words.substr(static_cast<std::size_t>(line->get_start_index()),
                                                static_cast<std::size_t>(line->get_length()));
    const Pango::Rectangle extents = lines.get_line_logical_extents();
    if (words.empty() || extents.get_width() <= 0) continue;
    out += fmt::format(
        "<text x=\"{:.2f}\" y=\"{:.2f}\" font-size=\"{:g}\" textLength=\"{:.2f}\" "
        "lengthAdjust=\"spacingAndGlyphs\">{}</text>\n",
        page.x + text.box.x + from_pango(extents.get_x()),
        page.y + text.box.y + from_pango(lines.get_baseline()), text.font.size_pt,
        from_pango(extents.get_width()), escaped(words));
  } while (lines.next_line());
  return out;
}

std::string unseen_text(const Glib::RefPtr<Pango::Context>& fonts, const Drawing& drawing) {
  std::string out = "<g fill-opacity=\"0\" font-family=\"sans-serif\">\n";
  for (std::size_t i = 0; i < drawing.pages.size(); ++i) {
    for (const Mark& mark : drawing.pages[i].marks) {
      const auto* text = std::get_if<Text>(&mark);
      if (text != nullptr) out += unseen(fonts, *text, place_in_stack(drawing, i));
    }
  }
  return out + "</g>\n";
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default: {
        const bool control = static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t';
        if (control || c == 0x7f) {
          out += "\xEF\xBF\xBD";
        } else {
          out += c;
        }
      }
    }
  }
  return out;
}

std::string svg_element(const Drawing& drawing, std::string_view prefix) {
  const auto fonts = fonts_of_this_machine();
  std::string svg = with_own_ids(cairo_svg(drawing, fonts), prefix);
  svg.erase(0, svg.find("<svg"));
  svg.insert(svg.rfind("</svg>"), unseen_text(fonts, drawing));
  return svg;
}

std::string as_svg(const Drawing& drawing) {
  std::string svg = svg_element(drawing, "d");
  svg.insert(svg.find('>') + 1, fmt::format("\n<title>{}</title>", escaped(drawing.title)));
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + svg;
}

}  // namespace drystage::drawing
