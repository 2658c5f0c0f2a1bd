#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "drawing/plot.h"
#include "report/charts/charts.h"
#include "report/charts/picture.h"
#include "report/size/trade_off.h"
#include "report/size/words.h"
#include "report/text/words.h"

namespace drystage::report {
namespace {

using answers::TradeOff;
using drawing::Block;
using drawing::Point;
using drawing::Typesetter;

constexpr double row_pt = 30;
constexpr double set_dot_pt = 3;
constexpr double trade_words_gap_pt = 6;
constexpr double fine_grid_pt = 18;
constexpr double axis_number_pt = 60;

class TradeOffChart {
 public:
  TradeOffChart(const Typesetter& typesetter, const SizeAnswer& answer, units::System system)
      : typesetter_(typesetter),
        answer_(answer),
        system_(system),
        figures_{.costs = answer.options.least == answers::Least::cost, .system = system} {}

  [[nodiscard]] Block block() const {
    Block out;
    // The most days stand at the top.
    std::vector<const TradeOff*> rows;
    for (const TradeOff& row : answer_.trade_off) rows.insert(rows.begin(), &row);
    double names_pt = 0;
    for (const TradeOff* row : rows) {
      names_pt = std::max(names_pt, typesetter_.width(trade_off_margins(*row), body_font) + 1);
    }
    const std::vector<KeyItem> items{
        line_item(typesetter_, plan_line(), figures_.costs ? "cheapest set" : "lightest set"),
        line_item(typesetter_, must_line(),
                  "what the plan has: " + figures_.words(own()) +
                      (answer_.planned.verdict.holds ? "" : ", not enough"))};
    const Block above = key(typesetter_, items, picture.column_pt());
    for (const drawing::Mark& mark : above.marks) out.marks.push_back(mark);
    double y = above.height_pt + trade_words_gap_pt;
    const double left_pt = names_pt + trade_words_gap_pt;
    const double width_pt = picture.column_pt() - left_pt - trade_words_gap_pt;
    const drawing::Axis axis = axis_over(width_pt);
    drawing::Plot plot({.x = left_pt,
                        .y = y,
                        .width = width_pt,
                        .height = row_pt * static_cast<double>(rows.size())},
                       axis.low, axis.high, 0, static_cast<double>(rows.size()));
    plot.upright_lines(axis.fine_lines(), fine_grid());
    plot.upright_lines(axis.numbers(), strong_grid());
    draw(plot, rows);
    y = plot.frame().bottom() + 2;
    y = write_axis(plot, axis, y);
    for (drawing::Mark& mark : std::move(plot).marks()) out.marks.push_back(std::move(mark));
    out.height_pt = y;
    return out;
  }

  /// "+1 day: 225 kg, drinking water +20 L".
  [[nodiscard]] std::string words(const TradeOff& row) const {
    std::string text = capital(trade_off_margins(row)) + ": ";
    if (row.sizing.found) text += figures_.words(figures_.number(row.sizing.found->totals)) + ", ";
    const bool own_set = same(row.more_days, 0) && row.sizing.found;
    return text + (own_set ? "the set that these are compared with"
                           : trade_off_set(row, answer_, system_));
  }

 private:
  [[nodiscard]] double own() const { return figures_.number(answer_.sizing.plan_totals); }

  /// All points and the plan's own, and beside the last point room for its figure.
  [[nodiscard]] drawing::Axis axis_over(double width_pt) const {
    double low = own();
    double high = own();
    double figure_pt = 0;
    for (const TradeOff& row : answer_.trade_off) {
      if (!row.sizing.found) continue;
      const double now = figures_.number(row.sizing.found->totals);
      low = std::min(low, now);
      high = std::max(high, now);
      figure_pt = std::max(figure_pt, typesetter_.width(figures_.words(now), strong_font));
    }
    constexpr double least_share = 0.05;  // of the mass, lest a kilogram fill the chart
    high = std::max({high, low + least_share * std::abs(low), low + 1});
    const double room_pt = figure_pt + set_dot_pt + 2 * trade_words_gap_pt;
    const double per_pt = (high - low) / (width_pt - 2 * room_pt);
    return drawing::axis_over(std::max(0.0, low - room_pt * per_pt), high + room_pt * per_pt,
                              width_pt, fine_grid_pt, axis_number_pt);
  }

  void draw(drawing::Plot& plot, const std::vector<const TradeOff*>& rows) const {
    const drawing::Rect& frame = plot.frame();
    std::vector<Point> joined;
    std::vector<std::pair<Point, std::string>> points;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const double y = static_cast<double>(rows.size() - i) - 0.5;
      plot.level_lines({y}, strong_grid());
      write_left(plot, trade_off_margins(*rows[i]), plot.at(plot.across().from, y).y);
      if (!rows[i]->sizing.found) {
        plot.line(std::exchange(joined, {}), plan_line());
        continue;
      }
      const double x = figures_.number(rows[i]->sizing.found->totals);
      joined.push_back({.x = x, .y = y});
      points.emplace_back(plot.at(x, y), figures_.words(x));
    }
    plot.line(joined, plan_line());
    plot.line({{.x = own(), .y = plot.upward().from}, {.x = own(), .y = plot.upward().to}},
              must_line());
    for (const auto& [at, words] : points) {
      plot.add(drawing::dot(at, set_dot_pt));
      // Under the line and to its right: what is safer is heavier, so that the line leads up there.
      const double width = typesetter_.width(words, strong_font) + 1;
      drawing::Text text = typesetter_.text(words, strong_font,
                                            {.x = at.x + trade_words_gap_pt, .y = at.y + 1}, width);
      if (text.box.right() > frame.right()) text.box.x = at.x - trade_words_gap_pt - width;
      plot.add(drawing::filled(text.box, 1));
      plot.add(std::move(text));
    }
    plot.edge(edge_line());
  }

  void write_left(drawing::Plot& plot, const std::string& words, double middle_pt) const {
    const double width = plot.frame().x - trade_words_gap_pt;
    drawing::Text text =
        typesetter_.text(words, body_font, {.x = 0, .y = 0}, width, drawing::Align::right);
    text.box.y = middle_pt - text.box.height / 2;
    plot.add(std::move(text));
  }

  /// Numbers under the frame, and what they are. Answers where it ends.
  double write_axis(drawing::Plot& plot, const drawing::Axis& axis, double y) const {
    std::vector<drawing::Label> labels;
    for (const double at : axis.numbers()) {
      labels.push_back({.at_pt = plot.across().at_pt(at),
                        .words = units::format_number(at, units::decimals(axis.decimals))});
    }
    plot.add(row_of(typesetter_, labels, stride(typesetter_, labels, body_font, trade_words_gap_pt),
                    body_font, y, 0, picture.column_pt()));
    y += key_line_pt(typesetter_);
    const std::string what =
        figures_.costs ? "cost of the set" : "mass of the set," + figures_.unit();
    const drawing::Text text = typesetter_.text(what, body_font, {.x = plot.frame().x, .y = y},
                                                plot.frame().width, drawing::Align::centre);
    plot.add(text);
    return y + text.box.height;
  }

  const Typesetter& typesetter_;
  const SizeAnswer& answer_;
  units::System system_;
  TradeOffFigures figures_;
};

}  // namespace

drawing::Drawing trade_off_chart(const SizeAnswer& answer, units::System system) {
  constexpr double gap_pt = 8;
  const Typesetter typesetter;
  drawing::Flow flow(picture);
  write_trip(flow, typesetter, answer.planned);
  write(flow, typesetter, size_partial_words(answer), heading_font);
  write(flow, typesetter, size_first_words(answer, system), heading_font);
  write_warnings(flow, typesetter, answer.warnings);
  if (!answer.trade_off.empty() && answer.sizing.found) {
    const TradeOffChart chart(typesetter, answer, system);
    const bool costs = answer.options.least == answers::Least::cost;
    flow.add(drawing::space(gap_pt));
    write(flow, typesetter,
          fmt::format("What one more day of margin {}", costs ? "costs" : "weighs"), heading_font);
    flow.add(chart.block());
    flow.add(drawing::space(gap_pt));
    for (const TradeOff& row : answer.trade_off) {
      write(flow, typesetter, chart.words(row), body_font, 2);
    }
    flow.add(drawing::space(2));
    write(flow, typesetter, trade_off_scope(answer.planned.plan), body_font);
  }
  write_remarks(flow, typesetter, answer.sizing.remarks);
  write_cautions(flow, typesetter);
  return {.title = answer.planned.plan.trip.title, .pages = flow.pages(typesetter, {})};
}

}  // namespace drystage::report
