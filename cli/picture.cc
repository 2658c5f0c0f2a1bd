#include "picture.h"

#include <algorithm>
#include <filesystem>
#include <stdexcept>

#include "drawing/formats.h"
#include "output.h"
#include "usage_error.h"

namespace drystage::cli {
namespace {

std::string bytes(PictureForm form, const drawing::Drawing& pages,
                  const std::function<drawing::Drawing()>& narrow) {
  switch (form) {
    case PictureForm::pdf:
      return drawing::as_pdf(pages);
    case PictureForm::svg:
      return drawing::as_svg(pages);
    case PictureForm::png:
      return drawing::as_png(pages);
    case PictureForm::html:
      return drawing::as_html(pages, narrow());
  }
  throw std::logic_error("no such form of a picture");
}

}  // namespace

std::optional<PictureForm> picture_form(const std::string& path) {
  std::string ending = std::filesystem::path(path).extension().string();
  // By hand: the locale must not matter.
  std::ranges::transform(ending, ending.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  if (ending == ".pdf") return PictureForm::pdf;
  if (ending == ".svg") return PictureForm::svg;
  if (ending == ".png") return PictureForm::png;
  if (ending == ".html") return PictureForm::html;
  return std::nullopt;
}

void write_picture(const std::string& path, const drawing::Drawing& pages,
                   const std::function<drawing::Drawing()>& narrow) {
  const std::optional<PictureForm> form = picture_form(path);
  if (!form) throw std::logic_error("a picture without a form: " + path);
  std::string picture;
  try {
    picture = bytes(*form, pages, narrow);
  } catch (const drawing::TooLarge& error) {
    throw UsageError(path + ": " + error.what());
  }
  write_result(picture, path);
}

void write_picture(const std::string& path, const drawing::Drawing& pages) {
  write_picture(path, pages, [&pages] { return pages; });
}

}  // namespace drystage::cli
