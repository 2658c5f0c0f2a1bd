#include <cairo-pdf.h>
#include <cairomm/surface.h>

#include "drawing/draw.h"
#include "drawing/formats.h"
#include "drawing/layout.h"

namespace drystage::drawing {

std::string as_pdf(const Drawing& drawing) {
  std::string bytes;
  const auto surface = Cairo::PdfSurface::create_for_stream(
      [&bytes](const unsigned char* data, unsigned int length) {
        bytes.append(data, data + length);
        return CAIRO_STATUS_SUCCESS;
      },
      1, 1);
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

}  // namespace drystage::drawing
