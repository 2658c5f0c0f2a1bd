#include "report/size/trade_off.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "plan/utf8.h"
#include "report/size/words.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::SizedLine;
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
      : answer_(answer),
        options_(options),
        figures_{.costs = answer.options.least == answers::Least::cost, .system = options.system} {
    scale();
    rows_.push_back({.margins = "margins",
                     .figure = figures_.costs ? "cost" : figures_.unit().substr(1),
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
      std::string line = wrap_after(label, row.takes, page_columns());
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
    const double more =
        figures_.number(row->sizing.found->totals) - figures_.number(answer_.sizing.found->totals);
    const std::string amount = figures_.words(more);
    return fmt::format("One more day of margin {} {} more: {}.",
                       figures_.costs ? "costs" : "weighs", amount, set);
  }

 private:
  /// What bars stand for: they show what a row has more than the least, so that they differ.
  void scale() {
    double most = 0;
    bool first = true;
    for (const TradeOff& row : answer_.trade_off) {
      if (!row.sizing.found) continue;
      const double now = figures_.number(row.sizing.found->totals);
      least_ = first ? now : std::min(least_, now);
      most = first ? now : std::max(most, now);
      first = false;
    }
    one_ = most > least_ ? round_up((most - least_) / bar_columns) : 0;
  }

  /// The next of 1, 2, 5, 10, 20 and so on; of costs from 0.01 on.
  [[nodiscard]] double round_up(double number) const {
    double decade = figures_.costs ? 0.01 : 1;
    while (true) {
      for (const double step : {1.0, 2.0, 5.0}) {
        if (step * decade >= number - 1e-9) return step * decade;
      }
      decade *= 10;
    }
  }

  [[nodiscard]] std::string bar_head() const {
    if (one_ <= 0) return {};
    return fmt::format("# is {} more", figures_.words(one_));
  }

  [[nodiscard]] std::string bar(double now) const {
    const double marks = one_ > 0 ? (now - least_) / one_ : 0;
    return std::string(static_cast<std::size_t>(std::lround(marks)), '#');
  }

  [[nodiscard]] TradeOffRow row_of(const TradeOff& row, const answers::Totals* before) const {
    TradeOffRow out{
        .margins = trade_off_margins(row), .figure = {}, .step = {}, .bar = {}, .takes = {}};
    if (!row.sizing.found) {
      out.takes = trade_off_set(row, answer_, options_.system);
      return out;
    }
    const answers::SizedPlan& found = *row.sizing.found;
    const double now = figures_.number(found.totals);
    out.figure = figures_.figure(now);
    if (before != nullptr) {
      const double step = now - figures_.number(*before);
      out.step = (step < 0 ? "-" : "+") + figures_.figure(std::abs(step));
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
  TradeOffFigures figures_;
  double least_ = 0;  ///< of what is shown
  double one_ = 0;    ///< what one mark of a bar stands for; 0: there are no bars
  std::vector<TradeOffRow> rows_;
};

/// What a set has of one thing: of what is counted all of the same stuff, of whatever size and
/// whoever carries it; else the size that it is of.
struct Have {
  std::string of;
  std::string unit{};
  double quantity = 0;
  std::vector<SizedLine> lines{};  ///< of what is counted many, else one
};

/// Everything in a set, each name once. Of things in a size that share a name the second and
/// further ones are told apart by their number.
std::vector<Have> haves(const std::vector<SizedLine>& lines) {
  std::vector<Have> out;
  const auto known = [&out](const std::string& of) {
    return std::ranges::find(out, of, &Have::of);
  };
  for (const SizedLine& line : lines) {
    const bool counted = !line.many.empty();
    std::string of = counted ? line.of : line.one;
    if (counted) {
      auto have = known(of);
      if (have == out.end()) {
        out.push_back({.of = of, .unit = line.unit});
        have = out.end() - 1;
      }
      have->quantity += line.amount * line.each;
      if (line.amount > 0) have->lines.push_back(line);
      continue;
    }
    for (int number = 2; known(of) != out.end(); ++number) {
      of = fmt::format("{} ({})", line.one, number);
    }
    out.push_back({.of = of, .unit = line.unit, .quantity = line.amount, .lines = {line}});
  }
  return out;
}

bool alike(const Have& a, const Have& b) {
  return std::ranges::equal(a.lines, b.lines, [](const SizedLine& one, const SizedLine& other) {
    return one.one == other.one && same(one.amount, other.amount) && one.detail == other.detail;
  });
}

/// "drinking water -10 L", "camp battery 75 Ah agm", "drinking water carried otherwise"; empty
/// where both have the same.
std::string change_of(const Have& now, const Have& own, units::System system) {
  const double more = now.quantity - own.quantity;
  const bool equal = same(more, 0);
  if (equal && alike(now, own)) return {};
  const SizedLine& line = now.lines.empty() ? own.lines.front() : now.lines.front();
  if (line.many.empty()) {
    return now.of + " " +
           (now.lines.empty() ? "none" : amount_words(line, line.amount, line.detail, system));
  }
  // As much of it in other cans, or in another vehicle.
  if (equal) return now.of + " carried otherwise";
  return fmt::format("{} {}{}", now.of, more > 0 ? "+" : "-",
                     quantity_words(std::abs(more), now.unit, system));
}

/// What a set takes more or less than the set for the margins as planned: a few words for each
/// thing, in the order of that set, and then what it does not have at all.
std::string takes(const std::vector<SizedLine>& lines, const std::vector<SizedLine>& own,
                  units::System system) {
  const std::vector<Have> now = haves(lines);
  const std::vector<Have> before = haves(own);
  const auto in = [](const std::vector<Have>& list, const Have& like) {
    const auto found = std::ranges::find(list, like.of, &Have::of);
    return found != list.end() ? *found : Have{.of = like.of, .unit = like.unit};
  };
  std::string out;
  const auto add = [&out](const std::string& change) {
    if (!change.empty()) units::add_to(out, change);
  };
  for (const Have& have : before) add(change_of(in(now, have), have, system));
  for (const Have& have : now) {
    if (std::ranges::find(before, have.of, &Have::of) == before.end()) {
      add(change_of(have, {.of = have.of}, system));
    }
  }
  return out;
}

}  // namespace

double TradeOffFigures::number(const answers::Totals& totals) const {
  if (costs) return rounded(totals.cost, 2, Toward::up);
  return rounded(units::display(units::Kind::mass, system).number(totals.kg), 0, Toward::up);
}

std::string TradeOffFigures::figure(double number) const {
  return costs ? cost_number(number) : units::format_number(number, units::decimals(0));
}

std::string TradeOffFigures::unit() const {
  return costs ? "" : fmt::format(" {}", units::display(units::Kind::mass, system).unit);
}

std::string size_trade_off(const SizeAnswer& answer, const TextOptions& options) {
  if (answer.trade_off.empty() || !answer.sizing.found) return {};
  const bool costs = answer.options.least == answers::Least::cost;
  const TradeOffTable table(answer, options);
  if (!options.all) return paragraph(table.one_day() + " --all shows more days.");
  return fmt::format("What one more day of margin {}\n", costs ? "costs" : "weighs") +
         table.text() + paragraph(trade_off_scope(answer.planned.plan));
}

std::string trade_off_margins(const TradeOff& row) {
  const double more_days = row.more_days;
  if (same(more_days, 0)) return "as planned";
  const std::string number = units::format_number(more_days, units::significant(3));
  const bool one = same(std::abs(more_days), 1);
  return fmt::format("{}{} {}", more_days > 0 ? "+" : "", number, one ? "day" : "days");
}

std::string trade_off_set(const TradeOff& row, const SizeAnswer& answer, units::System system) {
  if (!row.sizing.found) {
    return row.sizing.stopped    ? "not known: stopped"
           : row.sizing.given_up ? "not known: given up"
                                 : "not on offer";
  }
  std::string text = takes(row.sizing.found->lines, answer.sizing.found->lines, system);
  if (row.sizing.stopped || row.sizing.given_up) {
    text += text.empty() ? "or less: " : "; or less: ";
    text += row.sizing.stopped ? "stopped" : "given up";
  }
  if (text.empty()) text = same(row.more_days, 0) ? "the set above" : "the same set";
  return text;
}

std::string trade_off_scope(const plan::Plan& plan) {
  return fmt::format(
      "The margins of drinking water, utility water{} are moved. Fuel follows only through the "
      "mass; battery and cold stay as planned.",
      plan.consumables.empty() ? " and food" : ", food and consumables used by the day");
}

}  // namespace drystage::report
