#include "drawing/formats.h"

#include <cairo-pdf.h>
#include <cairomm/context.h>
#include <cairomm/surface.h>
#include <fmt/core.h>
#include <pangomm/layoutiter.h>
#include <pangomm/layoutline.h>

#include <array>
#include <boost/crc.hpp>
#include <cmath>
#include <cstdint>
#include <map>
#include <utility>

#include "drawing/draw.h"

namespace drystage::drawing {
namespace {

/// Takes what Cairo writes.
auto sink(std::string& bytes) {
  return [&bytes](const unsigned char* data, unsigned int length) {
    bytes.append(data, data + length);
    return CAIRO_STATUS_SUCCESS;
  };
}

constexpr double dots_per_point = 150.0 / 72;  ///< 150 to the inch: fine print can be read
constexpr double most_dots = 32767;            ///< a side of Cairo's pictures

/// One byte a dot, from 0 (black) to 255 (white).
Cairo::RefPtr<Cairo::ImageSurface> in_greys(const Cairo::RefPtr<Cairo::ImageSurface>& coloured) {
  const int width = coloured->get_width();
  const int height = coloured->get_height();
  auto out = Cairo::ImageSurface::create(Cairo::Surface::Format::A8, width, height);
  coloured->flush();
  out->flush();
  const unsigned char* from = coloured->get_data();
  unsigned char* to = out->get_data();
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      // Luma of ITU-R BT.601 in 256ths; a dot is blue, green, red and a byte that is not used.
      const unsigned char* dot = from + static_cast<std::ptrdiff_t>(4) * x;
      to[x] = static_cast<unsigned char>((29 * dot[0] + 150 * dot[1] + 77 * dot[2]) >> 8);
    }
    from += coloured->get_stride();
    to += out->get_stride();
  }
  out->mark_dirty();
  return out;
}

/// Four bytes, the highest first.
std::string big_endian(std::uint32_t number) {
  std::string out;
  for (const unsigned shift : {24U, 16U, 8U, 0U}) {
    out += static_cast<char>(static_cast<unsigned char>(number >> shift & 0xFFU));
  }
  return out;
}

/// A PNG with a chunk of text behind its header that says what made it.
std::string with_maker(std::string png) {
  constexpr std::size_t signature_and_header = 8 + 25;
  const std::string chunk = std::string("tEXtSoftware") + '\0' + "drystage";
  constexpr std::size_t type_bytes = 4;
  boost::crc_32_type sum;
  sum.process_bytes(chunk.data(), chunk.size());
  png.insert(signature_and_header,
             big_endian(static_cast<std::uint32_t>(chunk.size() - type_bytes)) + chunk +
                 big_endian(sum.checksum()));
  return png;
}

/// What Cairo writes of the stack of pages.
std::string cairo_svg(const Drawing& drawing, const Glib::RefPtr<Pango::Context>& fonts) {
  std::string bytes;
  const Stack stack = stack_of(drawing);
  const auto surface =
      Cairo::SvgSurface::create_for_stream(sink(bytes), stack.width_pt, stack.height_pt);
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

/// An `svg` element with the pages of a drawing one below the other. Its ids begin with `prefix`,
/// which keeps those of several in one document apart.
std::string svg_element(const Drawing& drawing, std::string_view prefix) {
  const auto fonts = fonts_of_this_machine();
  std::string svg = with_own_ids(cairo_svg(drawing, fonts), prefix);
  svg.erase(0, svg.find("<svg"));
  svg.insert(svg.rfind("</svg>"), unseen_text(fonts, drawing));
  return svg;
}

// The policy lets the page run nothing and load nothing, whatever somebody may have written into a
// name.
constexpr std::string_view head = R"(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy"
 content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="drystage">
<title>{}</title>
<style>
body {{ margin: 0; background: #fff; }}
svg {{ display: block; width: 100%; max-width: 60rem; height: auto; margin: 0 auto 1rem; }}
@media print {{
  svg {{ max-width: none; max-height: 100vh; margin: 0; break-after: page; }}
  svg:last-child {{ break-after: auto; }}
}}
@page {{ size: {:.2f}pt {:.2f}pt; margin: 0; }}
</style>
</head>
<body>
)";

}  // namespace

std::string as_pdf(const Drawing& drawing) {
  std::string bytes;
  const auto surface = Cairo::PdfSurface::create_for_stream(sink(bytes), 1, 1);
  cairo_pdf_surface_set_metadata(surface->cobj(), CAIRO_PDF_METADATA_TITLE, drawing.title.c_str());
  cairo_pdf_surface_set_metadata(surface->cobj(), CAIRO_PDF_METADATA_CREATOR, "drystage");
  // No date: the same plan comes to the same file.
  cairo_pdf_surface_set_metadata(surface->cobj(), CAIRO_PDF_METADATA_CREATE_DATE, "");
  const auto fonts = fonts_of_this_machine();
  for (const Page& page : drawing.pages) {
    surface->set_size(page.width_pt, page.height_pt);
    const auto target = Cairo::Context::create(surface);
    draw(target, fonts, page);
    target->show_page();
  }
  surface->finish();
  return bytes;
}

std::string as_png(const Drawing& drawing) {
  const Stack stack = stack_of(drawing);
  const double width = std::ceil(stack.width_pt * dots_per_point);
  const double height = std::ceil(stack.height_pt * dots_per_point);
  if (width > most_dots || height > most_dots) {
    throw TooLarge(fmt::format("{} pages are too many for one .png: write a .pdf, .svg or .html",
                               drawing.pages.size()));
  }
  // Recorded first and then enlarged, so that letters stand where they were measured to be.
  const auto recording = Cairo::RecordingSurface::create();
  draw_stack(Cairo::Context::create(recording), fonts_of_this_machine(), drawing);
  const auto image = Cairo::ImageSurface::create(Cairo::Surface::Format::RGB24,
                                                 static_cast<int>(width), static_cast<int>(height));
  const auto target = Cairo::Context::create(image);
  target->scale(dots_per_point, dots_per_point);
  target->set_source(recording, 0, 0);
  target->paint();
  std::string bytes;
  in_greys(image)->write_to_png_stream(sink(bytes));
  return with_maker(std::move(bytes));
}

std::string escaped(std::string_view text) {
  constexpr std::string_view special = "&<>\"'";
  constexpr std::array<std::string_view, special.size()> entities{"&amp;", "&lt;", "&gt;", "&quot;",
                                                                  "&#39;"};
  std::string out;
  for (const char c : text) {
    const std::size_t entity = special.find(c);
    const bool control = static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t';
    if (entity != std::string_view::npos) {
      out += entities.at(entity);
    } else if (control || c == 0x7f) {
      out += "\uFFFD";
    } else {
      out += c;
    }
  }
  return out;
}

std::string as_svg(const Drawing& drawing) {
  std::string svg = svg_element(drawing, "d");
  svg.insert(svg.find('>') + 1, fmt::format("\n<title>{}</title>\n<metadata>drystage</metadata>",
                                            escaped(drawing.title)));
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + svg;
}

std::string as_html(const Drawing& drawing) {
  const Page sheet = drawing.pages.empty() ? Page{} : drawing.pages.front();
  std::string out =
      fmt::format(fmt::runtime(head), escaped(drawing.title), sheet.width_pt, sheet.height_pt);
  // Each page as an element of its own, so that each is printed on a sheet of its own.
  for (std::size_t i = 0; i < drawing.pages.size(); ++i) {
    out +=
        svg_element({.title = drawing.title, .pages = {drawing.pages[i]}}, fmt::format("p{}-", i));
  }
  return out + "</body>\n</html>\n";
}

}  // namespace drystage::drawing
