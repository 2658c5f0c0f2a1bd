#pragma once

#include <string>
#include <vector>

namespace drystage::testing {

/// A word where poppler's pdftotext finds it, in points from the top left corner of its page.
struct PdfWord {
  std::string text;
  std::size_t page = 0;  ///< from 0
  double left = 0;
  double top = 0;
  double right = 0;
  double bottom = 0;
};

/// A font as poppler's pdffonts lists it.
struct PdfFont {
  std::string name;
  bool embedded = false;
  bool to_unicode = false;  ///< its letters can be told from its glyphs
};

struct PdfPage {
  double width_pt = 0;
  double height_pt = 0;
};

/// What another program, poppler, finds in a PDF file. Each throws when poppler complains of
/// anything at all.
std::vector<PdfPage> pdf_pages(const std::string& path);
std::vector<PdfFont> pdf_fonts(const std::string& path);
std::vector<PdfWord> pdf_words(const std::string& path);

/// Its text as it lies on the page, pages parted by form feeds.
std::string pdf_text(const std::string& path);

/// What its information dictionary says, a line each: "Title: ...".
std::string pdf_info(const std::string& path);

}  // namespace drystage::testing
