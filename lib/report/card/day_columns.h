#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "drawing/flow.h"
#include "drawing/typesetter.h"
#include "report/card/day_facts.h"
#include "report/card/evening_figures.h"

namespace drystage::report {

/// What one evening shows: the facts of its day, if it ends one, and the figures of every reserve
/// that life depends on.
struct EveningRow {
  std::optional<DayFacts> facts{};  ///< none: before setting out
  std::vector<EveningFigures> figures{};
};

/// What is said of the evening before setting out: to load less than is planned is no way to begin.
std::string load_words(const EveningRow& row);

/// The air of a day: the hottest, and where it freezes the coldest too.
std::vector<std::string> air_lines(const DayFacts& facts);

/// All evenings, and what the reserves are called: "Drinking water, L".
struct EveningTable {
  std::vector<std::string> reserves{};
  std::vector<EveningRow> rows{};
};

/// The least that an empty box measures: 16 mm by 8 mm.
inline constexpr double box_width_pt = 16 * drawing::points_per_mm;
inline constexpr double box_height_pt = 8 * drawing::points_per_mm;

/// Where the columns stand when the boxes of all reserves have room beside the facts of a day.
struct DayColumns {
  struct Group {
    double x = 0;
    double plan_pt = 0;
    double must_pt = 0;
    double box_pt = 0;

    [[nodiscard]] double width_pt() const { return plan_pt + must_pt + box_pt; }
  };
  double number_pt = 0;
  double date_pt = 0;
  double way_pt = 0;
  double road_pt = 0;
  double air_pt = 0;
  double width_pt = 0;
  double figure_size_pt = 0;
  bool stacked = false;  ///< what must be had stands below the plan, not beside it
  std::vector<Group> groups{};
};

/// The columns of a table, as generous as the width allows; nothing where they have no room.
std::optional<DayColumns> day_columns(const drawing::Typesetter& typesetter,
                                      const EveningTable& table, double width_pt);

/// The head of the columns, to be repeated, and one row.
drawing::Block columns_heading(const drawing::Typesetter& typesetter, const EveningTable& table,
                               const DayColumns& columns);
drawing::Block columns_row(const drawing::Typesetter& typesetter, const EveningRow& row,
                           const DayColumns& columns);

}  // namespace drystage::report
