#include <fmt/core.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "drawing/plot.h"
#include "report/charts/charts.h"
#include "report/charts/day_axis.h"
#include "report/charts/picture.h"
#include "report/mishaps/words.h"
#include "report/text/words.h"
#include "units/index.h"
#include "units/list.h"

namespace drystage::report {
namespace {

using answers::Finding;
using answers::Outcome;
using drawing::Block;
using drawing::Mark;
using drawing::Point;
using drawing::Rect;
using drawing::Typesetter;

constexpr double widest_name_pt = 190;
constexpr double name_gap_pt = 6;
constexpr double least_cell_pt = 9;
constexpr double widest_cell_pt = 20;
constexpr double cell_height_pt = 10;
constexpr double row_gap_pt = 1.5;
constexpr double inset_pt = 0.75;

Point middle(const Rect& rect) {
  return {.x = rect.x + rect.width / 2, .y = rect.y + rect.height / 2};
}

void hatch_cell(std::vector<Mark>& marks, const Rect& cell) {
  constexpr double apart_pt = 3;
  for (Mark& line : drawing::hatch(drawing::corners(cell), cell, apart_pt, {.width_pt = 0.8})) {
    marks.push_back(std::move(line));
  }
}

void cross(std::vector<Mark>& marks, const Rect& cell) {
  constexpr double half_pt = 2.6;
  const drawing::Stroke white{.width_pt = 1.5, .dash_pt = {}, .grey = 1};
  const auto [x, y] = middle(cell);
  marks.emplace_back(drawing::line({.x = x - half_pt, .y = y - half_pt},
                                   {.x = x + half_pt, .y = y + half_pt}, white));
  marks.emplace_back(drawing::line({.x = x - half_pt, .y = y + half_pt},
                                   {.x = x + half_pt, .y = y - half_pt}, white));
}

/// The pattern of an outcome. Each has a form of its own, not a shade alone.
void draw_cell(std::vector<Mark>& marks, const Rect& cell, Outcome outcome) {
  constexpr double dark = 0.4;
  constexpr double dot_pt = 2.6;
  if (outcome == Outcome::runs_out) marks.emplace_back(drawing::filled(cell, dark));
  if (outcome == Outcome::runs_out_vital) marks.emplace_back(drawing::filled(cell, 0));
  if (outcome == Outcome::eats_margin) hatch_cell(marks, cell);
  if (outcome == Outcome::runs_out) marks.emplace_back(drawing::dot(middle(cell), dot_pt, 1));
  if (outcome == Outcome::runs_out_vital) cross(marks, cell);
  marks.emplace_back(drawing::outline(cell, {.width_pt = 0.6}));
}

class MishapChart {
 public:
  MishapChart(const Typesetter& typesetter, const MishapsAnswer& answer, units::System system)
      : typesetter_(typesetter), answer_(answer), system_(system) {
    days_ = static_cast<int>(answer.planned.record.days());
    for (const Finding& finding : answer.sweep.findings) days_ = std::max(days_, finding.day + 1);
    for (const Finding* finding : worst_moments(answer)) {
      rows_.push_back(at(finding->failure));
    }
    std::ranges::sort(rows_);
    fill_cells();
    double widest = typesetter_.width(head_words, body_font);
    for (const std::size_t row : rows_) {
      widest = std::max(widest, typesetter_.width(name(row), body_font));
    }
    name_pt_ = std::min(widest_name_pt, widest + 1);
    const double room = picture.column_pt() - name_pt_ - name_gap_pt;
    pieces_ = day_pieces(days_, room, least_cell_pt);
    cell_pt_ = std::min(widest_cell_pt, room / pieces_.front().count);
  }

  void lay(drawing::Flow& flow) const {
    constexpr double gap_pt = 8;
    write_trip(flow, typesetter_, answer_.planned);
    write(flow, typesetter_, mishaps_partial_words(answer_), heading_font);
    write(flow, typesetter_, mishaps_verdict_words(answer_, system_), heading_font);
    write(flow, typesetter_, mishaps_scope_words(answer_), body_font);
    write(flow, typesetter_, mishaps_plan_itself_words(answer_, system_), body_font);
    write_warnings(flow, typesetter_, answer_.warnings);
    if (!rows_.empty()) {
      flow.add(drawing::space(gap_pt));
      flow.add(key(typesetter_, key_items(), picture.column_pt()));
      for (const DayPiece& piece : pieces_) {
        flow.add(drawing::space(gap_pt));
        flow.repeat({head(piece)});
        for (const std::size_t row : rows_) flow.add(line(row, piece));
        flow.repeat_nothing();
      }
      flow.add(drawing::space(gap_pt));
    }
    for (const HarmlessFailures& group : harmless_failures(answer_)) {
      std::string names;
      for (const std::string& one : group.names) units::add_to(names, one);
      write(flow, typesetter_, group.what + ": " + names + ".", body_font);
    }
    const std::vector<const Finding*> worst = worst_moments(answer_);
    if (!worst.empty()) write(flow, typesetter_, worst_words(*worst.front()), strong_font);
    write_remarks(flow, typesetter_, answer_.sweep.remarks);
    write_cautions(flow, typesetter_);
  }

 private:
  static constexpr const char* head_words = "strikes on day";

  [[nodiscard]] std::string worst_words(const Finding& finding) const {
    return fmt::format("The worst: {}, on day {}. {}",
                       name_words(failure_name(answer_.sweep, finding.failure)), finding.day + 1,
                       capital(finding_words(answer_.planned, finding, system_)));
  }

  [[nodiscard]] const std::string& name(std::size_t failure) const {
    return answer_.sweep.failures[failure].name;
  }

  /// The worst of each day: an Outcome, or -1.
  void fill_cells() {
    cells_.assign(answer_.sweep.failures.size(), {});
    for (const std::size_t row : rows_) cells_[row].assign(at(days_), -1);
    for (const Finding& finding : answer_.sweep.findings) {
      std::vector<int>& cells = cells_[at(finding.failure)];
      if (cells.empty()) continue;
      int& cell = cells[at(finding.day)];
      cell = std::max(cell, static_cast<int>(finding.outcome));
    }
  }

  [[nodiscard]] std::vector<KeyItem> key_items() const {
    const bool plain = answer_.sweep.plan_itself.outcome == Outcome::holds;
    std::vector<KeyItem> out;
    const auto add = [&](Outcome outcome, std::string words) {
      KeyItem item{.words = std::move(words), .sample_pt = cell_height_pt + 2};
      const double y = (key_line_pt(typesetter_) - cell_height_pt) / 2;
      draw_cell(item.sample,
                {.x = 0, .y = y, .width = cell_height_pt + 2, .height = cell_height_pt}, outcome);
      out.push_back(std::move(item));
    };
    add(Outcome::runs_out_vital, vital_words(answer_.planned.plan) + " runs out");
    add(Outcome::runs_out, "something else runs out");
    add(Outcome::eats_margin, "below a margin");
    add(Outcome::holds, plain ? "holds" : "no worse than without a mishap");
    out.push_back({.words = "no box: " + mishaps_blank_words(answer_), .sample_pt = 0});
    return out;
  }

  [[nodiscard]] double left(const DayPiece& piece, int day) const {
    return name_pt_ + name_gap_pt + cell_pt_ * (day - piece.first);
  }

  /// Numbers of the days, and under them as many dates as there is room for.
  [[nodiscard]] Block head(const DayPiece& piece) const {
    constexpr double gap_pt = 4;
    Block out;
    std::vector<drawing::Label> numbers;
    std::vector<drawing::Label> dates;
    for (int day = piece.first; day < piece.first + piece.count; ++day) {
      const double at = left(piece, day) + cell_pt_ / 2;
      numbers.push_back({.at_pt = at, .words = fmt::format("{}", day + 1)});
      dates.push_back({.at_pt = at, .words = short_date(date_of(answer_.planned, day))});
    }
    double y = 0;
    const auto row = [&](const std::vector<drawing::Label>& labels, const drawing::Font& font,
                         double from_pt) {
      const std::size_t every = stride(typesetter_, labels, font, gap_pt);
      for (Mark& mark : row_of(typesetter_, labels, every, font, y, from_pt, picture.column_pt())) {
        out.marks.push_back(std::move(mark));
      }
      y += key_line_pt(typesetter_);
    };
    out.marks.emplace_back(typesetter_.text(head_words, body_font, {}, name_pt_));
    row(numbers, strong_font, name_pt_);
    row(dates, body_font, 0);
    out.height_pt = y + 1;
    out.with_next = true;
    return out;
  }

  [[nodiscard]] Block line(std::size_t failure, const DayPiece& piece) const {
    Block out;
    const drawing::Text words =
        typesetter_.text(name(failure), body_font, {.x = 0, .y = row_gap_pt}, name_pt_);
    out.height_pt = std::max(words.box.height, cell_height_pt + 2 * inset_pt) + 2 * row_gap_pt;
    const double right = left(piece, piece.first + piece.count);
    out.marks.emplace_back(
        drawing::line({.x = 0, .y = out.height_pt}, {.x = right, .y = out.height_pt}, fine_grid()));
    out.marks.emplace_back(words);
    for (int day = piece.first; day < piece.first + piece.count; ++day) {
      const int outcome = cells_[failure][static_cast<std::size_t>(day)];
      if (outcome < 0) continue;
      draw_cell(out.marks,
                {.x = left(piece, day) + inset_pt,
                 .y = (out.height_pt - cell_height_pt) / 2,
                 .width = cell_pt_ - 2 * inset_pt,
                 .height = cell_height_pt},
                static_cast<Outcome>(outcome));
    }
    return out;
  }

  const Typesetter& typesetter_;
  const MishapsAnswer& answer_;
  units::System system_;
  int days_ = 0;
  std::vector<std::size_t> rows_;        ///< failures that do harm
  std::vector<std::vector<int>> cells_;  ///< by failure and day; empty without a row
  double name_pt_ = 0;
  std::vector<DayPiece> pieces_;
  double cell_pt_ = 0;
};

}  // namespace

drawing::Drawing mishap_chart(const MishapsAnswer& answer, units::System system) {
  const Typesetter typesetter;
  const MishapChart chart(typesetter, answer, system);
  const std::string& title = answer.planned.plan.trip.title;
  drawing::Flow flow(picture);
  chart.lay(flow);
  std::vector<drawing::Page> pages = flow.pages(typesetter, title);
  if (pages.front().height_pt > drawing::a4.height_pt) {
    drawing::Paper paper = picture;
    paper.height_pt = drawing::a4.height_pt;
    drawing::Flow paged(paper);
    chart.lay(paged);
    pages = paged.pages(typesetter, title);
  }
  return {.title = title, .pages = std::move(pages)};
}

}  // namespace drystage::report
