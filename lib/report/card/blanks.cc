#include "report/card/blanks.h"

#include <algorithm>

#include "report/card/pieces.h"

namespace drystage::report {
namespace {

using drawing::Block;

constexpr double blank_gap_pt = 14;
constexpr double least_width_pt = 220;

void add_line(Block& block, double x_pt, double y_pt, double width_pt) {
  block.marks.emplace_back(
      drawing::line({.x = x_pt, .y = y_pt}, {.x = x_pt + width_pt, .y = y_pt}, {.width_pt = 0.7}));
}

Block blank_block(const drawing::Typesetter& typesetter, const Blank& blank, double width_pt) {
  Block out;
  const drawing::Text text = typesetter.text(blank.words, strong_font, {.x = 0, .y = 2}, width_pt);
  out.marks.emplace_back(text);
  double y = text.box.bottom();
  for (int l = 0; l < blank.lines; ++l) {
    y += writing_height_pt;
    add_line(out, 0, y, width_pt);
  }
  out.height_pt = y + 2;
  return out;
}

}  // namespace

std::vector<Block> blank_blocks(const drawing::Typesetter& typesetter,
                                const std::vector<Blank>& blanks, double width_pt) {
  const std::size_t across = width_pt >= 2 * least_width_pt + blank_gap_pt ? 2 : 1;
  const double each =
      (width_pt - blank_gap_pt * static_cast<double>(across - 1)) / static_cast<double>(across);
  std::vector<Block> out;
  for (std::size_t i = 0; i < blanks.size(); ++i) {
    const Block block = blank_block(typesetter, blanks[i], each);
    const std::size_t column = i % across;
    if (column == 0) out.emplace_back();
    put(out.back(), block, static_cast<double>(column) * (each + blank_gap_pt), 0);
  }
  return out;
}

Block named_blanks(const drawing::Typesetter& typesetter, const std::string& name,
                   const std::vector<std::string>& words, double width_pt) {
  constexpr double name_share = 0.2;
  constexpr double words_down_pt = 9;
  const bool beside = width_pt >= 2 * least_width_pt;
  const double name_pt = beside ? name_share * width_pt : width_pt;
  Block out;
  const drawing::Text text =
      typesetter.text(name, strong_font, {.x = 0, .y = beside ? words_down_pt : 4}, name_pt);
  out.marks.emplace_back(text);
  const double left = beside ? name_pt + blank_gap_pt : 0;
  const auto count = static_cast<double>(words.size());
  const double each = beside ? (width_pt - left - blank_gap_pt * (count - 1)) / count : width_pt;
  double x = left;
  double y = beside ? 0 : text.box.bottom() - 1;
  double bottom = text.box.bottom();
  for (const std::string& what : words) {
    const double words_pt = std::min(typesetter.width(what, body_font) + 1, each / 2);
    const drawing::Text label =
        typesetter.text(what, body_font, {.x = x, .y = y + words_down_pt}, words_pt);
    const double line_y = std::max(y + writing_height_pt, label.box.bottom() + 1);
    add_line(out, x + words_pt + 3, line_y, each - words_pt - 3);
    out.marks.emplace_back(label);
    bottom = std::max(bottom, line_y);
    if (beside) {
      x += each + blank_gap_pt;
    } else {
      y = line_y;
    }
  }
  out.height_pt = bottom + 2;
  return out;
}

}  // namespace drystage::report
