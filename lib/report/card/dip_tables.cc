#include "report/card/dip_tables.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <numeric>
#include <utility>
#include <vector>

#include "answers/base/dip_table.h"
#include "drawing/table.h"
#include "report/card/pieces.h"
#include "report/card/supply_words.h"
#include "report/card/writers.h"
#include "report/text/amounts.h"
#include "report/text/words.h"
#include "units/format.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::DipRow;
using answers::DipTable;
using answers::StickMarks;
using units::System;

constexpr double cm_per_inch = 2.54;
constexpr double depth_side_pt = 4;
constexpr double group_gap_pt = 14;
constexpr double row_space_pt = 1.5;

std::string tenth(double number, Toward toward) {
  return units::format_number(rounded(number, 1, toward), units::decimals(1));
}

/// To so many digits after the point, without zeros at the end.
std::string plain(double number, Toward toward, int digits = 1) {
  constexpr int enough = 8;
  return units::format_number(rounded(number, digits, toward), units::significant(enough));
}

bool metric(units::System system) { return system == units::System::metric; }

units::Display volumes(units::System system) { return units::display(units::Kind::volume, system); }

std::string volume(double volume_l, units::System system, Toward toward) {
  const units::Display shown = volumes(system);
  return plain(shown.number(volume_l), toward) + " " + std::string(shown.unit);
}

/// A depth as the stick is marked, rounded up: to a millimetre, or to a hundredth of an inch, so
/// that a mark of the plan's in cm is told from the half inch beside it.
std::string depth(double depth_cm, units::System system) {
  return metric(system) ? plain(depth_cm, Toward::up)
                        : plain(depth_cm / cm_per_inch, Toward::up, 2);
}

std::string depth_words(double depth_cm, units::System system) {
  return depth(depth_cm, system) + (metric(system) ? " cm" : " in");
}

/// The rows of a table under as many heads side by side as fit.
class Grid {
 public:
  Grid(const drawing::Typesetter& typesetter, const DipTable& table, double width_pt,
       units::System system)
      : typesetter_(typesetter), table_(table), heads_(dip_heads(table, system)) {
    for (const DipRow& row : table.rows) cells_.push_back(dip_figures(table, row, system));
    set_widths();
    const auto fit = static_cast<std::size_t>(
        std::max(1.0, (width_pt + group_gap_pt) / (group_pt_ + group_gap_pt)));
    constexpr std::size_t least_rows = 5;
    const std::size_t groups =
        std::clamp<std::size_t>((cells_.size() + least_rows - 1) / least_rows, 1, fit);
    per_group_ = (cells_.size() + groups - 1) / groups;
    line_pt_ = typesetter.size("0", body_font, width_pt).height_pt + row_space_pt;
  }

  [[nodiscard]] drawing::Block block() const {
    drawing::Block out;
    for (std::size_t first = 0; first < cells_.size(); first += per_group_) {
      const std::size_t group = first / per_group_;
      const double x = static_cast<double>(group) * (group_pt_ + group_gap_pt);
      put_row(out, heads_, strong_font, {.x = x, .y = 0});
      underline(out, {.x = x, .y = line_pt_}, 0.8);
      const std::size_t end = std::min(first + per_group_, cells_.size());
      for (std::size_t r = first; r < end; ++r) {
        const double y = line_pt_ + 1 + static_cast<double>(r - first) * line_pt_;
        put_row(out, cells_[r], table_.rows[r].own_mark ? strong_font : body_font,
                {.x = x, .y = y});
        underline(out, {.x = x, .y = y + line_pt_ - 0.5}, 0.3);
        out.height_pt = std::max(out.height_pt, y + line_pt_ + 3);
      }
    }
    return out;
  }

 private:
  void set_widths() {
    for (std::size_t c = 0; c < heads_.size(); ++c) {
      double widest = typesetter_.width(heads_[c], strong_font);
      for (const auto& row : cells_) {
        widest = std::max(widest, typesetter_.width(row[c], strong_font));
      }
      widths_.push_back(widest + 2 * depth_side_pt);
    }
    group_pt_ = std::accumulate(widths_.begin(), widths_.end(), 0.0);
  }

  void put_row(drawing::Block& block, const std::vector<std::string>& cells,
               const drawing::Font& font, drawing::Point at) const {
    constexpr double rounding_pt = 0.5;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      block.marks.emplace_back(
          typesetter_.text(cells[c], font, {.x = at.x + depth_side_pt, .y = at.y},
                           widths_[c] - 2 * depth_side_pt + rounding_pt, drawing::Align::right));
      at.x += widths_[c];
    }
  }

  void underline(drawing::Block& block, drawing::Point from, double stroke_pt) const {
    block.marks.emplace_back(
        drawing::line(from, {.x = from.x + group_pt_, .y = from.y}, {.width_pt = stroke_pt}));
  }

  const drawing::Typesetter& typesetter_;
  const DipTable& table_;
  std::vector<std::string> heads_;
  std::vector<std::vector<std::string>> cells_{};
  std::vector<double> widths_{};
  double group_pt_ = 0;
  double line_pt_ = 0;
  std::size_t per_group_ = 1;
};

/// A number of one unit in another.
double from_to(double number, units::Kind kind, System from, System to) {
  const double canonical = number / units::display(kind, from).number(1);
  return units::display(kind, to).number(canonical);
}

/// Two digits after the point below ten, one from there on.
std::string shown(double number, Toward toward) {
  const int digits = number < 10 ? 2 : 1;
  return units::format_number(rounded(number, digits, toward), units::decimals(digits));
}

struct Way {
  units::Kind kind;
  System from;
  System to;
};
constexpr std::array<Way, 8> conversions{{{units::Kind::volume, System::metric, System::us},
                                          {units::Kind::volume, System::metric, System::imperial},
                                          {units::Kind::volume, System::us, System::metric},
                                          {units::Kind::volume, System::us, System::imperial},
                                          {units::Kind::volume, System::imperial, System::metric},
                                          {units::Kind::volume, System::imperial, System::us},
                                          {units::Kind::distance, System::metric, System::us},
                                          {units::Kind::distance, System::us, System::metric}}};

constexpr std::array<int, 13> conversion_numbers{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 20, 50, 100};

}  // namespace

StickMarks stick_marks(units::System system) {
  return metric(system) ? StickMarks::centimetres : StickMarks::inches;
}

std::string dip_title(const DipTable& table, units::System system) {
  std::string text = capital(table.name);
  if (!table.vehicle.empty()) text += " of " + table.vehicle;
  return fmt::format("{}, {}: holds {}, by {}", text, table.contents,
                     volume(table.holds_l, system, Toward::down),
                     table.measured ? "your own marks (bold)" : "its shape");
}

std::string dip_notes(const DipTable& table, units::System system) {
  std::string text;
  if (table.unusable_l > 0) {
    text += fmt::format("{} in it cannot be used", volume(table.unusable_l, system, Toward::up));
    if (table.unusable_depth_cm) {
      text += fmt::format(": at {} or less nothing usable is left",
                          depth_words(*table.unusable_depth_cm, system));
    }
    text += ". ";
  }
  if (table.below_stick_l > 0) {
    text += fmt::format("A dry stick says only that there is no more than {}. ",
                        volume(table.below_stick_l, system, Toward::up));
  }
  if (!table.ends_full && !table.rows.empty()) {
    text += fmt::format("Above {} count no more than stands there. ",
                        depth_words(table.rows.back().depth_cm, system));
  }
  if (!text.empty()) text.pop_back();
  return text;
}

std::vector<std::string> dip_heads(const DipTable& table, units::System system) {
  const std::string gallons(volumes(system).unit);
  std::vector<std::string> out{metric(system) ? "cm" : "in", "L"};
  if (!metric(system)) out.push_back(gallons);
  if (table.unusable_l > 0) out.push_back("usable " + gallons);
  return out;
}

std::vector<std::string> dip_figures(const DipTable& table, const DipRow& row,
                                     units::System system) {
  const units::Display shown = volumes(system);
  std::vector<std::string> out{depth(row.depth_cm, system), tenth(row.volume_l, Toward::down)};
  if (!metric(system)) out.push_back(tenth(shown.number(row.volume_l), Toward::down));
  if (table.unusable_l > 0) out.push_back(tenth(shown.number(row.usable_l), Toward::down));
  return out;
}

std::string dip_line(const DipTable& table, units::System system) {
  constexpr std::size_t most = 10;
  std::string text = capital(table.name);
  if (!table.vehicle.empty()) text += " of " + table.vehicle;
  text += ", " + table.contents;
  if (table.unusable_l > 0) {
    text += fmt::format(", usable {} ({} already taken off)", metric(system) ? "litres" : "gallons",
                        volume(table.unusable_l, system, Toward::up));
  }
  text += ": ";
  const std::size_t apart = (table.rows.size() + most - 1) / most;
  std::string depths;
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    if ((table.rows.size() - 1 - r) % apart != 0) continue;
    const DipRow& row = table.rows[r];
    const double usable_l = table.unusable_l > 0 ? row.usable_l : row.volume_l;
    units::add_to(depths,
                  fmt::format("{}\u00a0{}\u00a0{}", unbroken(depth_words(row.depth_cm, system)),
                              plain(volumes(system).number(usable_l), Toward::down, 0),
                              unbroken(volumes(system).unit)));
  }
  text += depths;
  if (table.unusable_depth_cm) {
    text += "; nothing usable at " + depth_words(*table.unusable_depth_cm, system);
  }
  return text + ".";
}

drawing::Block dip_block(const drawing::Typesetter& typesetter, const DipTable& table,
                         double width_pt, units::System system) {
  std::vector<drawing::Block> parts{small_title(typesetter, dip_title(table, system), width_pt)};
  const std::string notes = dip_notes(table, system);
  if (!notes.empty()) parts.push_back(stacked(sentences(typesetter, notes, width_pt)));
  parts.push_back(Grid(typesetter, table, width_pt, system).block());
  return stacked(parts);
}

std::vector<std::string> conversion_heads() {
  std::vector<std::string> out{""};
  for (const auto& [kind, from, to] : conversions) {
    out.push_back(
        fmt::format("{} in {}", units::display(kind, from).unit, units::display(kind, to).unit));
  }
  return out;
}

std::vector<std::vector<std::string>> conversion_rows() {
  std::vector<std::vector<std::string>> out;
  for (const int number : conversion_numbers) {
    std::vector<std::string> row{std::to_string(number)};
    for (const Way& way : conversions) {
      row.push_back(shown(from_to(number, way.kind, way.from, way.to),
                          way.kind == units::Kind::volume ? Toward::down : Toward::up));
    }
    out.push_back(std::move(row));
  }
  return out;
}

void write_conversion_table(drawing::Flow& flow, const drawing::Typesetter& typesetter) {
  const double width = flow.paper().column_pt();
  std::vector<drawing::Column> columns;
  for (const std::string& head : conversion_heads()) {
    columns.push_back({.heading = head, .align = drawing::Align::right});
  }
  drawing::Table table(typesetter, width, std::move(columns), body_font);
  for (std::vector<std::string>& row : conversion_rows()) table.add(std::move(row));
  std::vector<drawing::Block> all{
      small_title(typesetter, "Volumes are rounded down, distances up", width)};
  for (const std::vector<drawing::Block>& part : {table.heading(), table.rows()}) {
    all.insert(all.end(), part.begin(), part.end());
  }
  flow.add(stacked(all));
}

void write_dip_tables(const Sheet& sheet) {
  drawing::Flow& flow = sheet.flow;
  const drawing::Typesetter& typesetter = sheet.typesetter;
  const units::System system = sheet.system;
  const std::vector<answers::DipTable> tables =
      answers::dip_tables(sheet.plan(), stick_marks(system));
  const bool converts = system != units::System::metric;
  if (tables.empty() && !converts) return;
  const double width = flow.paper().column_pt();
  flow.add(part_title(typesetter, tables.empty() ? "To convert" : "Reading the tanks", width));
  if (!tables.empty()) {
    flow.add(sentences(typesetter,
                       "Dip on level ground, when the tank has come to rest. A reading between two "
                       "depths counts as the lesser one. Volumes are rounded down.",
                       width));
  }
  for (const answers::DipTable& table : tables) {
    flow.add(dip_block(typesetter, table, width, system));
  }
  if (converts) write_conversion_table(flow, typesetter);
}

}  // namespace drystage::report
