#include "report/card/day_columns.h"

#include <algorithm>
#include <array>
#include <utility>

#include "report/text/type.h"

namespace drystage::report {
namespace {

using drawing::Align;
using drawing::Block;
using drawing::Font;
using drawing::Point;
using drawing::Rect;
using drawing::Typesetter;

constexpr Font number_font{.size_pt = 12, .bold = true};
constexpr double column_side_pt = 3;      ///< free on each side of what stands in a column
constexpr double column_above_pt = 0.4;   ///< and above and below
constexpr double columns_inset_pt = 1.2;  ///< of a box within its row
constexpr double reserve_gap_pt = 6;      ///< between one reserve and the next
constexpr double box_stroke_pt = 1;
constexpr double lacks_stroke_pt = 1.4;
constexpr double figure_side_pt = 2.5;
constexpr double box_left_pt = 2.6;  ///< free beside an empty box
constexpr double box_right_pt = 1;
constexpr double frame_out_pt = 2;     ///< what a frame stands out on the left
constexpr double frame_over_pt = 0.8;  ///< and on the right
constexpr double least_way_pt = 58;
constexpr double columns_most_box_pt = 74;
constexpr double least_row_pt = box_height_pt + 2 * columns_inset_pt + 0.2;

constexpr std::array<double, 3> figure_sizes_pt{11, 10, 9};
constexpr double stacked_size_pt = 9;  ///< two lines are then no higher than a box

Font figure_font(double size_pt, bool bold) { return {.size_pt = size_pt, .bold = bold}; }

std::string column_plan_words(const EveningFigures& figures) {
  return (figures.lacks ? "! " : "") + figures.plan;
}

bool in_words(const EveningFigures& figures) { return figures.must_have == no_amount; }

Font must_font(const EveningFigures& figures, double size_pt) {
  return in_words(figures) ? strong_font : figure_font(size_pt, true);
}

/// "to Imrel Bore", "by Salt Edge to Marrow", or that nobody drives.
std::string to_words(const DayFacts& facts) {
  if (facts.to.empty()) return "stay";
  return (facts.by.empty() ? "" : "by " + facts.by + " ") + "to " + facts.to;
}

void fact_columns(const Typesetter& typesetter, const EveningTable& table, DayColumns& out) {
  const auto widen = [&](double& width, const std::string& words, const Font& font) {
    width = std::max(width, typesetter.width(words, font) + 2 * column_side_pt);
  };
  widen(out.number_pt, "day", strong_font);
  widen(out.date_pt, "sun up\u2013down", strong_font);
  widen(out.road_pt, "driving", strong_font);
  widen(out.air_pt, "air", strong_font);
  for (const EveningRow& row : table.rows) {
    if (!row.facts) continue;
    widen(out.number_pt, row.facts->number, number_font);
    widen(out.date_pt, row.facts->date, body_font);
    widen(out.date_pt, row.facts->sun, body_font);
    widen(out.road_pt, row.facts->distance, body_font);
    widen(out.road_pt, row.facts->hours, body_font);
    for (const std::string& line : air_lines(*row.facts)) widen(out.air_pt, line, body_font);
  }
}

DayColumns::Group least_group(const Typesetter& typesetter, const EveningTable& table,
                              std::size_t reserve, double size_pt) {
  DayColumns::Group out{.plan_pt = typesetter.width("plan", strong_font),
                        .must_pt = typesetter.longest_word("must have", strong_font),
                        .box_pt = box_width_pt + box_left_pt + box_right_pt};
  for (const EveningRow& row : table.rows) {
    const EveningFigures& figures = row.figures[reserve];
    out.plan_pt = std::max(out.plan_pt, typesetter.width(column_plan_words(figures),
                                                         figure_font(size_pt, figures.lacks)));
    const Font font = must_font(figures, size_pt);
    out.must_pt =
        std::max(out.must_pt, in_words(figures) ? typesetter.longest_word(figures.must_have, font)
                                                : typesetter.width(figures.must_have, font));
  }
  out.plan_pt += 2 * figure_side_pt;
  out.must_pt += 2 * figure_side_pt;
  return out;
}

/// The same with what must be had below the plan.
DayColumns::Group least_stacked_group(const Typesetter& typesetter, const EveningTable& table,
                                      std::size_t reserve) {
  DayColumns::Group out{.box_pt = box_width_pt + box_left_pt + box_right_pt};
  for (const EveningRow& row : table.rows) {
    const EveningFigures& figures = row.figures[reserve];
    const Font font = must_font(figures, stacked_size_pt);
    out.plan_pt = std::max(
        {out.plan_pt,
         typesetter.width(column_plan_words(figures), figure_font(stacked_size_pt, figures.lacks)),
         in_words(figures) ? typesetter.longest_word(figures.must_have, font)
                           : typesetter.width(figures.must_have, font)});
  }
  out.plan_pt += 2 * figure_side_pt;
  // Their names share the width with that of the box.
  const double names_pt = typesetter.width("must have", strong_font) +
                          typesetter.width("found", strong_font) + 4 * figure_side_pt;
  out.box_pt = std::max(out.box_pt, names_pt - out.plan_pt);
  return out;
}

/// The widest that a place's name and what stands before it would like to be.
double way_wish(const Typesetter& typesetter, const EveningTable& table) {
  constexpr double most_pt = 130;
  double wish = least_way_pt;
  for (const EveningRow& row : table.rows) {
    if (!row.facts) continue;
    wish = std::max({wish, typesetter.width(row.facts->from, body_font) + 2 * column_side_pt,
                     typesetter.width(to_words(*row.facts), body_font) + 2 * column_side_pt});
  }
  return std::min(wish, most_pt);
}

/// Shares out the room that is left: first to the names of places, then to the boxes.
void share_out(const Typesetter& typesetter, const EveningTable& table, double room,
               DayColumns& out) {
  const double to_way = std::min(room, way_wish(typesetter, table) - least_way_pt);
  out.way_pt += to_way;
  room -= to_way;
  const auto groups = static_cast<double>(out.groups.size());
  double to_box = 0;
  if (!out.groups.empty()) {
    to_box = std::min(room / groups, columns_most_box_pt - out.groups.front().box_pt);
  }
  for (DayColumns::Group& group : out.groups) group.box_pt += to_box;
  out.way_pt += room - to_box * groups;
}

/// Words one below the other.
double stack(const Typesetter& typesetter, Block& block,
             const std::vector<std::pair<std::string, Font>>& lines, double x, double width_pt) {
  double y = column_above_pt;
  for (const auto& [words, font] : lines) {
    if (words.empty()) continue;
    drawing::Text text = typesetter.text(words, font, {.x = x + column_side_pt, .y = y},
                                         width_pt - 2 * column_side_pt);
    y += text.box.height;
    block.marks.emplace_back(std::move(text));
  }
  return y + column_above_pt;
}

void centred(const Typesetter& typesetter, Block& block, const std::string& words, const Font& font,
             const Rect& cell) {
  const double inner = cell.width - 2 * figure_side_pt;
  drawing::Text text = typesetter.text(words, font, {.x = cell.x + figure_side_pt, .y = cell.y},
                                       inner, Align::centre);
  text.box.y += (cell.height - text.box.height) / 2;
  block.marks.emplace_back(std::move(text));
}

}  // namespace

namespace {

/// The columns with figures of a size, if the names of places have that much room at the least.
std::optional<DayColumns> columns_of_size(const Typesetter& typesetter, const EveningTable& table,
                                          const DayColumns& facts, double size_pt, double way_pt,
                                          bool stacked = false) {
  DayColumns out = facts;
  out.figure_size_pt = size_pt;
  out.stacked = stacked;
  double used = out.number_pt + out.date_pt + out.way_pt + out.road_pt + out.air_pt;
  for (std::size_t r = 0; r < table.reserves.size(); ++r) {
    out.groups.push_back(stacked ? least_stacked_group(typesetter, table, r)
                                 : least_group(typesetter, table, r, size_pt));
    used += reserve_gap_pt + out.groups.back().width_pt();
  }
  if (used + way_pt - out.way_pt > out.width_pt) return std::nullopt;
  share_out(typesetter, table, out.width_pt - used, out);
  double x = out.number_pt + out.date_pt + out.way_pt + out.road_pt + out.air_pt;
  for (DayColumns::Group& group : out.groups) {
    group.x = x + reserve_gap_pt;
    x = group.x + group.width_pt();
  }
  return out;
}

}  // namespace

std::string load_words(const EveningRow& row) {
  const bool lacks = std::ranges::any_of(row.figures, &EveningFigures::lacks);
  return lacks ? "load to plan; with ! even that is too little" : "load to plan, as packed";
}

std::vector<std::string> air_lines(const DayFacts& facts) {
  if (facts.coldest.empty()) return {"to " + facts.warmest};
  return {facts.coldest + " to", facts.warmest};
}

std::optional<DayColumns> day_columns(const Typesetter& typesetter, const EveningTable& table,
                                      double width_pt) {
  DayColumns facts{.way_pt = least_way_pt, .width_pt = width_pt};
  fact_columns(typesetter, table, facts);
  // Smaller figures before names of places that are broken.
  const double enough_pt = std::min(way_wish(typesetter, table), 90.0);
  for (const double way_pt : {enough_pt, least_way_pt}) {
    for (const double size_pt : figure_sizes_pt) {
      if (auto out = columns_of_size(typesetter, table, facts, size_pt, way_pt)) return out;
    }
  }
  // Both figures in one column before a day takes more than one row.
  for (const double way_pt : {enough_pt, least_way_pt}) {
    auto out = columns_of_size(typesetter, table, facts, stacked_size_pt, way_pt, true);
    if (out) return out;
  }
  return std::nullopt;
}

Block columns_heading(const Typesetter& typesetter, const EveningTable& table,
                      const DayColumns& columns) {
  Block out{.with_next = true};
  std::vector<drawing::Text> titles;
  double titles_pt = 0;
  for (std::size_t r = 0; r < columns.groups.size(); ++r) {
    const DayColumns::Group& group = columns.groups[r];
    titles.push_back(typesetter.text(table.reserves[r], strong_font,
                                     {.x = group.x, .y = column_above_pt}, group.width_pt(),
                                     Align::centre));
    titles_pt = std::max(titles_pt, titles.back().box.height);
  }
  // What stands lowest in each column: its name, of one line or two.
  struct Label {
    const char* words;
    double x;
    double width;
    Align align;
    double side = column_side_pt;
  };
  const double date_x = columns.number_pt;
  const double way_x = date_x + columns.date_pt;
  const double road_x = way_x + columns.way_pt;
  std::vector<Label> labels{{"day", 0, columns.number_pt, Align::left},
                            {"date\nsun up\u2013down", date_x, columns.date_pt, Align::left},
                            {"from\nto", way_x, columns.way_pt, Align::left},
                            {"driving", road_x, columns.road_pt, Align::left},
                            {"air", road_x + columns.road_pt, columns.air_pt, Align::left}};
  for (const DayColumns::Group& group : columns.groups) {
    if (columns.stacked) {
      labels.push_back({"plan\nmust have", group.x, group.width_pt(), Align::left, figure_side_pt});
      labels.push_back({"found", group.x, group.width_pt(), Align::right, figure_side_pt});
      continue;
    }
    labels.push_back({"plan", group.x, group.plan_pt, Align::centre, figure_side_pt});
    labels.push_back(
        {"must have", group.x + group.plan_pt, group.must_pt, Align::centre, figure_side_pt});
    labels.push_back(
        {"found", group.x + group.plan_pt + group.must_pt, group.box_pt, Align::centre});
  }
  std::vector<drawing::Text> texts;
  double labels_pt = 0;
  for (const Label& label : labels) {
    texts.push_back(typesetter.text(label.words, strong_font, {.x = label.x + label.side, .y = 0},
                                    label.width - 2 * label.side, label.align));
    labels_pt = std::max(labels_pt, texts.back().box.height);
  }
  const double bottom = column_above_pt + titles_pt + labels_pt + column_above_pt;
  for (std::size_t r = 0; r < titles.size(); ++r) {
    const DayColumns::Group& group = columns.groups[r];
    const double y = column_above_pt + titles_pt;
    out.marks.emplace_back(std::move(titles[r]));
    out.marks.emplace_back(drawing::line(
        {.x = group.x, .y = y}, {.x = group.x + group.width_pt(), .y = y}, {.width_pt = 0.5}));
  }
  for (drawing::Text& text : texts) {
    text.box.y = bottom - column_above_pt - text.box.height;
    out.marks.emplace_back(std::move(text));
  }
  out.marks.emplace_back(drawing::line({.x = 0, .y = bottom}, {.x = columns.width_pt, .y = bottom},
                                       {.width_pt = 1.2}));
  out.height_pt = bottom + 0.6;
  return out;
}

Block columns_row(const Typesetter& typesetter, const EveningRow& row, const DayColumns& columns) {
  Block out;
  double height = least_row_pt;
  const double date_x = columns.number_pt;
  const double way_x = date_x + columns.date_pt;
  const double road_x = way_x + columns.way_pt;
  const double air_x = road_x + columns.road_pt;
  const auto put = [&](const std::vector<std::pair<std::string, Font>>& lines, double x,
                       double width) {
    height = std::max(height, stack(typesetter, out, lines, x, width));
  };
  if (row.facts) {
    const DayFacts& facts = *row.facts;
    put({{facts.number, number_font}}, 0, columns.number_pt);
    put({{facts.date, body_font}, {facts.sun, body_font}}, date_x, columns.date_pt);
    put({{facts.from, body_font}, {to_words(facts), body_font}}, way_x, columns.way_pt);
    put({{facts.distance, body_font}, {facts.hours, body_font}}, road_x, columns.road_pt);
    std::vector<std::pair<std::string, Font>> air;
    for (std::string& line : air_lines(facts)) air.emplace_back(std::move(line), body_font);
    put(air, air_x, columns.air_pt);
  } else {
    put({{"Before setting out", strong_font}, {load_words(row), body_font}}, 0,
        air_x + columns.air_pt);
  }
  const auto plan_height = [&](const EveningFigures& figures) {
    const Font font = figure_font(columns.figure_size_pt, figures.lacks);
    return typesetter.size(column_plan_words(figures), font, columns.width_pt).height_pt;
  };
  const auto must_height = [&](std::size_t r, const EveningFigures& figures) {
    const DayColumns::Group& group = columns.groups[r];
    const double width = (columns.stacked ? group.plan_pt : group.must_pt) - 2 * figure_side_pt;
    const Font font = must_font(figures, columns.figure_size_pt);
    return typesetter.size(figures.must_have, font, width).height_pt;
  };
  for (std::size_t r = 0; r < columns.groups.size(); ++r) {
    const EveningFigures& figures = row.figures[r];
    height = std::max(height, (columns.stacked ? plan_height(figures) : 0) +
                                  must_height(r, figures) + 2 * column_above_pt);
  }
  const auto underline = [&](double from_x, double to_x) {
    out.marks.emplace_back(
        drawing::line({.x = from_x, .y = height}, {.x = to_x, .y = height}, {.width_pt = 0.4}));
  };
  for (std::size_t r = 0; r < columns.groups.size(); ++r) {
    const DayColumns::Group& group = columns.groups[r];
    const EveningFigures& figures = row.figures[r];
    const double must_x = group.x + group.plan_pt;
    const double box_x = must_x + group.must_pt;
    Rect plan{.x = group.x, .y = 0, .width = group.plan_pt, .height = height};
    Rect must{.x = must_x, .y = 0, .width = group.must_pt, .height = height};
    if (columns.stacked) {
      must.x = plan.x;
      must.width = plan.width;
      must.height = must_height(r, figures);
      plan.height = plan_height(figures);
      plan.y = (height - plan.height - must.height) / 2;
      must.y = plan.bottom();
    }
    centred(typesetter, out, column_plan_words(figures),
            figure_font(columns.figure_size_pt, figures.lacks), plan);
    centred(typesetter, out, figures.must_have, must_font(figures, columns.figure_size_pt), must);
    const auto frame = [&](double left_x, double right_x, double stroke_pt) {
      out.marks.emplace_back(drawing::outline({.x = left_x,
                                               .y = columns_inset_pt,
                                               .width = right_x - left_x,
                                               .height = height - 2 * columns_inset_pt},
                                              {.width_pt = stroke_pt}));
    };
    frame(box_x + box_left_pt, box_x + group.box_pt - box_right_pt, box_stroke_pt);
    if (figures.lacks) {
      frame(group.x - frame_out_pt + lacks_stroke_pt / 2,
            box_x + frame_over_pt - lacks_stroke_pt / 2, lacks_stroke_pt);
    } else {
      underline(group.x, box_x);
    }
  }
  underline(0, air_x + columns.air_pt);
  out.height_pt = height;
  return out;
}

}  // namespace drystage::report
