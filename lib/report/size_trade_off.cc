#include "report/size_trade_off.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "plan/utf8.h"
#include "report/layout.h"
#include "report/page.h"
#include "report/size_words.h"

namespace drystage::report {
namespace {

using answers::SizedLine;
using answers::TradeOff;

constexpr int bar_columns = 14;
constexpr const char* gap = "  ";

/// "+2 days", "-1 day", "as planned".
std::string margin_words(double more_days) {
  if (same(more_days, 0)) return "as planned";
  const std::string number = units::format_number(more_days, units::significant(3));
  const bool one = same(std::abs(more_days), 1);
  return fmt::format("{}{} {}", more_days > 0 ? "+" : "", number, one ? "day" : "days");
}

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
    if (!change.empty()) out += (out.empty() ? "" : ", ") + change;
  };
  for (const Have& have : before) add(change_of(in(now, have), have, system));
  for (const Have& have : now) {
    if (std::ranges::find(before, have.of, &Have::of) == before.end()) {
      add(change_of(have, {.of = have.of}, system));
    }
  }
  return out;
}

struct Row {
  std::string margins;
  std::string figure;
  std::string step;  ///< to the row before
  std::string bar;
  std::string takes;
};

class Table {
 public:
  Table(const SizeAnswer& answer, const TextOptions& options)
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
    const int margins = width(&Row::margins);
    const int figure = width(&Row::figure);
    const int step = width(&Row::step);
    const int bar = width(&Row::bar);
    std::string out;
    for (const Row& row : rows_) {
      const std::string label = right(row.margins, margins) + gap + right(row.figure, figure) +
                                gap + right(row.step, step) + gap + left(row.bar, bar) + gap;
      std::string line = wrap_after(label, row.takes, page_columns);
      line.resize(line.find_last_not_of(" \n") + 1);
      out += (&row == &rows_.front() ? strong(line, options_.color) : line) + "\n";
    }
    return out;
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

  [[nodiscard]] Row row_of(const TradeOff& row, const answers::Totals* before) const {
    Row out{
        .margins = margin_words(row.more_days), .figure = {}, .step = {}, .bar = {}, .takes = {}};
    if (!row.sizing.found) {
      out.takes = row.sizing.stopped    ? "not known: stopped"
                  : row.sizing.given_up ? "not known: given up"
                                        : "not on offer";
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
    out.takes = takes(found.lines, answer_.sizing.found->lines, options_.system);
    if (row.sizing.stopped || row.sizing.given_up) {
      out.takes += out.takes.empty() ? "or less: " : "; or less: ";
      out.takes += row.sizing.stopped ? "stopped" : "given up";
    }
    if (out.takes.empty()) out.takes = same(row.more_days, 0) ? "the set above" : "the same set";
    return out;
  }

  [[nodiscard]] int width(std::string Row::*cell) const {
    int most = 1;
    for (const Row& row : rows_) most = std::max(most, plan::columns(row.*cell));
    return most;
  }

  const SizeAnswer& answer_;
  const TextOptions& options_;
  bool costs_;
  double least_ = 0;  ///< of what is shown
  double one_ = 0;    ///< what one mark of a bar stands for; 0: there are no bars
  std::vector<Row> rows_;
};

}  // namespace

std::string size_trade_off(const SizeAnswer& answer, const TextOptions& options) {
  if (answer.trade_off.empty() || !answer.sizing.found) return {};
  const bool costs = answer.options.least == answers::Least::cost;
  return fmt::format("What a day more of safety {}\n", costs ? "costs" : "weighs") +
         Table(answer, options).text() +
         wrap(
             "The margins of drinking water, utility water and food are moved. Fuel follows only "
             "through the mass; battery and cold stay as planned.",
             page_columns) +
         "\n";
}

}  // namespace drystage::report
