#include <iterator>
#include <numeric>
#include <optional>
#include <utility>

#include "report/card/day_columns.h"
#include "report/card/day_lines.h"
#include "report/card/pieces.h"
#include "report/card/writers.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Font;

constexpr double rule_pt = 1.5;
constexpr double foot_of_page_pt = 20;  ///< of a page, with the space above it

/// A square to tick, and what to take on.
Block supply_block(const Sheet& sheet, const DayLine& line) {
  constexpr double tick_pt = 6;
  constexpr double indent_pt = 12;
  constexpr double above_pt = 0.8;
  const Font font = line.grave ? sheet.small_strong() : sheet.small();
  Block out;
  drawing::Text text = sheet.typesetter.text(line.words, font, {.x = indent_pt, .y = above_pt},
                                             sheet.width_pt() - indent_pt);
  const double line_pt = sheet.typesetter.size("0", font, sheet.width_pt()).height_pt;
  if (!line.shut) {
    out.marks.emplace_back(drawing::outline(
        {.x = 3, .y = above_pt + (line_pt - tick_pt) / 2, .width = tick_pt, .height = tick_pt},
        {.width_pt = 0.8}));
  }
  out.height_pt = text.box.bottom() + above_pt;
  out.marks.emplace_back(std::move(text));
  return out;
}

/// What happens, beside a mark.
Block note_block(const Sheet& sheet, const DayLine& line) {
  constexpr double indent_pt = 12;
  const Font font = line.grave ? sheet.small_strong() : sheet.small();
  Block out;
  drawing::Text text = sheet.typesetter.text(line.words, font, {.x = indent_pt, .y = 0},
                                             sheet.width_pt() - indent_pt);
  out.height_pt = text.box.bottom();
  out.marks.emplace_back(
      sheet.typesetter.text("!", sheet.small_strong(), {.x = 4, .y = 0}, indent_pt - 4));
  out.marks.emplace_back(std::move(text));
  return out;
}

/// A line between two heavy rules across the page, unbroken or dashed.
Block rule_block(const Sheet& sheet, const std::string& words, bool dashed) {
  constexpr double side_pt = 3;
  constexpr double clear_pt = 1;  ///< of the row above
  const double width_pt = sheet.width_pt();
  Block out;
  drawing::Text text =
      sheet.typesetter.text(words, sheet.small_strong(),
                            {.x = side_pt, .y = clear_pt + rule_pt + 0.5}, width_pt - 2 * side_pt);
  out.height_pt = text.box.bottom() + 0.5 + rule_pt;
  out.marks.emplace_back(std::move(text));
  drawing::Stroke stroke{.width_pt = rule_pt};
  if (dashed) stroke.dash_pt = {8, 4};
  for (const double at : {clear_pt + rule_pt / 2, out.height_pt - rule_pt / 2}) {
    out.marks.emplace_back(drawing::line({.x = 0, .y = at}, {.x = width_pt, .y = at}, stroke));
  }
  return out;
}

double height_of(const std::vector<Block>& blocks) {
  return std::accumulate(blocks.begin(), blocks.end(), 0.0,
                         [](double sum, const Block& block) { return sum + block.height_pt; });
}

Block line_block(const Sheet& sheet, const DayLine& line) {
  switch (line.kind) {
    case DayLine::Kind::supply:
      return supply_block(sheet, line);
    case DayLine::Kind::leave:
    case DayLine::Kind::turn_back:
      return rule_block(sheet, line.words, line.opens);
    case DayLine::Kind::note:
      break;
  }
  return note_block(sheet, line);
}

class DayRows {
 public:
  explicit DayRows(const Sheet& sheet)
      : sheet_(sheet),
        table_(evening_table(sheet.answer.needs, sheet.system)),
        columns_(day_columns(sheet, table_)) {}

  void write(double below_pt) {
    drawing::Flow& flow = sheet_.flow;
    double page_pt = flow.paper().height_pt - 2 * flow.paper().margin_pt - foot_of_page_pt;
    std::vector<std::vector<Block>> above;
    for (const std::vector<DayLine>& lines : day_lines(sheet_.answer, sheet_.system)) {
      above.emplace_back();
      for (const DayLine& line : lines) above.back().push_back(line_block(sheet_, line));
    }
    if (columns_) {
      std::vector<Block> heading{columns_heading(sheet_, *columns_)};
      const double heading_pt = height_of(heading);
      page_pt -= heading_pt;
      columns_->least_box_pt = high_box_pt;
      double all_pt = heading_pt + below_pt;
      for (std::size_t evening = first_; evening < above.size(); ++evening) {
        all_pt += height_of(above[evening]) + height_of(row_blocks(evening));
      }
      if (all_pt > flow.room_pt()) columns_->least_box_pt = box_height_pt;
      flow.repeat(std::move(heading));
    }
    for (std::size_t evening = first_; evening < table_.rows.size(); ++evening) {
      std::vector<Block>& all = above[evening];
      std::vector<Block> row = row_blocks(evening);
      if (height_of(row) <= page_pt) row = {stacked(row)};
      if (!all.empty() && all.back().height_pt + height_of(row) <= page_pt) {
        all.back().with_next = true;
      }
      flow.add(std::move(all));
      flow.add(std::move(row));
    }
    flow.repeat_nothing();
  }

 private:
  [[nodiscard]] std::vector<Block> row_blocks(std::size_t evening) const {
    const EveningRow& row = table_.rows[evening];
    if (columns_) return {columns_row(sheet_, table_, row, *columns_)};
    return evening_block(sheet_, table_, row);
  }

  const Sheet& sheet_;
  std::size_t first_ = first_evening(sheet_.planned());
  EveningTable table_;
  std::optional<DayColumns> columns_;
};

}  // namespace

void write_day_rows(const Sheet& sheet, double below_pt) { DayRows(sheet).write(below_pt); }

}  // namespace drystage::report
