#include "report/size/trade_off.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "plan/utf8.h"
#include "report/size/trade_off_words.h"
#include "report/size/words.h"
#include "report/text/layout.h"
#include "report/text/page.h"

namespace drystage::report {
namespace {

using answers::TradeOff;

constexpr int bar_columns = 14;
constexpr const char* gap = "  ";

struct TradeOffRow {
  std::string margins;
  std::string figure;
  std::string step;  ///< to the row before
  std::string bar;
  std::string takes;
};

class TradeOffTable {
 public:
  TradeOffTable(const SizeAnswer& answer, const TextOptions& options)
      : answer_(answer), options_(options), costs_(answer.options.least == answers::Least::cost) {
    scale();
    rows_.push_back({.margins = "margins",
                     .figure = costs_ ? "cost" : std::string(mass_unit()),
                     .step = "step",
                     .bar = bar_head(),
                     .takes = "against the set above"});
    const answers::Totals* before = nullptr;
    for (const TradeOff& row : answer_.trade_off) {
      rows_.push_back(row_of(row, before));
      before = row.sizing.found ? &row.sizing.found->totals : nullptr;
    }
  }

  [[nodiscard]] std::string text() const {
    const int margins = width(&TradeOffRow::margins);
    const int figure = width(&TradeOffRow::figure);
    const int step = width(&TradeOffRow::step);
    const int bar = width(&TradeOffRow::bar);
    std::string out;
    for (const TradeOffRow& row : rows_) {
      const std::string label = right(row.margins, margins) + gap + right(row.figure, figure) +
                                gap + right(row.step, step) + gap + left(row.bar, bar) + gap;
      std::string line = wrap_after(label, row.takes, page_columns);
      line.resize(line.find_last_not_of(" \n") + 1);
      out += (&row == &rows_.front() ? strong(line, options_.color) : line) + "\n";
    }
    return out;
  }

  /// What a day more of margin takes, in a sentence.
  [[nodiscard]] std::string one_day() const {
    const auto row = std::ranges::find(answer_.trade_off, 1.0, &TradeOff::more_days);
    if (row == answer_.trade_off.end()) return {};
    const std::string set = trade_off_set(*row, answer_, options_.system);
    if (!row->sizing.found) return "What one more day of margin takes is " + set + ".";
    const double more = shown(row->sizing.found->totals) - shown(answer_.sizing.found->totals);
    const std::string amount =
        costs_ ? figure(more) : figure(more) + " " + std::string(mass_unit());
    return fmt::format("One more day of margin {} {} more: {}.", costs_ ? "costs" : "weighs",
                       amount, set);
  }

 private:
  [[nodiscard]] std::string_view mass_unit() const {
    return units::display(units::Kind::mass, options_.system).unit;
  }

  /// The figure as it is shown, so that steps are the differences of what the reader sees.
  [[nodiscard]] double shown(const answers::Totals& totals) const {
    if (costs_) return rounded(totals.cost, 2, Toward::up);
    return rounded(units::display(units::Kind::mass, options_.system).number(totals.kg), 0,
                   Toward::up);
  }

  /// What bars stand for: they show what a row has more than the least, so that they differ.
  void scale() {
    double most = 0;
    bool first = true;
    for (const TradeOff& row : answer_.trade_off) {
      if (!row.sizing.found) continue;
      const double now = shown(row.sizing.found->totals);
      least_ = first ? now : std::min(least_, now);
      most = first ? now : std::max(most, now);
      first = false;
    }
    one_ = most > least_ ? round_up((most - least_) / bar_columns) : 0;
  }

  /// The next of 1, 2, 5, 10, 20 and so on; of costs from 0.01 on.
  [[nodiscard]] double round_up(double number) const {
    double decade = costs_ ? 0.01 : 1;
    while (true) {
      for (const double step : {1.0, 2.0, 5.0}) {
        if (step * decade >= number - 1e-9) return step * decade;
      }
      decade *= 10;
    }
  }

  [[nodiscard]] std::string bar_head() const {
    if (one_ <= 0) return {};
    const std::string unit = costs_ ? std::string() : " " + std::string(mass_unit());
    return fmt::format("# is {}{} more", figure(one_), unit);
  }

  [[nodiscard]] std::string bar(double now) const {
    const double marks = one_ > 0 ? (now - least_) / one_ : 0;
    return std::string(static_cast<std::size_t>(std::lround(marks)), '#');
  }

  [[nodiscard]] std::string figure(double number) const {
    return costs_ ? cost_number(number) : units::format_number(number, units::decimals(0));
  }

  [[nodiscard]] TradeOffRow row_of(const TradeOff& row, const answers::Totals* before) const {
    TradeOffRow out{
        .margins = trade_off_margins(row), .figure = {}, .step = {}, .bar = {}, .takes = {}};
    if (!row.sizing.found) {
      out.takes = trade_off_set(row, answer_, options_.system);
      return out;
    }
    const answers::SizedPlan& found = *row.sizing.found;
    const double now = shown(found.totals);
    out.figure = figure(now);
    if (before != nullptr) {
      const double step = now - shown(*before);
      out.step = (step < 0 ? "-" : "+") + figure(std::abs(step));
    }
    out.bar = bar(now);
    out.takes = trade_off_set(row, answer_, options_.system);
    return out;
  }

  [[nodiscard]] int width(std::string TradeOffRow::*cell) const {
    int most = 1;
    for (const TradeOffRow& row : rows_) most = std::max(most, plan::columns(row.*cell));
    return most;
  }

  const SizeAnswer& answer_;
  const TextOptions& options_;
  bool costs_;
  double least_ = 0;  ///< of what is shown
  double one_ = 0;    ///< what one mark of a bar stands for; 0: there are no bars
  std::vector<TradeOffRow> rows_;
};

}  // namespace

std::string size_trade_off(const SizeAnswer& answer, const TextOptions& options) {
  if (answer.trade_off.empty() || !answer.sizing.found) return {};
  const bool costs = answer.options.least == answers::Least::cost;
  const TradeOffTable table(answer, options);
  if (!options.all) return paragraph(table.one_day() + " --all shows more days.");
  return fmt::format("What one more day of margin {}\n", costs ? "costs" : "weighs") +
         table.text() + paragraph(trade_off_scope(answer.planned.plan));
}

}  // namespace drystage::report
