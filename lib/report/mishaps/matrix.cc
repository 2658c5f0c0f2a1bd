#include <fmt/core.h>

#include <algorithm>
#include <iterator>
#include <vector>

#include "plan/utf8.h"
#include "report/mishaps/words.h"
#include "report/text/layout.h"
#include "report/text/page.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::Finding;
using answers::Outcome;

constexpr int most_day_columns = 40;
/// Rows on one screen.
constexpr std::size_t most_rows = 12;
constexpr std::string_view strikes_head = "strikes on day";

/// Signs, the worst last: of a finding, by its place.
constexpr std::string_view signs = ".mdoX";
constexpr int only_a_margin = 1;
constexpr int drinking_empty = 2;
constexpr int worst_of_all = 4;

int severity(const Finding& finding) {
  switch (finding.outcome) {
    case Outcome::holds:
      return 0;
    case Outcome::eats_margin:
      return finding.stood_in > 0 ? drinking_empty : only_a_margin;
    case Outcome::runs_out:
      return 3;
    case Outcome::runs_out_vital:
      return worst_of_all;
  }
  return 0;
}

bool does_more(const Finding* finding) { return severity(*finding) > only_a_margin; }

std::string join(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) units::add_to(text, name_words(name));
  return text;
}

class Matrix {
 public:
  Matrix(const MishapsAnswer& answer, const TextOptions& options)
      : answer_(answer), options_(options) {
    days_ = static_cast<int>(answer.planned.record.days());
    for (const Finding& finding : answer.sweep.findings) days_ = std::max(days_, finding.day + 1);
    if (!options.wide) fold_ = std::max(1, (days_ + most_day_columns - 1) / most_day_columns);
    columns_ = (days_ + fold_ - 1) / fold_;
    fill_cells();
    choose_rows();
  }

  [[nodiscard]] std::string text() const {
    std::string out;
    if (!rows_.empty()) {
      out += heads();
      for (const std::size_t row : rows_) out += line(row);
      out += left_out() + "\n" + legend();
    }
    const std::string rest = others();
    if (!out.empty() && !rest.empty()) out += "\n";
    return out + rest;
  }

 private:
  void fill_cells() {
    cells_.assign(answer_.sweep.failures.size(), std::vector<int>(at(columns_), -1));
    for (const Finding& finding : answer_.sweep.findings) {
      const auto failure = at(finding.failure);
      int& cell = cells_[failure][at(finding.day / fold_)];
      cell = std::max(cell, severity(finding));
    }
  }

  /// How many of the worst have a row: on one screen those that do more than go below a margin,
  /// where there are any.
  [[nodiscard]] std::size_t rows_of(const std::vector<const Finding*>& worst) const {
    if (options_.all) return worst.size();
    const auto count = static_cast<std::size_t>(std::ranges::count_if(worst, does_more));
    return std::min(count > 0 ? count : worst.size(), most_rows);
  }

  /// Those that do harm, in the order of the sweep; of too many, the worst.
  void choose_rows() {
    std::vector<const Finding*> worst = worst_moments(answer_);
    std::stable_partition(worst.begin(), worst.end(), does_more);
    const std::size_t count = rows_of(worst);
    for (std::size_t i = 0; i < count; ++i) {
      rows_.push_back(at(worst[i]->failure));
    }
    if (count < worst.size()) {
      left_out_ = worst.size() - count;
      worst_left_out_ = severity(*worst[count]);
    }
    std::ranges::sort(rows_);
    label_ = static_cast<int>(strikes_head.size());
    for (const std::size_t row : rows_) {
      label_ = std::max(label_, plan::columns(answer_.sweep.failures[row].name));
    }
    if (!options_.wide) label_ = std::min(label_, table_columns() - 2 - columns_);
  }

  /// The number of each column's first day, written downwards.
  [[nodiscard]] std::string heads() const {
    const auto number = [this](int column) { return std::to_string(column * fold_ + 1); };
    const std::size_t lines = number(columns_ - 1).size();
    std::string out;
    for (std::size_t l = lines; l > 0; --l) {
      std::string text = right(l == 1 ? strikes_head : "", label_) + "  ";
      for (int column = 0; column < columns_; ++column) {
        const std::string digits = number(column);
        text += digits.size() >= l ? digits[digits.size() - l] : ' ';
      }
      out += text + "\n";
    }
    return out;
  }

  [[nodiscard]] std::string line(std::size_t row) const {
    std::string shown;
    for (const int cell : cells_[row]) shown += cell < 0 ? ' ' : signs[at(cell)];
    shown.erase(shown.find_last_not_of(' ') + 1);
    return left(answer_.sweep.failures[row].name, label_) + "  " + painted(shown) + "\n";
  }

  [[nodiscard]] std::string painted(const std::string& shown) const {
    if (!options_.color) return shown;
    std::string out;
    for (std::size_t at = 0; at < shown.size();) {
      const bool bad = shown[at] == 'X';
      std::size_t end = at;
      while (end < shown.size() && (shown[end] == 'X') == bad) ++end;
      const std::string run = shown.substr(at, end - at);
      out += bad ? alarming(run, options_.color) : run;
      at = end;
    }
    return out;
  }

  [[nodiscard]] std::string left_out() const {
    if (left_out_ == 0) return {};
    std::string at_worst = "which only go below a margin";
    if (worst_left_out_ > only_a_margin) {
      at_worst = "none of which ends " + vital_words(answer_.planned.plan);
    }
    if (worst_left_out_ == worst_of_all) at_worst = "some as bad as these";
    return paragraph(fmt::format("Not shown: {} more, {}. --all shows all.", left_out_, at_worst));
  }

  [[nodiscard]] std::string legend() const {
    const bool plain = answer_.sweep.plan_itself.outcome == Outcome::holds;
    const bool empties = std::ranges::any_of(rows_, [this](std::size_t row) {
      return std::ranges::find(cells_[row], drinking_empty) != cells_[row].end();
    });
    std::string out = paragraph(fmt::format(
        "X {} runs out, o something else,{} m below a margin, . {}, blank: {}.",
        vital_words(answer_.planned.plan), empties ? " d drinking containers empty," : "",
        plain ? "holds" : "no worse than without a mishap", mishaps_blank_words(answer_)));
    if (fold_ > 1) {
      out += fmt::format(
          "Each column stands for {} days and shows the worst of them; above it the first.\n",
          fold_);
    }
    return out;
  }

  /// Failures without a row.
  [[nodiscard]] std::string others() const {
    std::string out;
    for (const HarmlessFailures& group : harmless_failures(answer_)) {
      const std::string names = group.what + ": " + join(group.names) + ".";
      const bool counted = !options_.all && plan::columns(names) > page_columns();
      out += counted ? fmt::format("{}: {}. --all names them.\n", group.what, group.names.size())
                     : wrap(names, page_columns(), 2) + "\n";
    }
    return out;
  }

  const MishapsAnswer& answer_;
  const TextOptions& options_;
  int days_ = 0;
  int fold_ = 1;  ///< days to a column
  int columns_ = 0;
  std::vector<std::vector<int>> cells_;  ///< by failure and column: how severe, or -1
  std::vector<std::size_t> rows_;        ///< failures that are shown
  std::size_t left_out_ = 0;
  int worst_left_out_ = 0;
  int label_ = 0;
};

}  // namespace

std::string mishap_matrix(const MishapsAnswer& answer, const TextOptions& options) {
  return Matrix(answer, options).text();
}

}  // namespace drystage::report
