#include "write_picture.h"

#include <optional>
#include <stdexcept>

#include "drawing/formats.h"
#include "output.h"
#include "picture.h"
#include "usage_error.h"

namespace drystage::cli {
namespace {

std::string bytes(PictureForm form, const drawing::Drawing& pages) {
  switch (form) {
    case PictureForm::pdf:
      return drawing::as_pdf(pages);
    case PictureForm::svg:
      return drawing::as_svg(pages);
    case PictureForm::png:
      return drawing::as_png(pages);
    case PictureForm::html:
      return drawing::as_html(pages);
  }
  throw std::logic_error("no such form of a picture");
}

}  // namespace

void write_picture(const std::string& path, const drawing::Drawing& pages) {
  const std::optional<PictureForm> form = picture_form(path);
  if (!form) throw std::logic_error("a picture without a form: " + path);
  std::string picture;
  try {
    picture = bytes(*form, pages);
  } catch (const drawing::TooLarge& error) {
    throw UsageError(path + ": " + error.what());
  }
  write_result(picture, path);
}

}  // namespace drystage::cli
