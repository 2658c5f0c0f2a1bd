#include "drawing/table.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace drystage::drawing {
namespace {

constexpr double side_pt = 3;  ///< free on each side of a cell

/// Free above and below the words of a cell.
double above_pt(const Font& font) {
  constexpr double small_pt = 9;
  return font.size_pt < small_pt ? 1 : 2;
}

double sum(const std::vector<double>& widths) {
  return std::accumulate(widths.begin(), widths.end(), 0.0);
}

}  // namespace

Table::Table(const Typesetter& typesetter, double width_pt, std::vector<Column> columns, Font font)
    : typesetter_(typesetter), width_pt_(width_pt), columns_(std::move(columns)), font_(font) {}

void Table::add(std::vector<std::string> cells) { rows_.push_back({.cells = std::move(cells)}); }

Table::Row Table::head() const {
  Row out{.cells = {}, .heading = true};
  for (const Column& column : columns_) out.cells.push_back(column.heading);
  return out;
}

Font Table::font_of(const Row& row, std::size_t column) const {
  const Font font = row.heading ? font_ : columns_[column].font.value_or(font_);
  return {.size_pt = font.size_pt, .bold = font.bold || row.heading};
}

std::vector<double> Table::widths() const {
  std::vector<double> least(columns_.size(), 0);
  std::vector<double> wish(columns_.size(), 0);
  const auto consider = [&](const Row& row) {
    for (std::size_t c = 0; c < row.cells.size(); ++c) {
      const Font font = font_of(row, c);
      const std::string& cell = row.cells[c];
      least[c] = std::max(least[c], typesetter_.longest_word(cell, font) + 2 * side_pt);
      wish[c] = std::max(wish[c], typesetter_.width(cell, font) + 2 * side_pt);
    }
  };
  consider(head());
  for (const Row& row : rows_) consider(row);
  if (sum(wish) <= width_pt_) {
    // Room that is left over goes to all, so that no line runs on past the words.
    const double stretch = sum(wish) > 0 ? width_pt_ / sum(wish) : 1;
    for (double& width : wish) width *= stretch;
    return wish;
  }
  if (sum(least) >= width_pt_) {
    // Words are broken: most in the widest columns.
    double most = *std::ranges::max_element(least);
    const auto capped = [&] {
      std::vector<double> out = least;
      for (double& width : out) width = std::min(width, most);
      return out;
    };
    while (sum(capped()) > width_pt_) most *= 0.98;
    return capped();
  }
  // What is left is shared out by what each column would like to have.
  const double share = (width_pt_ - sum(least)) / (sum(wish) - sum(least));
  for (std::size_t c = 0; c < least.size(); ++c) least[c] += share * (wish[c] - least[c]);
  return least;
}

Block Table::block(const Row& row, const std::vector<double>& widths) const {
  Block out;
  double x = 0;
  for (std::size_t c = 0; c < row.cells.size(); ++c) {
    const double inner = std::max(1.0, widths[c] - 2 * side_pt);
    if (!row.cells[c].empty()) {
      Text text =
          typesetter_.text(row.cells[c], font_of(row, c), {.x = x + side_pt, .y = above_pt(font_)},
                           inner, columns_[c].align);
      out.height_pt = std::max(out.height_pt, text.box.bottom() + above_pt(font_));
      out.marks.emplace_back(std::move(text));
    }
    x += widths[c];
  }
  out.marks.emplace_back(line({.x = 0, .y = out.height_pt}, {.x = width_pt_, .y = out.height_pt},
                              {.width_pt = row.heading ? 0.8 : 0.3}));
  return out;
}

Block Table::groups(const std::vector<double>& widths) const {
  Block out{.with_next = true};
  double x = 0;
  for (std::size_t c = 0; c < columns_.size();) {
    const std::string& name = columns_[c].group;
    const double left = x;
    for (const std::size_t first = c; c < columns_.size(); ++c) {
      if (columns_[c].group != name || (name.empty() && c > first)) break;
      x += widths[c];
    }
    if (name.empty()) continue;
    const Font font{.size_pt = font_.size_pt, .bold = true};
    Text text = typesetter_.text(name, font, {.x = left + side_pt, .y = 0}, x - left - 2 * side_pt,
                                 Align::centre);
    const double bottom = text.box.bottom();
    out.height_pt = std::max(out.height_pt, bottom + 1);
    out.marks.emplace_back(std::move(text));
    out.marks.emplace_back(line({.x = left + side_pt, .y = bottom}, {.x = x - side_pt, .y = bottom},
                                {.width_pt = 0.5}));
  }
  return out;
}

std::vector<Block> Table::heading() const {
  const std::vector<double> all = widths();
  std::vector<Block> out;
  Block above = groups(all);
  if (above.height_pt > 0) out.push_back(std::move(above));
  out.push_back(block(head(), all));
  return out;
}

std::vector<Block> Table::rows() const {
  const std::vector<double> all = widths();
  std::vector<Block> out;
  out.reserve(rows_.size());
  for (const Row& row : rows_) out.push_back(block(row, all));
  return out;
}

}  // namespace drystage::drawing
