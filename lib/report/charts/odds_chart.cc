#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "drawing/plot.h"
#include "report/charts/charts.h"
#include "report/charts/day_axis.h"
#include "report/charts/picture.h"
#include "report/odds/words.h"
#include "report/text/words.h"
#include "units/day.h"
#include "units/index.h"

namespace drystage::report {
namespace {

using drawing::Block;
using drawing::Point;

constexpr double strip_pt = 74;
constexpr double bars_pt = 26;

/// One reserve through the days: bands, margin, and the days of the first breach.
class OddsStrip {
 public:
  OddsStrip(const drawing::Typesetter& typesetter, const OddsAnswer& answer, std::size_t reserve,
            units::System system)
      : typesetter_(typesetter),
        answer_(answer),
        its_(answer.odds.reserves[reserve]),
        info_(answer.planned.course.reserves[reserve]),
        reserve_(reserve),
        system_(system),
        days_(static_cast<int>(its_.bands.size())) {}

  [[nodiscard]] Block block() const {
    Block out;
    std::string words =
        fmt::format("{}, {}: below its margin in {} of trips", capital(reserve_words(info_)),
                    unit(info_, system_), percent_words(its_.breach.chance));
    if (info_.sense == engine::Sense::keep_above) {
      words += fmt::format(", runs out in {}", percent_words(its_.dry.chance));
    }
    drawing::Text title =
        typesetter_.text(words, strong_font, {.x = 0, .y = 0}, picture.column_pt());
    double y = title.box.bottom() + 8;
    out.marks.emplace_back(std::move(title));
    y = add_levels(out, y);
    const int most = most_first();
    if (most > 0) y = add_first_days(out, y + 5, most);
    out.height_pt = y + 6;
    return out;
  }

 private:
  [[nodiscard]] double shown(double level) const { return display_number(info_, level, system_); }
  [[nodiscard]] double margin(int day) const {
    return answer_.planned.record.reserve(at(day), reserve_).margin;
  }

  double add_levels(Block& out, double top) const {
    const Across width = across(0, day_h * days_);
    double low = 0;
    double high = 0;
    bool first = info_.sense == engine::Sense::keep_below;
    for (int day = 0; day < days_; ++day) {
      const answers::LevelBand& band = its_.bands[at(day)];
      for (const double level : {band.p5, band.p95, margin(day)}) {
        if (std::isnan(level)) continue;
        low = first ? shown(level) : std::min(low, shown(level));
        high = first ? shown(level) : std::max(high, shown(level));
        first = false;
      }
    }
    if (high <= low) high = low + 1;
    const drawing::Axis axis = drawing::axis_over(low, high + (high - low) / 20, strip_pt, 7, 13);
    drawing::Plot plot(
        {.x = width.scale.from_pt, .y = top, .width = width.width_pt(), .height = strip_pt}, 0,
        day_h * days_, axis.low, axis.high);
    add_band(plot);
    plot.level_lines(axis.numbers(), faint_grid());
    day_lines(plot, {.first = 0, .count = days_}, strong_grid(), faint_grid());
    add_line(plot, plan_line(), [this](int day) { return its_.bands[at(day)].p50; });
    add_line(plot, margin_line(), [this](int day) { return margin(day); });
    plot.edge(edge_line());
    plot.numbers_left(typesetter_, axis, body_font);
    double y = plot.frame().bottom() + 2;
    y += day_labels(plot, typesetter_, answer_.planned, {.first = 0, .count = days_}, y,
                    picture.column_pt());
    for (drawing::Mark& mark : std::move(plot).marks()) out.marks.push_back(std::move(mark));
    return y;
  }

  /// A box for each day, from the level that 5 of 100 trips lie below to that of 95.
  void add_band(drawing::Plot& plot) const {
    for (int day = 0; day < days_; ++day) {
      const answers::LevelBand& band = its_.bands[at(day)];
      if (std::isnan(band.p50)) continue;
      const Point foot = plot.at(day_h * day, shown(band.p5));
      const Point top = plot.at(day_h * (day + 1), shown(band.p95));
      drawing::Shape box{
          .points = drawing::corners(
              {.x = foot.x, .y = top.y, .width = top.x - foot.x, .height = foot.y - top.y}),
          .closed = true};
      constexpr double band_grey = 0.82;
      box.fill_grey = band_grey;
      plot.add(std::move(box));
    }
  }

  /// A level line for each day.
  template <class Level>
  void add_line(drawing::Plot& plot, const drawing::Stroke& stroke, const Level& level) const {
    std::vector<Point> line;
    for (int day = 0; day < days_; ++day) {
      const double here = level(day);
      if (std::isnan(here) || std::isnan(its_.bands[at(day)].p50)) {
        plot.line(std::exchange(line, {}), stroke);
        continue;
      }
      line.push_back({.x = day_h * day, .y = shown(here)});
      line.push_back({.x = day_h * (day + 1), .y = shown(here)});
    }
    plot.line(line, stroke);
  }

  /// The most trips that first fall below on one day.
  [[nodiscard]] int most_first() const {
    std::uint64_t most = 0;
    for (int day = 0; day < days_; ++day) most = std::max(most, first_on(day));
    return static_cast<int>(most);
  }
  /// Of trips that take longer than the plan.
  [[nodiscard]] std::string later_words() const {
    std::uint64_t later = 0;
    for (std::size_t day = at(days_); day < its_.first_breach_days.size(); ++day) {
      later += its_.first_breach_days[day];
    }
    if (later == 0) return {};
    return fmt::format(
        " Later than day {}: {}.", days_,
        percent_words(static_cast<double>(later) / static_cast<double>(answer_.odds.trips)));
  }
  [[nodiscard]] std::uint64_t first_on(int day) const {
    return at(day) < its_.first_breach_days.size() ? its_.first_breach_days[at(day)] : 0;
  }

  double add_first_days(Block& out, double top, int most) const {
    const Across width = across(0, day_h * days_);
    const double share = 100.0 * most / static_cast<double>(answer_.odds.trips);
    drawing::Text title = typesetter_.text(
        fmt::format("First below its margin, by day. The highest bar is {:.2g} % of trips.{}",
                    share, later_words()),
        body_font, {.x = 0, .y = top}, picture.column_pt());
    const double from = title.box.bottom() + 2;
    out.marks.emplace_back(std::move(title));
    drawing::Plot plot(
        {.x = width.scale.from_pt, .y = from, .width = width.width_pt(), .height = bars_pt}, 0,
        day_h * days_, 0, most);
    for (int day = 0; day < days_; ++day) {
      if (first_on(day) == 0) continue;
      constexpr double side = 3;
      const Point foot = plot.at(day_h * day + side, 0);
      const Point tip = plot.at(day_h * (day + 1) - side, static_cast<double>(first_on(day)));
      drawing::Shape bar{
          .points = drawing::corners(
              {.x = foot.x, .y = tip.y, .width = tip.x - foot.x, .height = foot.y - tip.y}),
          .closed = true};
      constexpr double bar_grey = 0.35;
      bar.fill_grey = bar_grey;
      plot.add(std::move(bar));
    }
    plot.line({{.x = 0, .y = 0}, {.x = day_h * days_, .y = 0}}, edge_line());
    for (drawing::Mark& mark : std::move(plot).marks()) out.marks.push_back(std::move(mark));
    return from + bars_pt;
  }

  const drawing::Typesetter& typesetter_;
  const OddsAnswer& answer_;
  const answers::ReserveOdds& its_;
  const engine::ReserveInfo& info_;
  std::size_t reserve_;
  units::System system_;
  int days_;
};

}  // namespace

drawing::Drawing odds_chart(const OddsAnswer& answer, units::System system) {
  const drawing::Typesetter typesetter;
  drawing::Flow flow(picture);
  write_trip(flow, typesetter, answer.planned);
  write(flow, typesetter, odds_verdict_words(answer), heading_font);
  write(flow, typesetter, odds_dry_words(answer), body_font);
  write(flow, typesetter, odds_help_words(answer), body_font);
  write(flow, typesetter, odds_trips_words(answer), body_font);
  write_warnings(flow, typesetter, answer.warnings);
  constexpr double sample_pt = 26;
  KeyItem band{.words = "90 of 100 trips", .sample_pt = sample_pt};
  const double high = key_line_pt(typesetter);
  drawing::Shape box{
      .points = drawing::corners({.x = 0, .y = 2, .width = sample_pt, .height = high - 4}),
      .closed = true};
  box.fill_grey = 0.82;
  band.sample.emplace_back(std::move(box));
  const std::vector<KeyItem> items{
      line_item(typesetter, plan_line(), "half of the trips are below"), std::move(band),
      line_item(typesetter, margin_line(), "margin, as planned")};
  flow.add(key(typesetter, items, picture.column_pt()));
  for (const std::size_t r : told_reserves(answer, false)) {
    flow.add(OddsStrip(typesetter, answer, r, system).block());
  }
  write(flow, typesetter, "The lowest level of each day (cold: the warmest).", body_font, 2);
  write(flow, typesetter, std::string(odds_cautions), body_font, 0);
  write_cautions(flow, typesetter);
  return {.title = answer.planned.plan.trip.title, .pages = flow.pages(typesetter, {})};
}

}  // namespace drystage::report
