#include "report/card/day_block.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "report/text/type.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Font;
using drawing::Typesetter;

constexpr Font day_font{.size_pt = 11, .bold = true};
constexpr Font figure{.size_pt = 10};
constexpr Font strong_figure{.size_pt = 10, .bold = true};
constexpr double cell_above_pt = 2;
constexpr double cell_side_pt = 3;
constexpr double inset_pt = 1;
constexpr double cell_gap_pt = 6;
constexpr double most_box_pt = 110;
constexpr double least_cell_words_pt = 40;

std::string plan_words(const EveningFigures& figures) {
  return (figures.lacks ? "! plan " : "plan ") + figures.plan;
}

std::string must_words(const EveningFigures& figures) { return "must have " + figures.must_have; }

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

Block facts_block(const Typesetter& typesetter, const EveningRow& row, double width_pt) {
  Block out{.with_next = !row.figures.empty()};
  const std::string head =
      row.facts ? row.facts->number + "  " + row.facts->date : std::string("Before setting out");
  const std::string words = row.facts ? day_words(*row.facts) : load_words(row);
  const double head_pt = typesetter.width(head, day_font) + 0.1;
  out.marks.emplace_back(
      drawing::line({.x = 0, .y = 0.6}, {.x = width_pt, .y = 0.6}, {.width_pt = 1.2}));
  double y = cell_above_pt + 0.6;
  drawing::Text first = typesetter.text(head, day_font, {.x = 0, .y = y}, head_pt);
  const double x = head_pt + 3 * cell_side_pt;
  constexpr double narrow_pt = 400;
  const bool beside = width_pt > narrow_pt;
  const double line_pt = first.box.height;
  out.marks.emplace_back(std::move(first));
  if (beside) {
    // On the line that the head stands on.
    const double lower = typesetter.size("0", day_font, width_pt).height_pt -
                         typesetter.size("0", body_font, width_pt).height_pt;
    drawing::Text text =
        typesetter.text(words, body_font, {.x = x, .y = y + lower * 0.75}, width_pt - x);
    y = std::max(y + line_pt, text.box.bottom());
    out.marks.emplace_back(std::move(text));
  } else {
    drawing::Text text = typesetter.text(words, body_font, {.x = 0, .y = y + line_pt}, width_pt);
    y = text.box.bottom();
    out.marks.emplace_back(std::move(text));
  }
  out.height_pt = y + cell_above_pt;
  return out;
}

/// How wide the figures of a cell want to be.
double figures_width(const Typesetter& typesetter, const EveningTable& table) {
  double width = least_cell_words_pt;
  for (const EveningRow& row : table.rows) {
    for (const EveningFigures& figures : row.figures) {
      const Font& plan_font = figures.lacks ? strong_figure : figure;
      width = std::max(width, typesetter.width(plan_words(figures), plan_font));
      if (figures.must_have == no_amount) continue;
      width = std::max(width, typesetter.width(must_words(figures), strong_figure));
    }
  }
  return width + 2 * cell_side_pt;
}

/// One cell, from its own corner: its label, the figures, and the empty box beside them.
Block cell(const Typesetter& typesetter, const std::string& reserve, const EveningFigures& figures,
           double figures_pt, double width_pt) {
  Block out;
  drawing::Text label = typesetter.text(reserve, strong_font, {.x = 0, .y = 0}, width_pt);
  const double top = label.box.height;
  out.marks.emplace_back(std::move(label));
  drawing::Text plan =
      typesetter.text(plan_words(figures), figures.lacks ? strong_figure : figure,
                      {.x = cell_side_pt, .y = top + inset_pt}, figures_pt - 2 * cell_side_pt);
  drawing::Text must =
      typesetter.text(must_words(figures), strong_figure,
                      {.x = cell_side_pt, .y = plan.box.bottom()}, figures_pt - 2 * cell_side_pt);
  const double height = std::max(box_height_pt + 2 * inset_pt, must.box.bottom() + inset_pt - top);
  const auto frame = [&](double x, double frame_pt, double stroke_pt) {
    out.marks.emplace_back(drawing::outline({.x = x + inset_pt,
                                             .y = top + inset_pt,
                                             .width = frame_pt - 2 * inset_pt,
                                             .height = height - 2 * inset_pt},
                                            {.width_pt = stroke_pt}));
  };
  if (figures.lacks) frame(0, figures_pt, 1.4);
  frame(figures_pt, std::min(width_pt - figures_pt, most_box_pt), 1.0);
  out.marks.emplace_back(std::move(plan));
  out.marks.emplace_back(std::move(must));
  out.height_pt = top + height;
  return out;
}

}  // namespace

std::vector<Block> evening_block(const Typesetter& typesetter, const EveningTable& table,
                                 const EveningRow& row, double width_pt) {
  std::vector<Block> out{facts_block(typesetter, row, width_pt)};
  const std::size_t count = row.figures.size();
  if (count == 0) return out;
  const double least_pt = box_width_pt + 2 * inset_pt + 0.1;
  const double figures_pt = std::min(figures_width(typesetter, table), width_pt - least_pt);
  const double fit = std::floor((width_pt + cell_gap_pt) / (figures_pt + least_pt + cell_gap_pt));
  const auto most = std::clamp(static_cast<std::size_t>(fit), std::size_t{1}, count);
  const std::size_t lines = (count + most - 1) / most;
  const std::size_t in_line = (count + lines - 1) / lines;
  const auto n = static_cast<double>(in_line);
  const double cell_pt = (width_pt - (n - 1) * cell_gap_pt) / n;
  for (std::size_t first = 0; first < count; first += in_line) {
    Block line;
    for (std::size_t r = first; r < std::min(first + in_line, count); ++r) {
      const Block one = cell(typesetter, table.reserves[r], row.figures[r], figures_pt, cell_pt);
      const double x = static_cast<double>(r - first) * (cell_pt + cell_gap_pt);
      for (const drawing::Mark& mark : one.marks) line.marks.push_back(moved(mark, x, 0));
      line.height_pt = std::max(line.height_pt, one.height_pt);
    }
    line.height_pt += cell_above_pt;
    out.push_back(std::move(line));
  }
  return out;
}

}  // namespace drystage::report
