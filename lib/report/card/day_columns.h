#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/card/evening_figures.h"
#include "report/card/pieces.h"

namespace drystage::report {

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
