#include "report/card/pieces.h"

#include <algorithm>
#include <utility>

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Typesetter;

constexpr double above_part_pt = 10;
constexpr double above_title_pt = 5;
constexpr double below_pt = 3;
constexpr double item_indent_pt = 14;

Block titled(const Typesetter& typesetter, const std::string& words, const drawing::Font& font,
             double width_pt, double above_pt) {
  drawing::Text text = typesetter.text(words, font, {.x = 0, .y = above_pt}, width_pt);
  const double bottom = text.box.bottom() + 1;
  return {.height_pt = bottom + 2, .marks = {std::move(text)}, .with_next = true};
}

Block ruled_title(const Typesetter& typesetter, const std::string& words, const drawing::Font& font,
                  double width_pt, double above_pt) {
  Block out = titled(typesetter, words, font, width_pt, above_pt);
  const double y = out.height_pt - 2;
  out.marks.emplace_back(
      drawing::line({.x = 0, .y = y}, {.x = width_pt, .y = y}, {.width_pt = 1.2}));
  return out;
}

}  // namespace

Block part_title(const Typesetter& typesetter, const std::string& words, double width_pt) {
  Block out = ruled_title(typesetter, words, part_font, width_pt, above_part_pt);
  out.height_pt += below_pt;
  return out;
}

Block sheet_title(const Typesetter& typesetter, const std::string& words, double width_pt) {
  constexpr double above_pt = 2;
  return ruled_title(typesetter, words, strong_font, width_pt, above_pt);
}

Block small_title(const Typesetter& typesetter, const std::string& words, double width_pt) {
  return titled(typesetter, words, strong_font, width_pt, above_title_pt);
}

std::vector<Block> sentences(const Typesetter& typesetter, const std::string& words,
                             double width_pt) {
  std::vector<Block> out = drawing::paragraph(typesetter, words, body_font, width_pt);
  if (!out.empty()) out.back().height_pt += below_pt;
  return out;
}

std::vector<Block> item(const Typesetter& typesetter, const std::string& mark,
                        const std::string& words, double width_pt, const drawing::Font& font) {
  std::vector<Block> out = drawing::paragraph(typesetter, words, font, width_pt, item_indent_pt);
  if (out.empty()) return out;
  std::vector<drawing::Mark>& first = out.front().marks;
  first.insert(first.begin(), typesetter.text(mark, font, {.x = 0, .y = 0}, item_indent_pt));
  if (font.size_pt >= body_font.size_pt) out.back().height_pt += 1;
  return out;
}

std::vector<Block> with_next(std::vector<Block> blocks) {
  for (Block& block : blocks) block.with_next = true;
  return blocks;
}

std::vector<Block> kept_together(std::vector<Block> rows) {
  constexpr double few_pt = 260;
  double height = 0;
  for (const Block& row : rows) height += row.height_pt;
  for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
    const bool edge = i == 0 || i + 2 == rows.size();
    if (height <= few_pt || edge) rows[i].with_next = true;
  }
  return rows;
}

Block stacked(const std::vector<Block>& blocks) {
  Block out;
  for (const Block& block : blocks) put(out, block, 0, out.height_pt);
  return out;
}

void put(Block& onto, const Block& block, double right_pt, double down_pt) {
  for (const drawing::Mark& mark : block.marks) {
    onto.marks.push_back(drawing::moved(mark, right_pt, down_pt));
  }
  onto.height_pt = std::max(onto.height_pt, down_pt + block.height_pt);
}

Block ticked(const Block& block) {
  constexpr double box_pt = 9;
  Block out;
  put(out, block, tick_room_pt, 0);
  const double y = (std::min(block.height_pt, 16.0) - box_pt) / 2;
  out.marks.emplace_back(
      drawing::outline({.x = 1, .y = y, .width = box_pt, .height = box_pt}, {.width_pt = 0.7}));
  return out;
}

}  // namespace drystage::report
