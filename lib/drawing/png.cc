#include <cairomm/context.h>
#include <cairomm/surface.h>
#include <fmt/core.h>

#include <cmath>

#include "drawing/draw.h"
#include "drawing/formats.h"
#include "drawing/layout.h"

namespace drystage::drawing {
namespace {

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

}  // namespace

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
  in_greys(image)->write_to_png_stream([&bytes](const unsigned char* data, unsigned int length) {
    bytes.append(data, data + length);
    return CAIRO_STATUS_SUCCESS;
  });
  return bytes;
}

}  // namespace drystage::drawing
