#include "report/card/day_columns.h"

#include <algorithm>
#include <utility>

namespace drystage::report {
namespace {

using drawing::Align;
using drawing::Block;
using drawing::Font;
using drawing::Rect;
using Column = DayColumns::Column;
using Holds = DayColumns::Holds;

constexpr Font number_font{.size_pt = 11, .bold = true};
constexpr Font figure_font{.size_pt = 10};
constexpr double column_side_pt = 2.5;    ///< free on each side of what stands in a column
constexpr double columns_inset_pt = 1.5;  ///< of a box within its row
constexpr double least_way_pt = 54;
constexpr double columns_most_box_pt = 70;
constexpr double most_small_pt = 50;
constexpr double most_small_type_pt = 8;  ///< beside figures: they come first

/// What stands in a column of one row, line by line.
struct Cell {
  std::vector<std::string> lines{};
  Font font{};
  bool breaks = false;  ///< it is words, that may be broken
};

Font weighted(Font font, bool bold) {
  font.bold = bold;
  return font;
}

Sheet in_type(Sheet sheet, double small_pt) {
  sheet.small_pt = small_pt;
  return sheet;
}

std::vector<Column> columns_for(const EveningTable& table, bool small_beside) {
  std::vector<Column> out{{Holds::fact, "day"},
                          {Holds::fact, "date\nsun\u00a0up\u2013\u2060down"},
                          {Holds::way, "to"},
                          {Holds::fact, "drive"},
                          {Holds::fact, "air"}};
  for (const std::string& name : table.reserves) {
    out.push_back({Holds::plan, "plan", name});
    out.push_back({Holds::must, "must have", name});
    out.push_back({Holds::box, "tonight", name});
  }
  if (!small_beside) return out;
  for (const std::string& name : table.small) out.push_back({Holds::small, name});
  return out;
}

/// A cell for each column.
std::vector<Cell> cells_of(const Sheet& sheet, const EveningRow& row) {
  const Font small = sheet.small();
  std::vector<Cell> out(5);
  if (row.facts) {
    const DayFacts& facts = *row.facts;
    const bool stays = facts.to.empty();
    const std::string by = facts.by.empty() ? "" : "by " + facts.by;
    const bool freezes = !facts.coldest.empty();
    out = {
        {{facts.number}, number_font},
        {{facts.date, facts.sun}, small},
        {{stays ? facts.from : facts.to, stays ? "stay" : by}, small, true},
        {{facts.distance, facts.hours}, small},
        {{freezes ? facts.coldest : facts.warmest, freezes ? "to " + facts.warmest : ""}, small}};
  }
  for (const EveningFigures& figures : row.figures) {
    const bool words = figures.must_have == no_amount;
    out.push_back({{marked(figures.plan, figures.lacks)}, weighted(figure_font, figures.lacks)});
    out.push_back(
        {{figures.must_have}, words ? sheet.small_strong() : weighted(figure_font, true), words});
    out.emplace_back();
  }
  for (const SmallFigure& figure : row.small) {
    out.push_back({{marked(figure.plan, figure.low)}, weighted(small, figure.low)});
  }
  return out;
}

/// How far apart a column stands from the one before.
double gap_before(const std::vector<Column>& columns, std::size_t c) {
  if (columns[c].holds == Holds::plan) return 5;
  return columns[c].holds == Holds::small && columns[c - 1].holds != Holds::small ? 3 : 0;
}

/// The columns, if what stands in that of the way has so much room at the least.
std::optional<DayColumns> columns_of(const Sheet& sheet, const EveningTable& table,
                                     bool small_beside, double enough_pt) {
  const drawing::Typesetter& typesetter = sheet.typesetter;
  DayColumns out{.columns = columns_for(table, small_beside), .small_pt = sheet.small_pt};
  double way_wish = least_way_pt;
  double used = 0;
  for (Column& column : out.columns) {
    column.width_pt = typesetter.longest_word(column.heading, sheet.small_strong());
    if (column.holds == Holds::small) column.width_pt = std::min(column.width_pt, most_small_pt);
  }
  for (const EveningRow& row : table.rows) {
    const std::vector<Cell> cells = cells_of(sheet, row);
    for (std::size_t c = 0; c < out.columns.size(); ++c) {
      Column& column = out.columns[c];
      double& width = column.holds == Holds::way ? way_wish : column.width_pt;
      const double sides = column.holds == Holds::way ? 2 * column_side_pt : 0;
      for (const std::string& line : cells[c].lines) {
        const bool breaks = cells[c].breaks && column.holds != Holds::way;
        width = std::max(width, sides + (breaks ? typesetter.longest_word(line, cells[c].font)
                                                : typesetter.width(line, cells[c].font)));
      }
    }
  }
  for (std::size_t c = 0; c < out.columns.size(); ++c) {
    Column& column = out.columns[c];
    column.width_pt += 2 * column_side_pt;
    if (column.holds == Holds::way) column.width_pt = least_way_pt;
    if (column.holds == Holds::box) column.width_pt = box_width_pt + 2 * columns_inset_pt;
    used += gap_before(out.columns, c) + column.width_pt;
  }
  double room = sheet.width_pt() - used;
  constexpr double most_way_pt = 120;
  way_wish = std::min(way_wish, most_way_pt);
  if (room < std::min(way_wish, enough_pt) - least_way_pt) return std::nullopt;
  // What is left goes first to the names of places, then to the boxes.
  double& way_pt = std::ranges::find(out.columns, Holds::way, &Column::holds)->width_pt;
  const double to_way = std::min(room, way_wish - least_way_pt);
  room -= to_way;
  const double boxes = std::max(1.0, static_cast<double>(table.reserves.size()));
  for (Column& column : out.columns) {
    if (column.holds != Holds::box) continue;
    column.width_pt += std::min(room / boxes, columns_most_box_pt - column.width_pt);
  }
  way_pt += to_way;
  double x = 0;
  for (std::size_t c = 0; c < out.columns.size(); ++c) {
    x += gap_before(out.columns, c);
    out.columns[c].x = x;
    x += out.columns[c].width_pt;
  }
  // The rest parts the facts from the figures.
  for (Column& column : out.columns) {
    if (column.holds != Holds::fact && column.holds != Holds::way) column.x += sheet.width_pt() - x;
  }
  return out;
}

bool stands_left(const Column& column) {
  return column.holds == Holds::fact || column.holds == Holds::way;
}

/// What stands in a column of a row or of the head, from its top.
std::vector<drawing::Text> texts_in(const Sheet& sheet, const Column& column, const Cell& cell) {
  std::vector<drawing::Text> out;
  double y = 0;
  for (const std::string& line : cell.lines) {
    if (line.empty()) continue;
    out.push_back(sheet.typesetter.text(line, cell.font, {.x = column.x + column_side_pt, .y = y},
                                        column.width_pt - 2 * column_side_pt,
                                        stands_left(column) ? Align::left : Align::centre));
    y = out.back().box.bottom();
  }
  return out;
}

double height_of(const std::vector<drawing::Text>& texts) {
  return texts.empty() ? 0 : texts.back().box.bottom();
}

void put_texts(Block& onto, std::vector<drawing::Text> texts, double down_pt) {
  for (drawing::Text& text : texts) {
    text.box.y += down_pt;
    onto.marks.emplace_back(std::move(text));
  }
}

void underline(const Sheet& sheet, Block& block, double stroke_pt) {
  block.marks.emplace_back(drawing::line({.x = 0, .y = block.height_pt},
                                         {.x = sheet.width_pt(), .y = block.height_pt},
                                         {.width_pt = stroke_pt}));
}

void frame(Block& out, double left_x, double right_x, double height, double stroke_pt) {
  out.marks.emplace_back(drawing::outline({.x = left_x,
                                           .y = columns_inset_pt,
                                           .width = right_x - left_x,
                                           .height = height - 2 * columns_inset_pt},
                                          {.width_pt = stroke_pt}));
}

}  // namespace

std::optional<DayColumns> day_columns(const Sheet& sheet, const EveningTable& table) {
  constexpr double enough_way_pt = 70;
  for (const bool small_beside : {true, false}) {
    for (const double way_pt : {enough_way_pt, least_way_pt}) {
      for (const double small_pt : {std::min(sheet.small_pt, most_small_type_pt), 7.5}) {
        if (auto out = columns_of(in_type(sheet, small_pt), table, small_beside, way_pt))
          return out;
      }
    }
  }
  return std::nullopt;
}

Block columns_heading(const Sheet& whole, const DayColumns& columns) {
  const Sheet sheet = in_type(whole, columns.small_pt);
  const Font font = sheet.small_strong();
  const auto texts_of = [&](const Column& column) {
    return texts_in(sheet, column, {{column.heading}, font});
  };
  // The name of a reserve stands above its columns: those with a group.
  double labels_pt = 0;
  double all_pt = 0;
  std::vector<std::vector<drawing::Text>> names;
  for (std::size_t c = 0; c < columns.columns.size(); ++c) {
    const Column& column = columns.columns[c];
    const double height = height_of(texts_of(column));
    all_pt = std::max(all_pt, height);
    if (column.group.empty()) continue;
    labels_pt = std::max(labels_pt, height);
    if (column.holds != Holds::plan) continue;
    const Column& last = columns.columns[c + 2];
    Column over = column;
    over.width_pt = last.x + last.width_pt - column.x;
    names.push_back(texts_in(sheet, over, {{column.group}, font}));
  }
  double names_pt = 0;
  for (const auto& name : names) names_pt = std::max(names_pt, height_of(name));
  Block out{.height_pt = std::max(all_pt, labels_pt + names_pt) + 1, .with_next = true};
  const double names_y = out.height_pt - labels_pt - 0.5;
  for (auto& name : names) {
    const Rect box = name.front().box;
    put_texts(out, std::move(name), names_y - box.height);
    out.marks.emplace_back(drawing::line({.x = box.x - column_side_pt, .y = names_y},
                                         {.x = box.right() + column_side_pt, .y = names_y},
                                         {.width_pt = 0.5}));
  }
  for (const Column& column : columns.columns) {
    std::vector<drawing::Text> texts = texts_of(column);
    const double height = height_of(texts);
    put_texts(out, std::move(texts), out.height_pt - height);
  }
  underline(sheet, out, 1.2);
  out.height_pt += 0.6;
  return out;
}

Block columns_row(const Sheet& whole, const EveningTable& table, const EveningRow& row,
                  const DayColumns& columns) {
  constexpr double lacks_stroke_pt = 1.4;
  constexpr double between_pt = 0.4;
  const Sheet sheet = in_type(whole, columns.small_pt);
  std::vector<Cell> cells = cells_of(sheet, row);
  Block out;
  double height = columns.least_box_pt + 2 * columns_inset_pt;
  if (!row.facts) {
    const Column& air = columns.columns[4];
    const Column all{.holds = Holds::fact, .width_pt = air.x + air.width_pt};
    put_texts(out, texts_in(sheet, all, {{"Before setting out"}, sheet.small_strong()}), 0);
    const double down_pt = std::get<drawing::Text>(out.marks.front()).box.bottom();
    std::vector<drawing::Text> texts =
        texts_in(sheet, all, {{load_words(table, row)}, sheet.small()});
    height = std::max(height, down_pt + height_of(texts) + between_pt);
    put_texts(out, std::move(texts), down_pt);
  }
  std::vector<std::vector<drawing::Text>> texts;
  for (std::size_t c = 0; c < columns.columns.size(); ++c) {
    texts.push_back(texts_in(sheet, columns.columns[c], cells[c]));
    const bool framed =
        columns.columns[c].holds == Holds::plan || columns.columns[c].holds == Holds::must;
    height =
        std::max(height, height_of(texts.back()) + 2 * (framed ? columns_inset_pt : between_pt));
  }
  std::size_t reserve = 0;
  for (std::size_t c = 0; c < columns.columns.size(); ++c) {
    const Column& column = columns.columns[c];
    const double text_pt = height_of(texts[c]);
    put_texts(out, std::move(texts[c]), stands_left(column) ? between_pt : (height - text_pt) / 2);
    if (column.holds != Holds::box) continue;
    frame(out, column.x + columns_inset_pt, column.x + column.width_pt - columns_inset_pt, height,
          1);
    if (row.figures[reserve++].lacks) {
      frame(out, columns.columns[c - 2].x - 1, column.x, height, lacks_stroke_pt);
    }
  }
  out.height_pt = height;
  if (columns.columns.back().holds != Holds::small && !row.small.empty()) {
    const double indent_pt = columns.columns[1].x;
    drawing::Text text =
        sheet.typesetter.text(small_words(table, row), sheet.small(), {.x = indent_pt, .y = height},
                              sheet.width_pt() - indent_pt);
    out.height_pt = text.box.bottom() + between_pt;
    out.marks.emplace_back(std::move(text));
  }
  underline(sheet, out, between_pt);
  return out;
}

}  // namespace drystage::report
