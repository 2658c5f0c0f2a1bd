#include "cli/poppler.h"

#include <regex>
#include <stdexcept>

#include "cli/process.h"
#include "cli/workspace.h"
#include "cli/xml.h"

namespace drystage::testing {
namespace {

std::string poppler(const std::string& tool, std::vector<std::string> words) {
  const Outcome outcome = program(tool, words);
  if (outcome.status != 0 || !outcome.err.empty()) {
    throw std::runtime_error(tool + " ended with " + std::to_string(outcome.status) + ": " +
                             outcome.err);
  }
  return outcome.out;
}

}  // namespace

std::vector<PdfPage> pdf_pages(const std::string& path) {
  std::vector<PdfPage> pages;
  const std::regex size(R"(^Page +\d+ size: +([\d.]+) x ([\d.]+) pts.*)");
  for (const std::string& line : lines(poppler("pdfinfo", {"-f", "1", "-l", "-1", path}))) {
    std::smatch found;
    if (std::regex_match(line, found, size)) {
      pages.push_back({.width_pt = std::stod(found[1]), .height_pt = std::stod(found[2])});
    }
  }
  return pages;
}

std::vector<PdfFont> pdf_fonts(const std::string& path) {
  // name, type, encoding, emb sub uni object ID: the names have no blanks in them.
  const std::regex row(R"(^(\S+) +.* +(yes|no) +(yes|no) +(yes|no) +\d+ +\d+ *$)");
  std::vector<PdfFont> fonts;
  const std::vector<std::string> table = lines(poppler("pdffonts", {path}));
  for (std::size_t i = 2; i < table.size(); ++i) {
    std::smatch found;
    if (!std::regex_match(table[i], found, row)) {
      throw std::runtime_error("a row of pdffonts that is not understood: " + table[i]);
    }
    fonts.push_back(
        {.name = found[1], .embedded = found[2] == "yes", .to_unicode = found[4] == "yes"});
  }
  return fonts;
}

std::vector<PdfWord> pdf_words(const std::string& path) {
  std::vector<PdfWord> words;
  std::size_t pages = 0;
  for (const std::string& line : lines(poppler("pdftotext", {"-bbox", path, "-"}))) {
    if (line.find("<page ") != std::string::npos) ++pages;
    if (line.find("<word ") == std::string::npos) continue;
    // <word xMin="..." yMin="..." xMax="..." yMax="...">...</word>
    const auto side = [&line](const std::string& name) {
      const std::string key = name + "=\"";
      return std::stod(line.substr(line.find(key) + key.size()));
    };
    const std::size_t begin = line.find('>') + 1;
    words.push_back({.text = without_entities(line.substr(begin, line.rfind('<') - begin)),
                     .page = pages - 1,
                     .left = side("xMin"),
                     .top = side("yMin"),
                     .right = side("xMax"),
                     .bottom = side("yMax")});
  }
  return words;
}

std::string pdf_text(const std::string& path) {
  return poppler("pdftotext", {"-layout", path, "-"});
}

std::string pdf_info(const std::string& path) { return poppler("pdfinfo", {path}); }

}  // namespace drystage::testing
