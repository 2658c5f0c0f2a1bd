#include <algorithm>
#include <utility>

#include "report/card/day_columns.h"
#include "report/card/pieces.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Font;

constexpr Font day_font{.size_pt = 11, .bold = true};
constexpr double block_inset_pt = 1;

std::string day_words(const DayFacts& facts) {
  // English, though a name that is written right to left may come first.
  constexpr const char* left_to_right = "\u200E";
  std::string words = left_to_right + facts.from;
  words += facts.to.empty() ? ", stay"
                            : (facts.by.empty() ? "" : " by " + facts.by) + " to " + facts.to +
                                  ", " + facts.distance + ", " + facts.hours + " at the wheel";
  words += ". Sun up\u2013down " + facts.sun + ". Air ";
  if (!facts.coldest.empty()) words += facts.coldest + " ";
  return words + "to " + facts.warmest + ".";
}

/// Words below what stands in a block.
void add_below(const Sheet& sheet, Block& block, const std::string& words, const Font& font,
               double side_pt, double width_pt) {
  drawing::Text text = sheet.typesetter.text(words, font, {.x = side_pt, .y = block.height_pt},
                                             width_pt - 2 * side_pt);
  block.height_pt = text.box.bottom();
  block.marks.emplace_back(std::move(text));
}

/// A reserve: its name, both figures below it, and the empty box beside them.
Block reserve_cell(const Sheet& sheet, const std::string& name, const EveningFigures& figures,
                   double width_pt) {
  constexpr double side_pt = 3;
  constexpr Font figure{.size_pt = 10};
  constexpr Font strong{.size_pt = 10, .bold = true};
  // As long as "must have 1234", if the box is not too narrow then.
  constexpr double figures_wish_pt = 95;
  constexpr double most_box_pt = 110;
  const double box_pt =
      std::clamp(width_pt - figures_wish_pt, box_width_pt + 2 * block_inset_pt, most_box_pt);
  const double figures_pt = width_pt - box_pt;
  Block out;
  add_below(sheet, out, name, strong_font, 0, width_pt);
  const double top = out.height_pt;
  out.height_pt += block_inset_pt;
  add_below(sheet, out, marked("plan " + figures.plan, figures.lacks),
            figures.lacks ? strong : figure, side_pt, figures_pt);
  add_below(sheet, out, "must have " + figures.must_have, strong, side_pt, figures_pt);
  out.height_pt =
      std::max(out.height_pt + block_inset_pt, top + box_height_pt + 2 * block_inset_pt);
  const auto frame = [&](double x, double frame_pt, double stroke_pt) {
    out.marks.emplace_back(drawing::outline({.x = x + block_inset_pt,
                                             .y = top + block_inset_pt,
                                             .width = frame_pt - 2 * block_inset_pt,
                                             .height = out.height_pt - top - 2 * block_inset_pt},
                                            {.width_pt = stroke_pt}));
  };
  if (figures.lacks) frame(0, figures_pt, 1.4);
  frame(figures_pt, box_pt, 1);
  return out;
}

}  // namespace

std::vector<Block> evening_block(const Sheet& sheet, const EveningTable& table,
                                 const EveningRow& row) {
  constexpr double gap_pt = 6;
  constexpr double least_cell_pt = 120;
  const double width_pt = sheet.width_pt();
  Block head{.height_pt = 2, .with_next = !row.figures.empty()};
  head.marks.emplace_back(
      drawing::line({.x = 0, .y = 0.6}, {.x = width_pt, .y = 0.6}, {.width_pt = 1.2}));
  add_below(sheet, head,
            row.facts ? row.facts->number + "  " + row.facts->date : "Before setting out", day_font,
            0, width_pt);
  add_below(sheet, head, row.facts ? day_words(*row.facts) : load_words(table, row), sheet.small(),
            0, width_pt);
  head.height_pt += 2;
  std::vector<Block> out{std::move(head)};
  const auto across = static_cast<std::size_t>((width_pt + gap_pt) / (least_cell_pt + gap_pt));
  const double cell_pt =
      (width_pt - static_cast<double>(across - 1) * gap_pt) / static_cast<double>(across);
  for (std::size_t r = 0; r < row.figures.size(); ++r) {
    if (r % across == 0) out.emplace_back();
    put(out.back(), reserve_cell(sheet, table.reserves[r], row.figures[r], cell_pt),
        static_cast<double>(r % across) * (cell_pt + gap_pt), 0);
  }
  const std::string small = small_words(table, row);
  if (small.empty()) return out;
  out.emplace_back();
  add_below(sheet, out.back(), small, sheet.small(), 0, width_pt);
  return out;
}

}  // namespace drystage::report
