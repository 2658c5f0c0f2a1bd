#include "report/card/pieces.h"

#include <algorithm>
#include <utility>

#include "report/text/type.h"

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

constexpr double blank_gap_pt = 14;
void add_line(Block& block, double x_pt, double y_pt, double width_pt) {
  block.marks.emplace_back(
      drawing::line({.x = x_pt, .y = y_pt}, {.x = x_pt + width_pt, .y = y_pt}, {.width_pt = 0.7}));
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

std::vector<Block> blank_blocks(const drawing::Typesetter& typesetter,
                                const std::vector<std::string>& blanks, double width_pt) {
  const double each = (width_pt - blank_gap_pt) / 2;
  std::vector<Block> out;
  for (std::size_t i = 0; i < blanks.size(); ++i) {
    const double x = i % 2 == 0 ? 0 : each + blank_gap_pt;
    if (i % 2 == 0) out.emplace_back();
    Block& row = out.back();
    const drawing::Text text = typesetter.text(blanks[i], strong_font, {.x = x, .y = 2}, each);
    row.marks.emplace_back(text);
    const double y = text.box.bottom() + writing_height_pt;
    add_line(row, x, y, each);
    row.height_pt = std::max(row.height_pt, y + 2);
  }
  return out;
}

Block named_blanks(const drawing::Typesetter& typesetter, const std::string& name,
                   const std::vector<std::string>& words, double width_pt) {
  constexpr double name_share = 0.2;
  constexpr double down_pt = 9;
  const double name_pt = name_share * width_pt;
  Block out;
  const drawing::Text text = typesetter.text(name, strong_font, {.x = 0, .y = down_pt}, name_pt);
  out.marks.emplace_back(text);
  double bottom = text.box.bottom();
  const auto count = static_cast<double>(words.size());
  const double each = (width_pt - name_pt - blank_gap_pt * count) / count;
  double x = name_pt + blank_gap_pt;
  for (const std::string& what : words) {
    const double words_pt = std::min(typesetter.width(what, body_font) + 1, each / 2);
    const drawing::Text label = typesetter.text(what, body_font, {.x = x, .y = down_pt}, words_pt);
    const double line_y = std::max(writing_height_pt, label.box.bottom() + 1);
    add_line(out, x + words_pt + 3, line_y, each - words_pt - 3);
    out.marks.emplace_back(label);
    bottom = std::max(bottom, line_y);
    x += each + blank_gap_pt;
  }
  out.height_pt = bottom + 2;
  return out;
}

}  // namespace drystage::report
