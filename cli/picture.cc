#include "picture.h"

#include <algorithm>
#include <filesystem>

namespace drystage::cli {

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

}  // namespace drystage::cli
