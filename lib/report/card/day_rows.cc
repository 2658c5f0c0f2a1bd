#include "report/card/day_rows.h"

#include <algorithm>
#include <iterator>
#include <numeric>
#include <optional>
#include <utility>

#include "report/card/day_block.h"
#include "report/card/day_columns.h"
#include "report/card/day_notes.h"
#include "report/card/leave_rules.h"
#include "report/card/pieces.h"
#include "report/card/supply_words.h"
#include "report/card/turn_back_rules.h"
#include "report/text/capital.h"
#include "report/text/words.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Flow;
using drawing::Font;
using drawing::Typesetter;

constexpr Font rule_font{.size_pt = 9.5, .bold = true};
constexpr double rule_pt = 2;
constexpr double foot_pt = 20;  ///< of a page, with the space above it

EveningTable evening_table(const NeedsAnswer& answer, units::System system) {
  EveningTable out;
  const std::vector<std::size_t> reserves = reserves_with_boxes(answer);
  for (const std::size_t i : reserves) {
    const auto& info =
        answer.trial.course.reserves[static_cast<std::size_t>(answer.needs.reserves[i])];
    out.reserves.push_back(capital(reserve_words(info)) + ", " + unit(info, system));
  }
  for (std::size_t evening = 0; evening < evenings(answer); ++evening) {
    EveningRow row;
    if (evening > 0) row.facts = day_facts(answer.trial, evening - 1, system);
    for (const std::size_t i : reserves) {
      row.figures.push_back(evening_figures(answer, i, evening, system));
    }
    out.rows.push_back(std::move(row));
  }
  return out;
}

/// A square to tick, and what to take on.
Block supply_block(const Typesetter& typesetter, const SupplyLine& supply, double width_pt) {
  constexpr double tick_pt = 7;
  constexpr double indent_pt = 14;
  constexpr double above_pt = 1;
  const Font& font = supply.unsure ? strong_font : body_font;
  Block out;
  drawing::Text text =
      typesetter.text(supply.words, font, {.x = indent_pt, .y = above_pt}, width_pt - indent_pt);
  const double line_pt = typesetter.size("0", font, width_pt).height_pt;
  if (!supply.shut) {
    out.marks.emplace_back(drawing::outline(
        {.x = 3, .y = above_pt + (line_pt - tick_pt) / 2, .width = tick_pt, .height = tick_pt},
        {.width_pt = 0.8}));
  }
  out.height_pt = text.box.bottom() + above_pt;
  out.marks.emplace_back(std::move(text));
  return out;
}

/// What happens, beside a mark.
Block note_block(const Typesetter& typesetter, const DayNote& note, double width_pt) {
  constexpr double indent_pt = 14;
  const Font& font = note.grave ? strong_font : body_font;
  Block out;
  drawing::Text text =
      typesetter.text(note.words, font, {.x = indent_pt, .y = 0}, width_pt - indent_pt);
  drawing::Text mark = typesetter.text("!", strong_font, {.x = 5, .y = 0}, indent_pt - 5);
  out.height_pt = text.box.bottom();
  out.marks.emplace_back(std::move(mark));
  out.marks.emplace_back(std::move(text));
  return out;
}

/// A heavy rule across the page with words in it, unbroken or dashed.
Block rule_block(const Typesetter& typesetter, const std::string& headline,
                 const std::string& words, bool dashed, double width_pt) {
  constexpr double side_pt = 4;
  constexpr double clear_pt = 1;  ///< of the row above
  constexpr double above_pt = 2;
  Block out;
  double y = clear_pt + rule_pt + above_pt;
  const auto add = [&](const std::string& what, const Font& font) {
    if (what.empty()) return;
    drawing::Text text =
        typesetter.text(what, font, {.x = side_pt, .y = y}, width_pt - 2 * side_pt);
    y = text.box.bottom();
    out.marks.emplace_back(std::move(text));
  };
  add(headline, rule_font);
  add(words, body_font);
  out.height_pt = y + above_pt + rule_pt;
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

/// Something that stands above a day's row, and when it is met.
struct Above {
  double hour = 0;
  Block block;
};

class DayRows {
 public:
  DayRows(Flow& flow, const Typesetter& typesetter, const CardAnswer& answer, units::System system)
      : flow_(flow),
        typesetter_(typesetter),
        trial_(answer.needs.trial),
        system_(system),
        width_pt_(flow.paper().column_pt()),
        told_(told_events(trial_)),
        table_(evening_table(answer.needs, system)),
        columns_(day_columns(typesetter, table_, width_pt_)),
        turns_(turn_back_rules(answer.needs, system)),
        leaves_(leave_rules(answer, system)) {}

  void write() {
    double room_pt = flow_.paper().height_pt - 2 * flow_.paper().margin_pt - foot_pt;
    if (columns_) {
      std::vector<Block> heading{columns_heading(typesetter_, table_, *columns_)};
      room_pt -= height_of(heading);
      flow_.repeat(std::move(heading));
    }
    for (std::size_t evening = 0; evening < table_.rows.size(); ++evening) {
      std::vector<Block> all = evening == 0 ? above_outset() : above_row(evening - 1);
      std::vector<Block> row = row_blocks(evening);
      if (height_of(row) <= room_pt) row = {stacked(row)};
      if (!all.empty() && all.back().height_pt + height_of(row) <= room_pt) {
        all.back().with_next = true;
      }
      flow_.add(std::move(all));
      flow_.add(std::move(row));
    }
    flow_.repeat_nothing();
  }

 private:
  [[nodiscard]] std::vector<Block> row_blocks(std::size_t evening) const {
    const EveningRow& row = table_.rows[evening];
    if (columns_) return {columns_row(typesetter_, row, *columns_)};
    return evening_block(typesetter_, table_, row, width_pt_);
  }

  [[nodiscard]] static bool at_outset(const LeaveRule& rule) {
    return rule.day == 0 && rule.hour <= 0;
  }

  [[nodiscard]] std::vector<Block> above_outset() const {
    std::vector<Block> out;
    for (const SupplyLine& supply : supply_lines(trial_, 0, true, system_)) {
      out.push_back(supply_block(typesetter_, supply, width_pt_));
    }
    for (const LeaveRule& rule : leaves_) {
      if (at_outset(rule)) out.push_back(leave_block(rule));
    }
    return out;
  }

  [[nodiscard]] Block leave_block(const LeaveRule& rule) const {
    return rule_block(typesetter_, rule.headline, {}, false, width_pt_);
  }

  /// In the order of time; what is taken on comes before the rules of the same moment.
  [[nodiscard]] std::vector<Block> above_row(std::size_t day) const {
    std::vector<Above> all;
    for (const SupplyLine& supply : supply_lines(trial_, day, false, system_)) {
      all.push_back({.hour = supply.hour, .block = supply_block(typesetter_, supply, width_pt_)});
    }
    for (const LeaveRule& rule : leaves_) {
      if (static_cast<std::size_t>(rule.day) != day || at_outset(rule)) continue;
      all.push_back({.hour = rule.hour, .block = leave_block(rule)});
    }
    for (const TurnBackRule& rule : turns_) {
      if (static_cast<std::size_t>(rule.day) != day) continue;
      const std::string words =
          rule.words + (rule.advice.empty() || rule.words.empty() ? "" : " ") + rule.advice;
      all.push_back(
          {.hour = rule.hour,
           .block = rule_block(typesetter_, rule.headline, words, rule.opens, width_pt_)});
    }
    for (const DayNote& note : day_notes(trial_, told_, day, system_)) {
      all.push_back({.hour = note.hour, .block = note_block(typesetter_, note, width_pt_)});
    }
    std::ranges::stable_sort(all, {}, &Above::hour);
    std::vector<Block> out;
    out.reserve(all.size());
    for (Above& above : all) out.push_back(std::move(above.block));
    return out;
  }

  Flow& flow_;
  const Typesetter& typesetter_;
  const answers::Trial& trial_;
  units::System system_;
  double width_pt_;
  std::vector<ToldEvent> told_;
  EveningTable table_;
  std::optional<DayColumns> columns_;
  std::vector<TurnBackRule> turns_;
  std::vector<LeaveRule> leaves_;
};

}  // namespace

void write_day_rows(Flow& flow, const Typesetter& typesetter, const CardAnswer& answer,
                    units::System system) {
  DayRows(flow, typesetter, answer, system).write();
}

}  // namespace drystage::report
