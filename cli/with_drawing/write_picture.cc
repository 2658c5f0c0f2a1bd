#include "write_picture.h"

#include <fmt/core.h>

#include <algorithm>
#include <cstdio>
#include <optional>
#include <stdexcept>
#include <string_view>
#include <vector>

#include "drawing/formats.h"
#include "drawing/typesetter.h"
#include "output.h"
#include "picture.h"
#include "units/list.h"
#include "units/text.h"
#include "usage_error.h"

namespace drystage::cli {
namespace {

/// Without the marks that set a name apart (U+2068, U+2069).
std::string without_isolates(std::string words) {
  for (const std::string_view mark : {"\u2068", "\u2069"}) {
    for (std::size_t at = words.find(mark); at != std::string::npos; at = words.find(mark, at)) {
      words.erase(at, mark.size());
    }
  }
  return words;
}

/// Says which texts cannot be drawn as they are.
void warn_of_boxes(const drawing::Drawing& pages) {
  constexpr std::size_t most_named = 3;
  std::vector<std::string> boxes = drawing::without_font(pages);
  const std::size_t more = boxes.size() - std::min(boxes.size(), most_named);
  boxes.resize(boxes.size() - more);
  for (std::string& words : boxes) words = units::in_quotes(without_isolates(words));
  if (more > 0) boxes.push_back(fmt::format("{} more", more));
  if (!boxes.empty()) {
    std::fputs(fmt::format("drystage: no font here has all characters of {}: they are drawn as "
                           "boxes\n",
                           units::listed(boxes, " and "))
                   .c_str(),
               stderr);
  }
}

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
  warn_of_boxes(pages);
  std::string picture;
  try {
    picture = bytes(*form, pages);
  } catch (const drawing::TooLarge& error) {
    throw UsageError(path + ": " + error.what());
  }
  write_result(picture, path);
}

}  // namespace drystage::cli
