#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "report/card/day_facts.h"
#include "report/card/evening_figures.h"
#include "report/card/sheet.h"

namespace drystage::report {

/// What one evening shows: the facts of its day, if it ends one, the figures of every reserve that
/// life depends on, and one of every other.
struct EveningRow {
  std::optional<DayFacts> facts{};  ///< none: before setting out
  std::vector<EveningFigures> figures{};
  std::vector<SmallFigure> small{};
};

/// All evenings, and what the reserves are called.
struct EveningTable {
  std::vector<std::string> reserves{};  ///< "Drinking water, L"
  std::vector<std::string> small{};     ///< the same of those that have one figure
  std::vector<EveningRow> rows{};
  std::string start{};  ///< where the trip begins
};

EveningTable evening_table(const NeedsAnswer& answer, units::System system);

/// What is said of the evening before setting out: to load less than is planned is no way to begin.
std::string load_words(const EveningTable& table, const EveningRow& row);

/// The figures of the other reserves in a line: "Food 49 meals; !cold in chest 7 °C".
std::string small_words(const EveningTable& table, const EveningRow& row);

/// A figure, with a sign before it where there is too little.
std::string marked(const std::string& figure, bool low);

/// The least that an empty box measures: 14 mm by 6.5 mm; and as high as it is where there is room.
inline constexpr double box_width_pt = 14 * drawing::points_per_mm;
inline constexpr double box_height_pt = 6.5 * drawing::points_per_mm;
inline constexpr double high_box_pt = 8 * drawing::points_per_mm;

/// Where the columns stand when the boxes of all reserves have room beside the facts of a day.
struct DayColumns {
  enum class Holds { fact, way, plan, must, box, small };
  struct Column {
    Holds holds{};
    std::string heading{};
    std::string group{};  ///< the reserve whose figures and box stand below one name
    double x = 0;
    double width_pt = 0;
  };
  std::vector<Column> columns{};
  double small_pt = 0;  ///< size of all but the figures of what life depends on
  double least_box_pt = box_height_pt;
};

/// The columns of a table, as generous as the width allows; nothing where they have no room. Where
/// the other reserves have none, they stand in a line below their row.
std::optional<DayColumns> day_columns(const Sheet& sheet, const EveningTable& table);

/// The head of the columns, to be repeated, and one row.
drawing::Block columns_heading(const Sheet& whole, const DayColumns& columns);
drawing::Block columns_row(const Sheet& whole, const EveningTable& table, const EveningRow& row,
                           const DayColumns& columns);

/// An evening where there is no room for columns: the facts on top, below them a cell for each
/// reserve that life depends on, labelled by itself, and last a line of the other reserves. A block
/// for each line.
std::vector<drawing::Block> evening_block(const Sheet& sheet, const EveningTable& table,
                                          const EveningRow& row);

}  // namespace drystage::report
