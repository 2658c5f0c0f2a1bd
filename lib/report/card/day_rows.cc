#include "report/card/day_rows.h"

#include <cmath>
#include <iterator>
#include <numeric>
#include <optional>
#include <utility>

#include "report/card/capital.h"
#include "report/card/day_block.h"
#include "report/card/day_columns.h"
#include "report/card/pieces.h"
#include "report/card/supply_words.h"
#include "report/card/turn_back_rules.h"
#include "report/words.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Flow;
using drawing::Font;
using drawing::Typesetter;

constexpr Font body{.size_pt = 9};
constexpr Font strong{.size_pt = 9, .bold = true};
constexpr Font rule_font{.size_pt = 9.5, .bold = true};
constexpr double thin_pt = 0.4;
constexpr double rule_pt = 2;
constexpr double foot_pt = 20;  ///< of a page, with the space above it

EveningTable evening_table(const NeedsAnswer& answer, units::System system) {
  EveningTable out;
  const std::vector<std::size_t> reserves = life_supporting(answer);
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
  const Font& font = supply.unsure ? strong : body;
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

Block line_below(double width_pt) {
  return {.height_pt = 1,
          .marks = {
              drawing::line({.x = 0, .y = 0.5}, {.x = width_pt, .y = 0.5}, {.width_pt = thin_pt})}};
}

/// A heavy rule across the page with the words in it: unbroken where the way back ends, dashed
/// where it opens.
Block rule_block(const Typesetter& typesetter, const TurnBackRule& rule, double width_pt) {
  constexpr double side_pt = 4;
  constexpr double clear_pt = 1;  ///< of the row above
  constexpr double above_pt = 2;
  Block out;
  double y = clear_pt + rule_pt + above_pt;
  const auto add = [&](const std::string& words, const Font& font) {
    if (words.empty()) return;
    drawing::Text text =
        typesetter.text(words, font, {.x = side_pt, .y = y}, width_pt - 2 * side_pt);
    y = text.box.bottom();
    out.marks.emplace_back(std::move(text));
  };
  add(rule.headline, rule_font);
  add(rule.words, body);
  out.height_pt = y + above_pt + rule_pt;
  drawing::Stroke stroke{.width_pt = rule_pt};
  if (rule.opens) stroke.dash_pt = {8, 4};
  for (const double at : {clear_pt + rule_pt / 2, out.height_pt - rule_pt / 2}) {
    out.marks.emplace_back(drawing::line({.x = 0, .y = at}, {.x = width_pt, .y = at}, stroke));
  }
  return out;
}

double height_of(const std::vector<Block>& blocks) {
  return std::accumulate(blocks.begin(), blocks.end(), 0.0,
                         [](double sum, const Block& block) { return sum + block.height_pt; });
}

class DayRows {
 public:
  DayRows(Flow& flow, const Typesetter& typesetter, const NeedsAnswer& answer, units::System system)
      : flow_(flow),
        typesetter_(typesetter),
        answer_(answer),
        system_(system),
        width_pt_(flow.paper().column_pt()),
        table_(evening_table(answer, system)),
        columns_(day_columns(typesetter, table_, width_pt_)),
        rules_(turn_back_rules(answer, system)) {}

  void write() {
    double room_pt = flow_.paper().height_pt - 2 * flow_.paper().margin_pt - foot_pt;
    if (columns_) {
      std::vector<Block> heading{columns_heading(typesetter_, table_, *columns_)};
      room_pt -= height_of(heading);
      flow_.repeat(std::move(heading));
    }
    for (std::size_t evening = 0; evening < table_.rows.size(); ++evening) {
      std::vector<Block> all = blocks(evening);
      if (height_of(all) <= room_pt) {
        flow_.add(stacked(all));
      } else {
        flow_.add(std::move(all));
      }
    }
    flow_.repeat_nothing();
  }

 private:
  [[nodiscard]] std::vector<Block> blocks(std::size_t evening) const {
    const EveningRow& row = table_.rows[evening];
    std::vector<Block> out;
    if (columns_) {
      out.push_back(columns_row(typesetter_, row, *columns_));
    } else {
      out = evening_block(typesetter_, table_, row, width_pt_);
    }
    const std::vector<SupplyLine> supplies =
        supply_lines(answer_.trial, evening == 0 ? 0 : evening - 1, evening == 0, system_);
    auto supply = supplies.begin();
    const auto take_on_by = [&](double hour) {
      const auto first = supply;
      for (; supply != supplies.end() && supply->hour <= hour; ++supply) {
        out.push_back(supply_block(typesetter_, *supply, width_pt_));
      }
      if (supply != first && columns_) out.push_back(line_below(width_pt_));
    };
    for (const TurnBackRule& rule : rules_) {
      if (static_cast<std::size_t>(rule.evening) != evening) continue;
      take_on_by(rule.hour);
      out.push_back(rule_block(typesetter_, rule, width_pt_));
    }
    constexpr double day_h = 24;
    take_on_by(day_h);
    return out;
  }

  Flow& flow_;
  const Typesetter& typesetter_;
  const NeedsAnswer& answer_;
  units::System system_;
  double width_pt_;
  EveningTable table_;
  std::optional<DayColumns> columns_;
  std::vector<TurnBackRule> rules_;
};

}  // namespace

void write_day_rows(Flow& flow, const Typesetter& typesetter, const NeedsAnswer& answer,
                    units::System system) {
  DayRows(flow, typesetter, answer, system).write();
}

}  // namespace drystage::report
